import type { PlayView } from '../../electron/service/views.ts';
import { useStore } from '../state/store.ts';
import type { ClipPlayer } from './clip-player.ts';
import classes from './StretchTrack.module.css';

/** Where the shown frame lies within the clip, and its moments as ticks. A slider for mouse and keyboard. */
export function StretchTrack({
  player,
  play,
}: {
  readonly player: ClipPlayer;
  readonly play: PlayView | null;
}) {
  const { clip, frame } = useStore(player.state);
  if (!clip) return <span className={classes.track} />;
  const length = Math.max(1, clip.outFrame - 1 - clip.inFrame);
  const share = (at: number) => `${(100 * (at - clip.inFrame)) / length}%`;
  const moments = (play?.stamped ?? []).filter((moment) => moment.filmId === clip.filmId);
  return (
    <span className={classes.track}>
      <input
        type="range"
        className={classes.range}
        min={clip.inFrame}
        max={clip.outFrame - 1}
        value={frame ?? clip.inFrame}
        onChange={(event) => player.goTo(Number(event.currentTarget.value))}
        // a drag hands the keys back to the film
        onPointerUp={(event) => event.currentTarget.blur()}
        aria-label="Frame within the clip"
        aria-valuetext={`frame ${frame ?? clip.inFrame}`}
      />
      <span className={classes.ticks} aria-hidden>
        {moments.map((moment) => (
          <i key={moment.kind} style={{ left: share(moment.frame) }} title={moment.kind}>
            {moment.kind[0]!.toUpperCase()}
          </i>
        ))}
      </span>
    </span>
  );
}
