import { Link } from 'wouter';
import type { GameView } from '../../../electron/service/views.ts';
import classes from './LogRoom.module.css';

export function NothingToLog({ game }: { readonly game: GameView | null }) {
  return (
    <div className={classes.nothing}>
      <h1>{game ? `${game.title} has no plays and no film yet` : 'There is no game in this library yet'}</h1>
      <p>
        Bring film in first: <Link href="/film">go to the Film room</Link>. Each file can become a play, or
        one long recording can be cut into plays here with the keys <kbd>I</kbd> and <kbd>O</kbd>.
      </p>
    </div>
  );
}
