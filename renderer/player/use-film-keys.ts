import type { FilmView, PlayView } from '../../electron/service/views.ts';
import { useCommand, useHeldCommand } from '../commands/Commands.tsx';
import { useFilms } from '../service/queries.ts';
import { snapFrameOn } from './angles.ts';
import type { ClipPlayer } from './clip-player.ts';
import { nextLayout } from './layout.ts';
import { letMateGo, moveMate, sidesOf, useMate } from './use-mate.ts';

/** Shows the play's next angle at the same instant; of two on the screen, they change places. */
export function switchAngle(player: ClipPlayer, play: PlayView, films: readonly FilmView[]): void {
  const { clip } = player.state.get();
  const sides = clip && sidesOf(play, clip, films);
  if (sides) void player.switchTo(sides.clip, { here: sides.lead, there: sides.side });
}

/** Binds the film keys to a player, and keeps the other angle beside it. */
export function useFilmKeys(player: ClipPlayer, play: PlayView | null): void {
  const { data: films = [] } = useFilms();
  useMate(player, play);
  const beside = () => player.state.get().mate !== null;
  useCommand('film.play', () => player.toggle());
  useCommand('film.reverse', () => player.toggleBackwards());
  useHeldCommand(
    'film.back',
    () => player.step(-1),
    () => player.runWhile(-1),
  );
  useHeldCommand(
    'film.forward',
    () => player.step(1),
    () => player.runWhile(1),
  );
  useCommand('film.backSlower', () => player.runSlower(-1));
  useCommand('film.forwardSlower', () => player.runSlower(1));
  useCommand('film.runBack', () => player.runBack());
  useCommand('film.slower', () => player.nextRate());
  useCommand('film.jumpBack', () => player.jump(-1));
  useCommand('film.jumpForward', () => player.jump(1));
  useCommand('film.snap', () => {
    const { clip } = player.state.get();
    const frame = play && clip ? snapFrameOn(play, clip.filmId) : null;
    if (frame !== null) player.goTo(frame);
  });
  useCommand('film.angle', () => {
    if (play) switchAngle(player, play, films);
  });
  useCommand('film.layout', nextLayout);
  useCommand('film.mateEarlier', () => void (play && moveMate(player, play, -1)), beside);
  useCommand('film.mateLater', () => void (play && moveMate(player, play, 1)), beside);
  useCommand(
    'film.mateFree',
    () => void (play && letMateGo(play)),
    () => beside() && (play?.clips.some((clip) => clip.lock !== null) ?? false),
  );
}
