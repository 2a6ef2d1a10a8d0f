import { Select } from '@mantine/core';
import { IconLayoutGrid, IconVideo } from '@tabler/icons-react';
import classes from './LogBar.module.css';
import { DriveStrip } from './ribbon/DriveStrip.tsx';
import type { Log } from './use-log.ts';

/** The game, its drives, how much of it is logged, and the way to the grid. */
export function LogBar(props: {
  readonly log: Log;
  readonly ours: string | null;
  readonly grid: boolean;
  readonly onGrid: () => void;
}) {
  const { log, ours, grid, onGrid } = props;
  const logged = log.plays.filter((play) => play.logged).length;
  return (
    <div className={classes.bar}>
      <Select
        aria-label="Game"
        className={classes.game}
        data={log.games.map((game) => ({ value: game.gameId, label: game.title }))}
        value={log.game?.gameId ?? null}
        onChange={(gameId) => gameId && log.goToGame(gameId)}
        allowDeselect={false}
      />
      <div className={classes.drives}>
        <DriveStrip
          groups={log.groups}
          current={log.group}
          playId={log.play?.playId ?? ''}
          ours={ours}
          onChoose={log.goTo}
        />
      </div>
      <span className={classes.logged}>
        <strong>{logged}</strong> of {log.plays.length} logged
      </span>
      <button
        type="button"
        className={classes.grid}
        aria-pressed={grid}
        title="Grid for many plays (B)"
        onClick={onGrid}
      >
        {grid ? <IconVideo size={15} aria-hidden /> : <IconLayoutGrid size={15} aria-hidden />}
        {grid ? 'Film' : 'Grid'}
      </button>
    </div>
  );
}
