import type { PlayView } from '../../../../electron/service/views.ts';
import { MOMENT_KINDS, type MomentKind } from '../../../../football/play.ts';
import { secondsToThrow } from '../known-play.ts';
import classes from './MomentStrip.module.css';

const LABELS: Readonly<Record<MomentKind, string>> = {
  snap: 'Snap',
  release: 'Release',
  catch: 'Catch',
  contact: 'Contact',
  whistle: 'Whistle',
};

/** The five moments of a play: the key that stamps each on the frame shown, and when after the snap it came. */
export function MomentStrip(props: {
  readonly play: PlayView;
  /** film on the screen; its own stamps are shown before another angle's */
  readonly filmId: string | null;
  readonly pending: MomentKind | null;
  readonly onStamp: (kind: MomentKind) => void;
  readonly onGoTo: (frame: number) => void;
}) {
  const { play, filmId, pending, onStamp, onGoTo } = props;
  const stampOf = (kind: MomentKind) =>
    play.stamped.find((each) => each.kind === kind && each.filmId === filmId) ??
    play.stamped.find((each) => each.kind === kind);
  const toThrow = secondsToThrow(play);
  return (
    <div className={classes.strip}>
      <ul className={classes.list} aria-label="Moments">
        {MOMENT_KINDS.map((kind, index) => {
          const stamp = stampOf(kind);
          const snap = play.stamped.find((each) => each.kind === 'snap' && each.filmId === stamp?.filmId);
          const after =
            stamp && snap && kind !== 'snap' ? `+${(stamp.seconds - snap.seconds).toFixed(2)} s` : null;
          const guess = kind === 'snap' && !stamp ? play.predictedSnaps?.[0] : undefined;
          const here = stamp?.filmId === filmId;
          const when =
            pending === kind
              ? 'saving'
              : stamp
                ? (after ?? `frame ${stamp.frame}`)
                : guess
                  ? `about ${guess.frame}?`
                  : '–';
          return (
            <li key={kind}>
              <button
                type="button"
                className={classes.moment}
                data-set={stamp !== undefined || undefined}
                data-guess={guess !== undefined || undefined}
                data-pending={pending === kind || undefined}
                aria-label={`${LABELS[kind]}: ${stamp ? when : guess ? `predicted on frame ${guess.frame}, not stamped` : 'not stamped'}. Stamp it on this frame`}
                title={
                  stamp && here
                    ? `Stamped on frame ${stamp.frame}. Click to stamp anew (${index + 1}); right-click goes there.`
                    : guess
                      ? `Predicted on frame ${guess.frame}; right-click goes there, ${index + 1} stamps the frame shown`
                      : `Stamp on the frame shown (${index + 1})`
                }
                onMouseDown={(event) => event.preventDefault()}
                onClick={() => onStamp(kind)}
                onContextMenu={(event) => {
                  event.preventDefault();
                  if (stamp && here) onGoTo(stamp.frame);
                  else if (guess?.filmId === filmId) onGoTo(guess.frame);
                }}
              >
                <span className={classes.name}>
                  <kbd>{index + 1}</kbd>
                  {LABELS[kind]}
                </span>
                <span className={classes.when}>{when}</span>
              </button>
            </li>
          );
        })}
      </ul>
      {toThrow !== null && (
        <p className={classes.throw} data-testid="time-to-throw">
          Time to throw <strong>{toThrow.toFixed(2)} s</strong>
        </p>
      )}
    </div>
  );
}
