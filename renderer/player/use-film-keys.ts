import type { PlayView } from '../../electron/service/views.ts';
import { useCommand } from '../commands/Commands.tsx';
import { otherClip, snapFrameOn } from './angles.ts';
import type { ClipPlayer } from './clip-player.ts';

/** Shows the play's next angle at the same instant. */
export function switchAngle(player: ClipPlayer, play: PlayView): void {
  const { clip } = player.state.get();
  const other = clip && otherClip(play.clips, clip.filmId, clip.angle);
  if (!clip || !other) return;
  void player.switchTo(other, {
    here: snapFrameOn(play, clip.filmId),
    there: snapFrameOn(play, other.filmId),
  });
}

/** Binds the film keys to a player. */
export function useFilmKeys(player: ClipPlayer, play: PlayView | null): void {
  useCommand('film.play', () => player.toggle());
  useCommand('film.back', () => player.step(-1));
  useCommand('film.forward', () => player.step(1));
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
    if (play) switchAngle(player, play);
  });
}
