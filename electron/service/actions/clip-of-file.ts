import { v7 as uuidv7 } from 'uuid';
import { findFilm } from '../../../db/repositories/film.ts';
import { findPlay } from '../../../db/repositories/games.ts';
import { ProblemError } from '../../../football/result.ts';
import { guessAngle } from '../../film/names.ts';
import { probeFilm } from '../../film/probe.ts';
import { filmChanges } from '../film/add-films.ts';
import { filmIdOf, shelve } from '../film/shelf.ts';
import type { Station } from '../station.ts';
import type { Angle } from '../views.ts';
import { gameForTitle } from './games.ts';
import { newPlayChanges, setClip } from './tags.ts';

export interface ClipOfFile {
  readonly gameTitle: string;
  readonly playNumber: number;
  readonly path: string;
  readonly inFrame: number;
  readonly outFrame: number;
  /** null: the film's own, else as its name tells */
  readonly angle: Angle | null;
}

/**
 * Makes a play's clip from a stretch of a film file, or changes it. The film is brought in, and the play is made, where
 * they are not there yet.
 * @throws ProblemError why the film cannot be read, `clip-range`
 */
export async function clipOfFile(
  station: Station,
  wanted: ClipOfFile,
): Promise<{
  clipId: string;
  playId: string;
  filmId: string;
  angle: Angle;
  inFrame: number;
  outFrame: number;
}> {
  const probe = await probeFilm(wanted.path);
  if (!probe.ok) throw new ProblemError(probe.problem);
  const { frames } = probe.value;
  const { inFrame, outFrame } = wanted;
  if (inFrame < 0 || outFrame <= inFrame || outFrame > frames) {
    throw new ProblemError({
      code: 'clip-range',
      message: `${wanted.path} has ${frames} frames; a clip from ${inFrame} up to ${outFrame} does not lie in it.`,
      kept: 'Nothing was changed.',
      next: `Give an in-frame from 0 and an out-frame after it, at most ${frames}.`,
    });
  }
  const filmId = filmIdOf(probe.value);
  const known = findFilm(station.library, filmId);
  const angle = wanted.angle ?? (known?.angle as Angle | undefined) ?? guessAngle(wanted.path) ?? 'other';
  const gameId = gameForTitle(station, wanted.gameTitle);
  const there = findPlay(station.library, gameId, wanted.playNumber);
  const playId = there ?? uuidv7();
  shelve(station.library, filmId, probe.value);
  station.library.journal.commit({ label: `bring in play ${wanted.playNumber}`, origin: 'made' }, [
    ...(known ? [] : filmChanges(filmId, gameId, angle, probe.value)),
    ...(there ? [] : newPlayChanges(playId, gameId, wanted.playNumber)),
  ]);
  const { clipId } = setClip(station, { playId, filmId, angle, inFrame, outFrame });
  return { clipId, playId, filmId, angle, inFrame, outFrame };
}
