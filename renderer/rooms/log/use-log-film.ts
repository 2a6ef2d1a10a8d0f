import { useEffect, useRef, useState } from 'react';
import type { Angle, FilmView, PlayView } from '../../../electron/service/views.ts';
import { clipOf } from '../../player/angles.ts';
import { ClipPlayer } from '../../player/clip-player.ts';
import type { PlayedClip } from '../../player/player-state.ts';

/** Plays the film of the play that is logged, in the angle that was chosen last; makes the next play's film ready. */
export function useLogFilm(play: PlayView | null, next: PlayView | null, open: FilmView | null): ClipPlayer {
  const [player] = useState(() => new ClipPlayer());
  const angle = useRef<Angle>('sideline');
  const first = useRef(true);
  const clip = play && clipOf(play, angle.current);

  // the angle is kept from play to play
  useEffect(
    () =>
      player.state.subscribe(() => {
        const shown = player.state.get().clip;
        if (shown) angle.current = shown.angle;
      }),
    [player],
  );

  const playId = play?.playId ?? null;
  const clips = play?.clips.length ?? 0;
  // a clip is loaded when its play comes up, not when a tag changes
  useEffect(() => {
    const shown = player.state.get();
    if (clip) void player.load(clip, { play: !first.current });
    else if (open) {
      // a recording is run on from where it stands
      const at = shown.clip?.filmId === open.filmId ? (shown.frame ?? 0) : 0;
      void player.load(wholeFilm(open), { at });
    } else void player.load(null);
    first.current = false;
    const ahead = next && clipOf(next, angle.current);
    player.warm([
      ...(play?.clips ?? []).filter((each) => each.filmId !== clip?.filmId).map((each) => each.filmId),
      ...(ahead ? [ahead.filmId] : []),
    ]);
  }, [player, playId, clips, open?.filmId]);

  return player;
}

export function wholeFilm(film: FilmView): PlayedClip {
  return { filmId: film.filmId, angle: film.angle, inFrame: 0, outFrame: film.frames };
}
