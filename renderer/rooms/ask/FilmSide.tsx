import { Button } from '@mantine/core';
import { useMemo } from 'react';
import { PlayThrough } from '../../player/PlayThrough.tsx';
import { useStore } from '../../state/store.ts';
import classes from './ask.module.css';
import { askActions, askStore } from './ask-store.ts';
import { FacetsPanel } from './facets/FacetsPanel.tsx';
import { MakeCutup } from './MakeCutup.tsx';

/** The film of the number that was chosen, with its own numbers over it; until one is, every value under the question. */
export function FilmSide() {
  const { playing } = useStore(askStore);
  const items = useMemo(() => playing?.playIds.map((playId) => ({ playId })) ?? [], [playing?.playIds]);
  return (
    <section className={classes.film} aria-label={playing ? 'Film' : 'Values'}>
      {playing ? (
        <>
          <div className={classes.filmHead}>
            <h2 className={classes.filmTitle} title={playing.title}>
              {playing.title}
            </h2>
            <Button onClick={askActions.values}>Values</Button>
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
        <FacetsPanel />
      )}
    </section>
  );
}
