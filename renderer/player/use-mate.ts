import { useEffect } from 'react';
import type { FilmView, PlayView } from '../../electron/service/views.ts';
import { changePlays } from '../service/gesture.ts';
import { playCalls } from '../service/play-calls.ts';
import { useFilms } from '../service/queries.ts';
import { useStore } from '../state/store.ts';
import { angleSide } from './angle-sync.ts';
import { otherClip, snapFrameOn } from './angles.ts';
import type { ClipPlayer } from './clip-player.ts';
import { layoutStore } from './layout.ts';
import type { PlayedClip, WantedMate } from './player-state.ts';

/** The play's next angle after the one that leads, and what holds the two together; null where there is no other. */
export function sidesOf(
  play: PlayView,
  leading: Pick<PlayedClip, 'filmId' | 'angle'>,
  films: readonly FilmView[],
): WantedMate | null {
  const here = play.clips.find((clip) => clip.filmId === leading.filmId && clip.angle === leading.angle);
  const there = otherClip(play.clips, leading.filmId, leading.angle);
  if (!here || !there) return null;
  const sideOf = (clip: typeof here) =>
    angleSide(
      clip,
      snapFrameOn(play, clip.filmId),
      films.find((film) => film.filmId === clip.filmId),
    );
  return { clip: there, lead: sideOf(here), side: sideOf(there) };
}

/** Keeps the play's other angle beside the leading one, as the layout says. */
export function useMate(player: ClipPlayer, play: PlayView | null): void {
  const layout = useStore(layoutStore);
  const { clip } = useStore(player.state);
  const { data: films = [] } = useFilms();
  const sides = layout !== 'single' && play && clip ? sidesOf(play, clip, films) : null;
  const what = JSON.stringify(sides);
  // what holds the angles together is known by its content: a tag that is set changes the play, not this
  useEffect(() => void player.setMate(sides), [player, what, clip?.filmId]);
}

/** Moves the other angle by frames against the leading one, and keeps that in the library. */
export async function moveMate(player: ClipPlayer, play: PlayView, by: number): Promise<void> {
  const { clip, frame, mate } = player.state.get();
  if (!clip || frame === null || !mate || mate.frame === null) return;
  const leadClip = play.clips.find((each) => each.filmId === clip.filmId && each.angle === clip.angle);
  const mateClip = play.clips.find(
    (each) => each.filmId === mate.clip.filmId && each.angle === mate.clip.angle,
  );
  const moved = player.mateFrameMoved(by);
  if (!leadClip || !mateClip || moved === null) return;
  player.pause();
  // a lock that is there is changed where it is, so that there are never two that say different things
  const onLead = leadClip.lock?.filmId === mateClip.filmId;
  await changePlays(() =>
    onLead
      ? playCalls.lockClip(leadClip.clipId, { frame, filmId: mateClip.filmId, filmFrame: moved })
      : playCalls.lockClip(mateClip.clipId, { frame: moved, filmId: leadClip.filmId, filmFrame: frame }),
  );
}

/** Lets the snap, the time code or the clips' starts hold the angles together again. */
export async function letMateGo(play: PlayView): Promise<void> {
  for (const clip of play.clips) {
    if (clip.lock) await changePlays(() => playCalls.lockClip(clip.clipId, null));
  }
}
