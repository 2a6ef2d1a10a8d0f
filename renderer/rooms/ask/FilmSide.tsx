import { useMemo } from 'react';
import { PlayThrough } from '../../player/PlayThrough.tsx';
import { useStore } from '../../state/store.ts';
import classes from './ask.module.css';
import { askStore } from './ask-store.ts';
import { MakeCutup } from './MakeCutup.tsx';

/** The film of the number that was chosen, with its own numbers over it. */
export function FilmSide() {
  const { playing } = useStore(askStore);
  const items = useMemo(() => playing?.playIds.map((playId) => ({ playId })) ?? [], [playing?.playIds]);
  return (
    <section className={classes.film} aria-label="Film">
      {playing ? (
        <>
          <div className={classes.filmHead}>
            <h2 className={classes.filmTitle} title={playing.title}>
              {playing.title}
            </h2>
            <MakeCutup
              label="Cut-up of these"
              command="ask.cutupOfFilm"
              name={playing.title}
              playIds={playing.playIds}
            />
          </div>
          <PlayThrough items={items} turn={playing.turn} />
        </>
      ) : (
        <p className={classes.noFilm}>
          Choose any number, row or column: its plays run here.
          <br />
          In the table the arrow keys move, Enter plays.
        </p>
      )}
    </section>
  );
}
