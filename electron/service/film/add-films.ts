import { readdirSync, statSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { v7 as uuidv7 } from 'uuid';
import type { Change } from '../../../db/journal/edit.ts';
import { findFilm, playsOfFilm, rememberPlace } from '../../../db/repositories/film.ts';
import type { Problem, Result } from '../../../football/result.ts';
import { isFilmName } from '../../film/film-files.ts';
import type { FilmProbe } from '../../film/film-types.ts';
import { guessAngle, naturalOrder } from '../../film/names.ts';
import { probeFilms } from '../../film/probe.ts';
import { gameForTitle } from '../actions/games.ts';
import { clipChanges, newPlayChanges } from '../actions/tags.ts';
import type { JobContext } from '../jobs/jobs.ts';
import type { Station } from '../station.ts';
import type { Angle } from '../views.ts';
import { PlayPlaces } from './play-places.ts';
import { wantProxies } from './proxies.ts';
import { filmIdOf, shelve } from './shelf.ts';

export interface AddFilms {
  readonly paths: readonly string[];
  readonly gameTitle: string;
  /** null: read from the file's name */
  readonly angle: Angle | null;
  readonly onePlayPerFile: boolean;
}

export interface AddedFilm {
  readonly filmId: string;
  readonly path: string;
  readonly frames: number;
  readonly fps: number;
  readonly seconds: number;
  readonly width: number;
  readonly height: number;
  readonly codec: string;
  readonly angle: Angle;
  /** the same content was in the library already */
  readonly known: boolean;
}

export interface AddReport {
  readonly added: AddedFilm[];
  /** `play`: the play whose place the file would have had, kept so that the files after it stay with theirs */
  readonly refused: { path: string; reason: string; play?: number }[];
  /** plays made, and plays that got another angle */
  readonly plays: { made: number; paired: number };
  /** films that the window cannot play, whose proxies will be made in the background */
  proxies: number;
}

/**
 * Brings film in: looks into each file, keeps its frame table, and (one play a file) makes plays of the files or
 * pairs them with the other angle's plays. Films already known by their content are recognised, so doing it
 * again after it was cut off only does the rest. Nothing is copied and nothing is written to the film.
 */
export async function addFilms(
  station: Station,
  input: AddFilms,
  context: Partial<JobContext> = {},
): Promise<AddReport> {
  const report: AddReport = { added: [], refused: [], plays: { made: 0, paired: 0 }, proxies: 0 };
  const files = listFilms(input.paths, report);
  if (files.length === 0) return report;
  const gameId = gameForTitle(station, input.gameTitle);
  const places = new PlayPlaces(station.library, gameId, input.angle, files);
  // plays are made in the order of the files, whatever order the files are known in
  const waiting = new Map<number, Result<FilmProbe>>();
  let next = 0;
  for await (const probed of probeFilms(files, context.signal ? { signal: context.signal } : {})) {
    if (context.signal?.aborted) break;
    waiting.set(probed.index, probed.result);
    for (; waiting.has(next); next += 1) {
      const result = waiting.get(next)!;
      waiting.delete(next);
      if (result.ok) addFilm(station, gameId, input, result.value, places, report);
      else refuse(station, gameId, input, { path: files[next]!, problem: result.problem }, places, report);
      context.progress?.((next + 1) / files.length);
      context.report?.(report);
    }
  }
  report.proxies = wantProxies(
    station,
    report.added.map((film) => film.filmId),
    // without a job around it, this process ends before the proxies would be made
    context.signal ? 'now' : 'later',
  );
  context.report?.(report);
  context.signal?.throwIfAborted();
  return report;
}

/** A file that cannot be read: the play that it shows keeps its place, else every file after it would show another play. */
function refuse(
  station: Station,
  gameId: string,
  input: AddFilms,
  { path, problem }: { path: string; problem: Problem },
  places: PlayPlaces,
  report: AddReport,
): void {
  const reason = problem.next ? `${problem.message} ${problem.next}` : problem.message;
  const place = input.onePlayPerFile && isFilmName(basename(path)) ? places.keep(path) : null;
  if (!place) {
    report.refused.push({ path, reason });
    return;
  }
  if (place.fresh) {
    station.library.journal.commit(
      { label: `keep the place of ${basename(path)}`, origin: 'made' },
      newPlayChanges(place.playId, gameId, place.playNumber),
    );
    report.plays.made += 1;
  }
  const kept = `Play ${place.playNumber} keeps its place without this film.`;
  report.refused.push({ path, reason: `${reason} ${kept}`, play: place.playNumber });
}

/** Files named, and the film files of folders named, in natural order. What is not there is refused. */
function listFilms(paths: readonly string[], report: AddReport): string[] {
  const files: string[] = [];
  for (const given of paths) {
    const path = resolve(given);
    const stats = statSync(path, { throwIfNoEntry: false });
    if (!stats) report.refused.push({ path, reason: `There is no file ${path}. Check the name.` });
    else if (!stats.isDirectory()) files.push(path);
    else {
      const inside = readdirSync(path, { recursive: true, withFileTypes: true })
        .filter((e) => e.isFile() && !e.name.startsWith('.') && isFilmName(e.name))
        .map((e) => join(e.parentPath, e.name));
      if (inside.length === 0)
        report.refused.push({
          path,
          reason: 'No film was found in this folder. Choose the folder the film is in.',
        });
      files.push(...inside);
    }
  }
  return naturalOrder([...new Set(files)]);
}

function addFilm(
  station: Station,
  gameId: string,
  input: AddFilms,
  probe: FilmProbe,
  places: PlayPlaces,
  report: AddReport,
): void {
  const { library } = station;
  const filmId = filmIdOf(probe);
  const angle = input.angle ?? guessAngle(probe.path) ?? 'other';
  const known = findFilm(library, filmId);
  shelve(library, filmId, probe);
  const changes: Change[] = known ? [] : filmChanges(filmId, gameId, angle, probe);
  if (known && known.clips > 0) places.pass(probe.path, playsOfFilm(library, filmId));
  else if (input.onePlayPerFile) {
    const { playId, playNumber, fresh } = places.next(probe.path);
    if (fresh) {
      changes.push(...newPlayChanges(playId, gameId, playNumber));
      report.plays.made += 1;
    } else report.plays.paired += 1;
    changes.push(...clipChanges(uuidv7(), { playId, filmId, angle, inFrame: 0, outFrame: probe.frames }));
  }
  library.journal.commit({ label: `bring in ${basename(probe.path)}`, origin: 'made' }, changes);
  report.added.push({
    filmId,
    path: probe.path,
    frames: probe.frames,
    fps: probe.fps,
    seconds: probe.seconds,
    width: probe.width,
    height: probe.height,
    codec: probe.codec,
    angle: (known?.angle as Angle | undefined) ?? angle,
    known: known !== null,
  });
}

export function filmChanges(filmId: string, gameId: string | null, angle: Angle, probe: FilmProbe): Change[] {
  const at = { entity: 'film', id: filmId };
  return [
    { ...at, field: 'removed', value: 0 },
    { ...at, field: 'gameId', value: gameId },
    { ...at, field: 'name', value: basename(probe.path) },
    { ...at, field: 'angle', value: angle },
    {
      ...at,
      field: 'media',
      value: [probe.frames, probe.fps, probe.seconds, probe.width, probe.height, probe.codec],
    },
  ];
}

/** A film that moved: remembers its new place when the content there is the same. */
export function relinkTo(station: Station, filmId: string, probe: FilmProbe): boolean {
  if (filmIdOf(probe) !== filmId) return false;
  rememberPlace(station.library, {
    filmId,
    path: probe.path,
    bytes: probe.bytes,
    modifiedMs: probe.modifiedMs,
  });
  return true;
}
