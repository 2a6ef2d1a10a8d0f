import { existsSync, mkdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Library } from '../../../db/library.ts';
import {
  allFilmPlaces,
  type FilmPlace,
  type FilmRow,
  filmPlaces,
  findFilm,
  rememberPlace,
} from '../../../db/repositories/film.ts';
import { ProblemError } from '../../../football/result.ts';
import type { FilmFacts, FilmProbe } from '../../film/film-types.ts';
import type { FrameTable } from '../../film/frame-table.ts';
import { frameTableFromBuffer, frameTableToBuffer } from '../../film/frame-table-file.ts';
import { contentIdAt } from '../../film/identity.ts';
import { probeFilm } from '../../film/probe.ts';

/** Names a film by its content, so that two stations that bring the same file in mean the same film. */
export function filmIdOf(probe: Pick<FilmProbe, 'contentId'>): string {
  return probe.contentId.slice(0, 35);
}

/** Where the film lies on this machine now, or null when it has moved or another file lies at its place. */
export function whereIs(library: Library, filmId: string): string | null {
  return filmPlaces(library, filmId).find((place) => isThere(library, place))?.path ?? null;
}

/** The same for all films at once. */
export function whereAreAll(library: Library): Map<string, string> {
  const places = new Map<string, string>();
  for (const place of allFilmPlaces(library)) {
    if (!places.has(place.filmId) && isThere(library, place)) places.set(place.filmId, place.path);
  }
  return places;
}

/** What was found of files whose date has changed, by place, date and size. */
const looked = new Map<string, boolean>();

/** A file of the same size and date is taken for itself; one of another date only when its content is the same. */
function isThere(library: Library, place: FilmPlace): boolean {
  const stats = statSync(place.path, { throwIfNoEntry: false });
  if (stats?.isFile() !== true || stats.size !== place.bytes) return false;
  if (stats.mtimeMs === place.modifiedMs) return true;
  const key = `${place.filmId} ${stats.mtimeMs} ${stats.size} ${place.path}`;
  const known = looked.get(key);
  if (known !== undefined) return known;
  let same = false;
  try {
    same = filmIdOf({ contentId: contentIdAt(place.path, stats.size) }) === place.filmId;
  } catch {
    // it can't be read now
    return false;
  }
  looked.set(key, same);
  if (same && !library.readOnly) rememberPlace(library, { ...place, modifiedMs: stats.mtimeMs });
  return same;
}

/** @throws ProblemError `film-unknown` */
export function filmOrProblem(library: Library, filmId: string): FilmRow {
  const film = findFilm(library, filmId);
  if (film) return film;
  throw new ProblemError({
    code: 'film-unknown',
    message: 'This film is not in the library.',
    kept: 'Nothing was changed.',
    next: 'Bring it in first.',
  });
}

/** @throws ProblemError `film-unknown`, `film-missing` */
export function filmPathOrProblem(library: Library, filmId: string): string {
  const film = filmOrProblem(library, filmId);
  const path = whereIs(library, filmId);
  if (path) return path;
  const last = filmPlaces(library, filmId)[0]?.path;
  throw new ProblemError({
    code: 'film-missing',
    message: `${film.name} is not where it was${last ? ` (${last})` : ''}.`,
    kept: 'Its plays, tags and clips are kept.',
    next: 'Connect the drive it is on, or relink it in the Film room.',
  });
}

function frameTablePath(library: Library, filmId: string): string {
  return join(library.cacheFolder, 'frames', `${filmId}.frames`);
}

/** Puts what was found out about a film into the cache, and remembers where it lies. */
export function shelve(library: Library, filmId: string, probe: FilmProbe): void {
  const path = frameTablePath(library, filmId);
  mkdirSync(join(library.cacheFolder, 'frames'), { recursive: true });
  writeFileSync(`${path}.part`, frameTableToBuffer(probe.table));
  renameSync(`${path}.part`, path);
  keepFacts(library, filmId, probe.facts);
  rememberPlace(library, { filmId, path: probe.path, bytes: probe.bytes, modifiedMs: probe.modifiedMs });
}

const factsOf = new WeakMap<Library, Map<string, FilmFacts | null>>();

function factsPath(library: Library, filmId: string): string {
  return join(library.cacheFolder, 'frames', `${filmId}.json`);
}

function keepFacts(library: Library, filmId: string, facts: FilmFacts): void {
  const path = factsPath(library, filmId);
  writeFileSync(`${path}.part`, JSON.stringify(facts));
  renameSync(`${path}.part`, path);
  factsInMemory(library).set(filmId, facts);
}

function factsInMemory(library: Library): Map<string, FilmFacts | null> {
  const known = factsOf.get(library) ?? new Map<string, FilmFacts | null>();
  factsOf.set(library, known);
  return known;
}

/** What decides how a film is shown: from memory or the cache; null where the cache was thrown away. */
export function filmFacts(library: Library, filmId: string): FilmFacts | null {
  const known = factsInMemory(library);
  const inMemory = known.get(filmId);
  if (inMemory !== undefined) return inMemory;
  const path = factsPath(library, filmId);
  let facts: FilmFacts | null = null;
  try {
    facts = existsSync(path) ? (JSON.parse(readFileSync(path, 'utf8')) as FilmFacts) : null;
  } catch {
    // a damaged cache is no cache
  }
  known.set(filmId, facts);
  return facts;
}

const lookingAgain = new Set<string>();

/** Reads films anew whose facts are not in the cache (it may be thrown away), one after the other, each once. */
export async function lookAgain(
  library: Library,
  films: readonly { filmId: string; path: string }[],
): Promise<number> {
  let found = 0;
  for (const { filmId, path } of films) {
    const key = `${library.path} ${filmId}`;
    if (lookingAgain.has(key) || library.readOnly) continue;
    lookingAgain.add(key);
    const probe = await probeFilm(path);
    if (!library.db.open) return found;
    if (!probe.ok || filmIdOf(probe.value) !== filmId) continue;
    shelve(library, filmId, probe.value);
    found += 1;
  }
  return found;
}

const recent = new WeakMap<Library, Map<string, FrameTable>>();
const RECENT_TABLES = 64;

/**
 * A film's frame table: from memory, from the cache, or read anew from the film.
 * @throws ProblemError `film-unknown`, `film-missing`, or why the film cannot be read
 */
export async function frameTableOf(library: Library, filmId: string): Promise<FrameTable> {
  const known = recent.get(library) ?? new Map<string, FrameTable>();
  recent.set(library, known);
  const inMemory = known.get(filmId);
  if (inMemory) return inMemory;
  const table = fromCache(library, filmId) ?? (await fromFilm(library, filmId));
  known.set(filmId, table);
  if (known.size > RECENT_TABLES) known.delete(known.keys().next().value as string);
  return table;
}

function fromCache(library: Library, filmId: string): FrameTable | null {
  const path = frameTablePath(library, filmId);
  if (!existsSync(path)) return null;
  const read = frameTableFromBuffer(readFileSync(path));
  return read.ok ? read.value : null;
}

async function fromFilm(library: Library, filmId: string): Promise<FrameTable> {
  const probe = await probeFilm(filmPathOrProblem(library, filmId));
  if (!probe.ok) throw new ProblemError(probe.problem);
  if (!library.readOnly) shelve(library, filmId, probe.value);
  return probe.value.table;
}
