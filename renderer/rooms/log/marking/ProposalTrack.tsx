import type { FilmView } from '../../../../electron/service/views.ts';
import type { ClipPlayer } from '../../../player/clip-player.ts';
import { useStore } from '../../../state/store.ts';
import classes from './ProposalTrack.module.css';
import type { ProposedPlays } from './use-proposals.ts';

const ANGLE = { sideline: 'sideline', endzone: 'end zone', other: 'angle unknown' } as const;

/** The proposed plays of a recording on a track of the whole film; dashed, because nobody has said yet that they are plays. */
export function ProposalTrack(props: {
  readonly film: FilmView;
  readonly player: ClipPlayer;
  readonly proposed: ProposedPlays;
}) {
  const { film, player, proposed } = props;
  const { clip, frame } = useStore(player.state);
  const { list, at } = proposed.proposals;
  const chosen = list[at];
  const share = (f: number) => `${(100 * f) / Math.max(1, film.frames)}%`;
  if (proposed.looking !== null) {
    return (
      <div className={classes.bar} role="status">
        Looking for the plays of {film.name}: {Math.round(100 * proposed.looking)} %
      </div>
    );
  }
  if (!proposed.looked) {
    return (
      <div className={classes.bar}>
        <button type="button" className={classes.button} onClick={proposed.find}>
          Find the plays of this recording <kbd>Shift P</kbd>
        </button>
        <span>Proposals only: you accept, move or leave out each one.</span>
      </div>
    );
  }
  if (!chosen) return null;
  const plays = new Set(list.map((p) => p.play)).size;
  return (
    <section className={classes.bar} aria-label="Proposed plays">
      <div className={classes.track}>
        {list.map((p, n) => (
          <button
            type="button"
            key={`${p.inFrame}-${p.outFrame}`}
            className={classes.stretch}
            data-chosen={n === at || undefined}
            style={{ left: share(p.inFrame), width: share(p.outFrame - p.inFrame) }}
            aria-label={`Proposed play ${p.play}, ${ANGLE[p.angle]}, frames ${p.inFrame} to ${p.outFrame - 1}`}
            aria-pressed={n === at}
            tabIndex={n === at ? 0 : -1}
            onClick={() => proposed.goTo(n)}
          />
        ))}
        {clip?.filmId === film.filmId && frame !== null && (
          <i className={classes.here} style={{ left: share(frame) }} aria-hidden />
        )}
      </div>
      <p className={classes.words}>
        <span className={classes.guess}>
          Proposed {at + 1} of {list.length}
        </span>
        <span>
          {ANGLE[chosen.angle]}, frames {chosen.inFrame}–{chosen.outFrame - 1}
          {chosen.snapFrame !== null && `, snap about ${chosen.snapFrame}`}
        </span>
        <button type="button" className={classes.button} onClick={proposed.accept}>
          Accept <kbd>K</kbd>
        </button>
        <button type="button" className={classes.button} onClick={proposed.acceptAll}>
          Accept all {plays} <kbd>Shift K</kbd>
        </button>
        <span className={classes.keys}>
          <kbd>J</kbd> <kbd>L</kbd> move on · <kbd>Shift J</kbd> in · <kbd>Shift L</kbd> out · <kbd>P</kbd>{' '}
          join · <kbd>M</kbd> split · <kbd>H</kbd> leave out
        </span>
      </p>
    </section>
  );
}
