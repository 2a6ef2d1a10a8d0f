import { useQuery } from '@tanstack/react-query';
import type { GameView } from '../../../../electron/service/views.ts';
import type { BoxScore } from '../../../../football/box/box-score.ts';
import { Dialog } from '../../../parts/Dialog.tsx';
import { keys } from '../../../service/cache.ts';
import { service } from '../../../service/client.ts';
import { problemFrom } from '../../../service/http.ts';
import { BoxTables } from './BoxTables.tsx';
import classes from './box.module.css';

const COUNTING: Readonly<Record<BoxScore['sackYards'], string>> = {
  teamPassing: 'A sack is no rush; its yards come off the team’s passing.',
  rushing: 'A sack is a rush by the passer, and its yards are lost rushing.',
};

/** The box score of a game, made anew from its plays each time it is opened. */
export function BoxDialog(props: {
  readonly game: GameView;
  readonly opened: boolean;
  readonly onClose: () => void;
}) {
  const { game, opened, onClose } = props;
  const { data: score, error } = useQuery({
    queryKey: keys.box(game.gameId),
    queryFn: () => service.box(game.gameId),
    enabled: opened,
    retry: false,
  });
  const problem = error ? problemFrom(error) : null;
  return (
    <Dialog opened={opened} onClose={onClose} title={`Box score: ${game.title}`} size={960}>
      {problem && (
        <p className={classes.note}>
          {problem.message} {problem.next}
        </p>
      )}
      {score && (
        <>
          <p className={classes.note}>
            {COUNTING[score.sackYards]} What is not logged is not counted. A name opens its plays.
          </p>
          <BoxTables game={game.title} score={score} onFilm={onClose} />
        </>
      )}
    </Dialog>
  );
}
