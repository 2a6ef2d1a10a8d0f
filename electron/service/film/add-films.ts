import { readdirSync, statSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { v7 as uuidv7 } from 'uuid';
import type { Change } from '../../../db/journal/edit.ts';
import { findFilm, rememberPlace } from '../../../db/repositories/film.ts';
import { isFilmName } from '../../film/film-files.ts';
import type { FilmProbe } from '../../film/film-types.ts';
import { guessAngle, guessPlayNumbers, naturalOrder } from '../../film/names.ts';
import { probeFilms } from '../../film/probe.ts';
import { gameForTitle } from '../actions/games.ts';
import { clipChanges, newPlayChanges } from '../actions/tags.ts';
import type { JobContext } from '../jobs/jobs.ts';
import type { Station } from '../station.ts';
import type { Angle } from '../views.ts';
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
  readonly refused: { path: string; reason: string }[];
  /** plays made, and plays that got another angle */
  readonly plays: { made: number; paired: number };
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
  const report: AddReport = { added: [], refused: [], plays: { made: 0, paired: 0 } };
  const files = listFilms(input.paths, report);
  if (files.length === 0) return report;
  const gameId = gameForTitle(station, input.gameTitle);
  const places = new PlayPlaces(station, gameId, input, files);
  // plays are made in the order of the files, whatever order the files are known in
  const waiting = new Map<number, FilmProbe | null>();
  let next = 0;
  for await (const probed of probeFilms(files, context.signal ? { signal: context.signal } : {})) {
    if (context.signal?.aborted) break;
    waiting.set(probed.index, probed.result.ok ? probed.result.value : null);
    if (!probed.result.ok)
      report.refused.push({ path: probed.path, reason: reasonOf(probed.result.problem) });
    for (; waiting.has(next); next += 1) {
      const probe = waiting.get(next);
      waiting.delete(next);
      if (probe) addFilm(station, gameId, input, probe, places, report);
      context.progress?.((next + 1) / files.length);
      context.report?.(report);
    }
  }
  context.signal?.throwIfAborted();
  return report;
}

function reasonOf(problem: { message: string; next?: string }): string {
  return problem.next ? `${problem.message} ${problem.next}` : problem.message;
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
  if (input.onePlayPerFile && !(known && known.clips > 0)) {
    const place = places.next(probe.path, angle);
    const { playId } = place;
    if (place.playNumber !== null) {
      changes.push(...newPlayChanges(playId, gameId, place.playNumber));
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

interface PlayPlace {
  readonly playId: string;
  /** the number of a play that is new; null for a play that is there */
  readonly playNumber: number | null;
}

/**
 * Which play a file shows. Where the names carry play numbers (all of one angle, each once), the number says it. Else the
 * files of an angle are taken in order: the next play that has film but not of this angle, or a new play.
 */
class PlayPlaces {
  private readonly byNumber = new Map<number, string>();
  private readonly order: { playId: string; number: number; angles: Set<string> }[];
  private readonly numbers: ReadonlyMap<string, number | null>;
  private readonly numbered: ReadonlySet<Angle>;

  constructor(station: Station, gameId: string, input: AddFilms, files: readonly string[]) {
    this.order = (
      station.library.db
        .prepare(
          `SELECT p.id AS playId, coalesce(p.play_number, 0) AS number, coalesce(group_concat(c.angle), '') AS angles
           FROM plays p LEFT JOIN clips c ON c.play_id = p.id AND c.removed = 0
           WHERE p.game_id = ? AND p.removed = 0 GROUP BY p.id ORDER BY p.play_number, p.id`,
        )
        .all(gameId) as { playId: string; number: number; angles: string }[]
    ).map((p) => ({ ...p, angles: new Set(p.angles.split(',').filter(Boolean)) }));
    for (const p of this.order) this.byNumber.set(p.number, p.playId);
    const numbers = guessPlayNumbers(files);
    this.numbers = new Map(files.map((file, i) => [file, numbers[i] ?? null]));
    this.numbered = numberedAngles(this.numbers, input.angle);
  }

  next(path: string, angle: Angle): PlayPlace {
    const number = this.numbered.has(angle) ? (this.numbers.get(path) ?? null) : null;
    const known =
      number === null
        ? this.order.find((p) => p.angles.size > 0 && !p.angles.has(angle))
        : this.order.find((p) => p.number === number);
    if (known && (number === null || !known.angles.has(angle))) {
      known.angles.add(angle);
      return { playId: known.playId, playNumber: null };
    }
    const fresh =
      number !== null && !this.byNumber.has(number) ? number : Math.max(0, ...this.byNumber.keys()) + 1;
    const playId = uuidv7();
    this.byNumber.set(fresh, playId);
    this.order.push({ playId, number: fresh, angles: new Set([angle]) });
    return { playId, playNumber: fresh };
  }
}

function numberedAngles(playNumbers: ReadonlyMap<string, number | null>, given: Angle | null): Set<Angle> {
  const numbers = new Map<Angle, (number | null)[]>();
  for (const [file, number] of playNumbers) {
    const angle = given ?? guessAngle(file) ?? 'other';
    numbers.set(angle, [...(numbers.get(angle) ?? []), number]);
  }
  const numbered = [...numbers].filter(
    ([, list]) => !list.includes(null) && new Set(list).size === list.length,
  );
  return new Set(numbered.map(([angle]) => angle));
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
