import { Button } from '@mantine/core';
import type { FilmView, GameView } from '../../../electron/service/views.ts';
import type { BringInActions } from './bring-in/BringIn.tsx';
import { FilmRow } from './FilmRow.tsx';
import classes from './film.module.css';
import { useProxyCommands, useProxyJobs } from './use-proxies.ts';

interface FilmListProps {
  readonly films: readonly FilmView[];
  readonly game: GameView | null;
  readonly actions: BringInActions;
}

/** The films of a game as they were probed. */
export function FilmList({ films, game, actions }: FilmListProps) {
  const jobs = useProxyJobs();
  useProxyCommands(films);
  if (films.length === 0) {
    return (
      <div className={classes.empty}>
        <h2>{game ? 'This game has no film yet.' : 'Nothing has been brought in yet.'}</h2>
        <p>
          Drop film files or a folder here, or choose them. Film stays where it lies: nothing is copied and
          nothing is written to it. One file may be one play, or a whole game in which plays are marked later.
        </p>
        <Button variant="filled" onClick={actions.addFiles}>
          Bring film in
        </Button>
        <p>Plays can also come from a breakdown sheet (CSV or XLSX), with or without film.</p>
        <Button onClick={actions.importSheet}>Bring plays in from a sheet</Button>
      </div>
    );
  }
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
    <section className={classes.scroll} tabIndex={0} aria-label="Films of the game" data-print-flow>
      <table className={classes.films}>
        <thead>
          <tr>
            <th scope="col">Still</th>
            <th scope="col">Film</th>
            <th scope="col">Angle</th>
            <th scope="col" className={classes.number}>
              Length
            </th>
            <th scope="col" className={classes.number}>
              Frames
            </th>
            <th scope="col" className={classes.number}>
              Rate
            </th>
            <th scope="col">Picture</th>
            <th scope="col">In the window</th>
            <th scope="col" className={classes.number}>
              Clips
            </th>
          </tr>
        </thead>
        <tbody>
          {films.map((film) => (
            <FilmRow
              key={film.filmId}
              film={film}
              job={jobs.get(film.filmId) ?? null}
              onRelink={() => actions.relink(film)}
            />
          ))}
        </tbody>
      </table>
    </section>
  );
}
