import { Button, Popover } from '@mantine/core';
import { useState } from 'react';
import type { GameView } from '../../../../electron/service/views.ts';
import { useCommand } from '../../../commands/Commands.tsx';
import { chooseGame } from '../film-store.ts';
import classes from './games.module.css';
import { NewGame } from './NewGame.tsx';

interface GameListProps {
  readonly games: readonly GameView[];
  readonly chosen: string | null;
  readonly opponents: readonly string[];
}

/** The staff's games, each with how much of it is logged. */
export function GameList({ games, chosen, opponents }: GameListProps) {
  const [adding, setAdding] = useState(false);
  useCommand('game.add', () => setAdding(true));
  return (
    <nav className={classes.side} aria-label="Games">
      <div className={classes.head}>
        <h2>Games</h2>
        <Popover
          opened={adding}
          onChange={setAdding}
          position="bottom-start"
          width={300}
          trapFocus
          shadow="md"
        >
          <Popover.Target>
            <Button onClick={() => setAdding((now) => !now)}>Add a game</Button>
          </Popover.Target>
          <Popover.Dropdown aria-label="A new game">
            {adding && <NewGame opponents={opponents} onDone={() => setAdding(false)} />}
          </Popover.Dropdown>
        </Popover>
      </div>
      {games.length === 0 && (
        <p className={classes.none}>No game yet. Add one, or bring film in: its game is made with it.</p>
      )}
      <ul className={classes.list}>
        {games.map((game) => (
          <li key={game.gameId}>
            <button
              type="button"
              className={classes.game}
              aria-current={game.gameId === chosen}
              onClick={() => chooseGame(game.gameId)}
            >
              <span className={classes.title}>{game.title}</span>
              <span className={classes.when}>{whenWords(game)}</span>
              <span className={classes.numbers}>
                {game.plays === 0 ? 'no plays' : `${game.logged} of ${game.plays} plays logged`},{' '}
                {game.films === 1 ? '1 film' : `${game.films} films`}
              </span>
              <span className={classes.track} aria-hidden="true">
                <i style={{ width: `${game.plays ? (100 * game.logged) / game.plays : 0}%` }} />
              </span>
            </button>
          </li>
        ))}
      </ul>
    </nav>
  );
}

function whenWords(game: GameView): string {
  return [
    game.season === null ? '' : `${game.season}`,
    game.week === null ? '' : `week ${game.week}`,
    game.date ?? '',
    game.opponent && !game.title.includes(game.opponent) ? `against ${game.opponent}` : '',
  ]
    .filter(Boolean)
    .join(' · ');
}
