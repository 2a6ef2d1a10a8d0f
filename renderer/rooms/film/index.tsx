import { useFilms, useGames, useVocabulary } from '../../service/queries.ts';
import { useStore } from '../../state/store.ts';
import { BringIn } from './bring-in/BringIn.tsx';
import { FilmList } from './FilmList.tsx';
import classes from './film.module.css';
import { chosenGameStore } from './film-store.ts';
import { GameHead } from './GameHead.tsx';
import { GameList } from './games/GameList.tsx';
import { ImportJobs } from './ImportJobs.tsx';

/** Games on the left; the film of the one that is chosen, and what brings film and plays in. */
export default function FilmRoom() {
  const { data: games } = useGames();
  const { data: films } = useFilms();
  const { data: vocabulary } = useVocabulary();
  const chosen = useStore(chosenGameStore);
  if (!games || !films || !vocabulary) return null;
  const game = games.find((each) => each.gameId === chosen) ?? games.at(-1) ?? null;
  const shown = films.filter((film) => (game ? film.gameId === game.gameId : true));
  return (
    <BringIn game={game} games={games} vocabulary={vocabulary}>
      {(actions) => (
        <div className={classes.room} data-print-flow>
          <h1 className="unseen">Film</h1>
          <GameList games={games} chosen={game?.gameId ?? null} opponents={vocabulary.teams.opponents} />
          <div className={classes.main} data-print-flow>
            <GameHead game={game} films={shown} actions={actions} />
            <ImportJobs />
            <FilmList films={shown} game={game} actions={actions} />
          </div>
        </div>
      )}
    </BringIn>
  );
}
