import { useState } from 'react';
import { useCommand } from '../../commands/Commands.tsx';
import { useFilms, useVocabulary } from '../../service/queries.ts';
import { BulkGrid } from './grid/BulkGrid.tsx';
import { LogBar } from './LogBar.tsx';
import classes from './LogRoom.module.css';
import { opponentOf, useVocabularyIndex } from './line/vocabulary-index.ts';
import { openFilms } from './marking/open-film.ts';
import { NothingToLog } from './NothingToLog.tsx';
import { TagDesk } from './TagDesk.tsx';
import { useLog } from './use-log.ts';

/** The Log room: film, drive ribbon above, log line below, play card beside; or the grid. */
export default function LogRoom() {
  const log = useLog();
  const { data: vocabulary } = useVocabulary();
  const { data: films = [] } = useFilms();
  const [grid, setGrid] = useState(false);
  const ours = vocabulary?.teams.ours ?? null;
  const index = useVocabularyIndex(vocabulary, opponentOf(log.game?.opponent ?? null, log.plays, ours ?? ''));
  useCommand('log.grid', () => setGrid((now) => !now));

  if (log.loading || !vocabulary || !index) return <p className={classes.waiting}>Opening the game…</p>;
  const recordings = log.game ? openFilms(films, log.game.gameId, log.plays) : [];
  if (!log.game || (log.plays.length === 0 && recordings.length === 0))
    return <NothingToLog game={log.game} />;
  return (
    <div className={classes.room}>
      <h1 className="unseen">Log</h1>
      <LogBar log={log} ours={ours} grid={grid} onGrid={() => setGrid((now) => !now)} />
      {grid ? (
        <BulkGrid
          plays={log.plays}
          vocabulary={vocabulary}
          index={index}
          startAt={log.at}
          onOpen={(playId) => {
            log.goTo(playId);
            setGrid(false);
          }}
        />
      ) : (
        <TagDesk
          log={log}
          vocabulary={vocabulary}
          index={index}
          films={films}
          recording={recordings[0] ?? null}
        />
      )}
    </div>
  );
}
