import { Button, Menu } from '@mantine/core';
import { useState } from 'react';
import { useLocation } from 'wouter';
import type { FilmView, GameView } from '../../../electron/service/views.ts';
import { useCommand } from '../../commands/Commands.tsx';
import { goToPlace } from '../../state/place.ts';
import { BoxDialog } from './box/BoxDialog.tsx';
import type { BringInActions } from './bring-in/BringIn.tsx';
import classes from './film.module.css';

interface GameHeadProps {
  readonly game: GameView | null;
  readonly films: readonly FilmView[];
  readonly actions: BringInActions;
}

/** The chosen game and what can be done for it. */
export function GameHead({ game, films, actions }: GameHeadProps) {
  const [, navigate] = useLocation();
  const missing = films.filter((film) => film.path === null).length;
  const log = () => {
    if (!game) return;
    goToPlace({ gameId: game.gameId, playId: null });
    navigate('/log');
  };
  const [boxOpen, setBoxOpen] = useState(false);
  useCommand('game.log', log);
  useCommand(
    'game.box',
    () => setBoxOpen(true),
    () => game !== null,
  );
  return (
    <header className={classes.head} data-noprint>
      <div className={classes.headWords}>
        <h2>{game?.title ?? 'No game yet'}</h2>
        <p className={classes.sub}>
          {films.length === 1 ? '1 film' : `${films.length} films`}
          {missing > 0 && <span className={classes.missing}> · {missing} not where they were</span>}
        </p>
      </div>
      {missing > 0 && <Button onClick={actions.relinkFolder}>Find missing film in a folder</Button>}
      <Menu position="bottom-end">
        <Menu.Target>
          <Button>Plays as a table</Button>
        </Menu.Target>
        <Menu.Dropdown>
          <Menu.Item onClick={actions.importSheet}>Bring plays in from a CSV or XLSX sheet</Menu.Item>
          <Menu.Item disabled={!game || game.plays === 0} onClick={() => actions.exportSheet('.csv')}>
            Write this game’s plays as CSV
          </Menu.Item>
          <Menu.Item disabled={!game || game.plays === 0} onClick={() => actions.exportSheet('.xlsx')}>
            Write this game’s plays as XLSX
          </Menu.Item>
        </Menu.Dropdown>
      </Menu>
      {game && <Button onClick={() => setBoxOpen(true)}>Box score</Button>}
      {game && <Button onClick={log}>Log this game</Button>}
      <Button onClick={actions.addFolder}>Bring a folder in</Button>
      <Button variant="filled" onClick={actions.addFiles}>
        Bring film in
      </Button>
      {game && <BoxDialog game={game} opened={boxOpen} onClose={() => setBoxOpen(false)} />}
    </header>
  );
}
