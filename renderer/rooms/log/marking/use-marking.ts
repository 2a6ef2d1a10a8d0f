import { useState } from 'react';
import type { FilmView, GameView, PlayView } from '../../../../electron/service/views.ts';
import { useCommand } from '../../../commands/Commands.tsx';
import type { ClipPlayer } from '../../../player/clip-player.ts';
import { changePlays, gesture } from '../../../service/gesture.ts';
import { takeIn } from '../../../service/play-cache.ts';
import { playCalls } from '../../../service/play-calls.ts';

export interface Mark {
  readonly filmId: string;
  readonly inFrame: number;
}

export interface Marking {
  readonly mark: Mark | null;
  /** the player runs over the bounds of the clip */
  readonly whole: boolean;
  /** a sentence for the bar over the film */
  readonly words: string | null;
}

/** Marks plays in a long recording, and moves the bounds of clips. */
export function useMarking(
  player: ClipPlayer,
  game: GameView | null,
  play: PlayView | null,
  films: readonly FilmView[],
  onMade: (playId: string) => void,
): Marking {
  const [mark, setMark] = useState<Mark | null>(null);
  const [whole, setWhole] = useState(false);
  const [words, setWords] = useState<string | null>(null);

  const here = () => {
    const { clip, frame } = player.state.get();
    return clip && frame !== null ? { filmId: clip.filmId, angle: clip.angle, frame } : null;
  };
  const filmOf = (filmId: string) => films.find((film) => film.filmId === filmId);
  const widen = () => {
    const film = filmOf(player.state.get().clip?.filmId ?? '');
    if (film) player.bound({ inFrame: 0, outFrame: film.frames });
    setWhole(true);
  };
  const clipHere = () => play?.clips.find((clip) => clip.filmId === player.state.get().clip?.filmId);

  useCommand('film.whole', () => {
    const clip = clipHere();
    if (!whole) return widen();
    setWhole(false);
    if (clip) player.bound(clip);
  });

  useCommand('clip.in', () => {
    const at = here();
    if (!at) return;
    setMark({ filmId: at.filmId, inFrame: at.frame });
    widen();
    setWords(`In on frame ${at.frame}. O marks out.`);
  });

  useCommand('clip.out', () => void markOut());
  useCommand('clip.trimIn', () => void trim('in'));
  useCommand('clip.trimOut', () => void trim('out'));

  async function markOut(): Promise<void> {
    const at = here();
    if (!at || !game) return;
    if (!mark || mark.filmId !== at.filmId) return setWords('Mark in first (I), on this film.');
    if (at.frame < mark.inFrame)
      return setWords(`Out lies before in (frame ${mark.inFrame}). Run on, then O.`);
    // a play that has no clip of this angle yet takes it; else a new play is made behind this one
    const taken = !play || play.clips.some((clip) => clip.angle === at.angle);
    let playId = play?.playId ?? null;
    if (taken || !playId) {
      const made = await gesture(() => playCalls.add(game.gameId, play?.playId ?? null));
      if (!made) return;
      takeIn(made.changed);
      playId = made.playId;
    }
    const id = playId;
    const changed = await changePlays(() =>
      playCalls.setClip({
        playId: id,
        filmId: at.filmId,
        angle: at.angle,
        inFrame: mark.inFrame,
        outFrame: at.frame + 1,
      }),
    );
    if (!changed) return;
    setMark(null);
    setWhole(false);
    setWords(null);
    onMade(id);
  }

  async function trim(end: 'in' | 'out'): Promise<void> {
    const at = here();
    const clip = clipHere();
    if (!at || !clip || !play) return;
    const bounds =
      end === 'in'
        ? { inFrame: at.frame, outFrame: clip.outFrame }
        : { inFrame: clip.inFrame, outFrame: at.frame + 1 };
    if (bounds.outFrame <= bounds.inFrame) return setWords('A clip must start before it ends.');
    const changed = await changePlays(() =>
      playCalls.setClip({
        playId: play.playId,
        clipId: clip.clipId,
        filmId: clip.filmId,
        angle: clip.angle,
        ...bounds,
      }),
    );
    if (!changed) return;
    if (!whole) player.bound(bounds);
    setWords(end === 'in' ? `Clip starts on frame ${at.frame}.` : `Clip ends with frame ${at.frame}.`);
  }

  return { mark, whole, words };
}
