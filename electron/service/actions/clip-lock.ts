import type { Change } from '../../../db/journal/edit.ts';
import { clipsOfPlays, findClip } from '../../../db/repositories/film.ts';
import { findGame, findPlay } from '../../../db/repositories/games.ts';
import { ProblemError } from '../../../football/result.ts';
import { filmOrProblem } from '../film/shelf.ts';
import type { Station } from '../station.ts';
import type { Angle, ChangedView, ClipLock } from '../views.ts';
import { changedView } from './play-views.ts';

/**
 * Holds a clip to another film by hand: the two frames show the same instant. `null` lets the snap, the time code or the
 * clips' starts decide again.
 * @throws ProblemError `clip-unknown`, `film-unknown`, `lock-frame`
 */
export function lockClip(station: Station, clipId: string, lock: ClipLock | null): ChangedView {
  const clip = findClip(station.library, clipId);
  if (!clip) throw problem('clip-unknown', 'This clip is not in the library; it may have been removed.');
  if (lock) {
    within(station, clip.filmId, lock.frame);
    within(station, lock.filmId, lock.filmFrame);
    if (lock.filmId === clip.filmId) throw problem('lock-frame', 'A clip cannot be held to its own film.');
  }
  commit(station, lock !== null, [lockChange(clipId, lock)]);
  return changedView(station, [clip.playId]);
}

export interface LockOfPlay {
  readonly gameTitle: string;
  readonly playNumber: number;
  /** two angles with a frame of each, leading angle first; null: no longer by hand */
  readonly frames: readonly [readonly [Angle, number], readonly [Angle, number]] | null;
}

/**
 * The same for a play's angles by name.
 * @throws ProblemError `game-unknown`, `play-unknown`, `clip-unknown` and those of `lockClip`
 */
export function lockPlay(station: Station, wanted: LockOfPlay): { playId: string; locked: boolean } {
  const game = findGame(station.library, wanted.gameTitle);
  const playId = game && findPlay(station.library, game.id, wanted.playNumber);
  if (!playId)
    throw problem('play-unknown', `${wanted.gameTitle} has no play ${wanted.playNumber} in this library.`);
  const clips = clipsOfPlays(station.library, [playId]);
  if (!wanted.frames) {
    const held = clips.filter((clip) => clip.lockFilmId !== null);
    commit(
      station,
      false,
      held.map((clip) => lockChange(clip.id, null)),
    );
    return { playId, locked: false };
  }
  const [[leadAngle, filmFrame], [angle, frame]] = wanted.frames;
  const lead = clips.find((clip) => clip.angle === leadAngle);
  const mate = clips.find((clip) => clip.angle === angle);
  if (!lead || !mate || lead.id === mate.id)
    throw problem(
      'clip-unknown',
      `Play ${wanted.playNumber} has no clips of the angles ${leadAngle} and ${angle}.`,
    );
  within(station, lead.filmId, filmFrame);
  within(station, mate.filmId, frame);
  commit(station, true, [
    // an older lock the other way round would contradict this one
    ...(lead.lockFilmId === mate.filmId ? [lockChange(lead.id, null)] : []),
    lockChange(mate.id, { frame, filmId: lead.filmId, filmFrame }),
  ]);
  return { playId, locked: true };
}

function lockChange(clipId: string, lock: ClipLock | null): Change {
  const value = lock && [lock.frame, lock.filmId, lock.filmFrame];
  return { entity: 'clip', id: clipId, field: 'lock', value };
}

function commit(station: Station, locks: boolean, changes: readonly Change[]): void {
  const label = locks ? 'hold the angles together' : 'let the angles go';
  station.library.journal.commit({ label }, changes);
}

function within(station: Station, filmId: string, frame: number): void {
  const film = filmOrProblem(station.library, filmId);
  if (frame >= 0 && frame < film.frames) return;
  throw problem('lock-frame', `${film.name} has frames 0 to ${film.frames - 1}, not ${frame}.`);
}

function problem(code: string, message: string): ProblemError {
  return new ProblemError({
    code,
    message,
    kept: 'Nothing was changed.',
    next: 'Give clips and frames that are there.',
  });
}
