import { existsSync, readdirSync, readFileSync, rmSync, statSync, utimesSync } from 'node:fs';
import { join } from 'node:path';
import type { Library } from '../../../db/library.ts';
import { type FilmRow, listFilms } from '../../../db/repositories/film.ts';
import { ProblemError } from '../../../football/result.ts';
import type { FilmFacts } from '../../film/film-types.ts';
import type { FrameTable } from '../../film/frame-table.ts';
import { frameTableFromBuffer } from '../../film/frame-table-file.ts';
import { proxyReason } from '../../film/playable.ts';
import type { Station } from '../station.ts';
import type { FilmView, JobView } from '../views.ts';
import { filmFacts, filmOrProblem, filmPathOrProblem, whereAreAll } from './shelf.ts';

export interface MakeProxy {
  readonly filmId: string;
  /** a person waits for it; else it is made in the background */
  readonly awaited?: boolean;
}

export const PROXY_JOB = 'make-proxy';

/** Where a film's proxy lies, and its frame table: the proxy counts as there when both are. */
export function proxyPlace(library: Library, filmId: string): { film: string; frames: string } {
  const folder = join(library.cacheFolder, 'proxies');
  return { film: join(folder, `${filmId}.mp4`), frames: join(folder, `${filmId}.frames`) };
}

/** The films whose proxy is being made or waits its turn, with the job. */
function proxyJobs(station: Station): Map<string, string> {
  const rows = station.library.db
    .prepare("SELECT id, input FROM jobs WHERE kind = ? AND state IN ('running', 'waiting')")
    .all(PROXY_JOB) as { id: string; input: string }[];
  return new Map(rows.map((row) => [(JSON.parse(row.input) as MakeProxy).filmId, row.id]));
}

type ProxyView = Pick<FilmView, 'proxy' | 'proxyReason' | 'proxyBytes'>;

/** How it stands with the proxies of films, asked for many films at once. */
export function proxyViews(station: Station): (filmId: string, facts: FilmFacts | null) => ProxyView {
  const jobs = proxyJobs(station);
  return (filmId, facts) => {
    const reason = facts ? proxyReason(facts) : null;
    const bytes = proxyBytes(station.library, filmId);
    const proxy =
      bytes !== null ? 'ready' : jobs.has(filmId) ? 'making' : reason === null ? 'none' : 'wanted';
    return { proxy, proxyReason: reason, proxyBytes: bytes };
  };
}

export function proxyBytes(library: Library, filmId: string): number | null {
  const { film, frames } = proxyPlace(library, filmId);
  return existsSync(frames) ? (statSync(film, { throwIfNoEntry: false })?.size ?? null) : null;
}

/**
 * Where the proxy lies that a window plays. Asking for it counts as use: when room is short, what was not used for longest
 * goes first.
 * @throws ProblemError `film-unknown`, `proxy-unknown`
 */
export function proxyPathOrProblem(library: Library, filmId: string): string {
  const film: FilmRow = filmOrProblem(library, filmId);
  const place = proxyPlace(library, filmId);
  if (proxyBytes(library, filmId) !== null) {
    const now = new Date();
    utimesSync(place.frames, now, now);
    return place.film;
  }
  throw new ProblemError({
    code: 'proxy-unknown',
    message: `${film.name} has no proxy.`,
    kept: 'Nothing was changed.',
    next: 'Make one in the Film room.',
  });
}

/** The proxy's own frame table: frame n is the film's frame n, on the proxy's clock. @throws as `proxyPathOrProblem` */
export function proxyTable(library: Library, filmId: string): FrameTable {
  proxyPathOrProblem(library, filmId);
  const read = frameTableFromBuffer(readFileSync(proxyPlace(library, filmId).frames));
  if (read.ok) return read.value;
  removeProxy(library, filmId);
  throw new ProblemError(read.problem);
}

/** Starts making a proxy that a person waits for, or hurries the one under way. @throws ProblemError `film-unknown`, `film-missing` */
export function startProxy(station: Station, filmId: string): JobView {
  const film = filmOrProblem(station.library, filmId);
  filmPathOrProblem(station.library, filmId);
  const known = proxyJobs(station).get(filmId);
  const job = known && station.jobs.get(known);
  if (job) {
    station.jobs.hurry(job.jobId);
    return job;
  }
  const started = station.jobs.start(PROXY_JOB, `Proxy of ${film.name}`, {
    filmId,
    awaited: true,
  } satisfies MakeProxy);
  station.tell({ type: 'films' });
  return started;
}

/**
 * Writes down the proxies that films need which have none, to be made in the background.
 * @param when `later`: a command ends before its proxies would be made, so the next window makes them
 * @returns how many were written down
 */
export function wantProxies(station: Station, filmIds: readonly string[], when: 'now' | 'later'): number {
  const stateOf = proxyViews(station);
  const films = new Map(listFilms(station.library).map((film) => [film.id, film]));
  let wanted = 0;
  for (const filmId of new Set(filmIds)) {
    const film = films.get(filmId);
    if (!film || stateOf(filmId, filmFacts(station.library, filmId)).proxy !== 'wanted') continue;
    station.jobs.start(PROXY_JOB, `Proxy of ${film.name}`, { filmId } satisfies MakeProxy, when);
    wanted += 1;
  }
  if (wanted > 0) station.tell({ type: 'films' });
  return wanted;
}

/** Takes a proxy away, and calls its making off; the film stays. @throws ProblemError `film-unknown` */
export function dropProxy(station: Station, filmId: string): void {
  filmOrProblem(station.library, filmId);
  const job = proxyJobs(station).get(filmId);
  if (job) station.jobs.cancel(job);
  removeProxy(station.library, filmId);
  station.tell({ type: 'films' });
}

export function removeProxy(library: Library, filmId: string): void {
  const { film, frames } = proxyPlace(library, filmId);
  rmSync(frames, { force: true });
  rmSync(film, { force: true });
}

export interface KeptProxy {
  readonly filmId: string;
  readonly bytes: number;
  readonly usedMs: number;
}

/** All proxies on the drive, the one not used for longest first. */
export function keptProxies(library: Library): KeptProxy[] {
  const folder = join(library.cacheFolder, 'proxies');
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => name.endsWith('.frames'))
    .flatMap((name) => {
      const filmId = name.slice(0, -'.frames'.length);
      const bytes = proxyBytes(library, filmId);
      const usedMs = statSync(join(folder, name), { throwIfNoEntry: false })?.mtimeMs;
      return bytes === null || usedMs === undefined ? [] : [{ filmId, bytes, usedMs }];
    })
    .sort((a, b) => a.usedMs - b.usedMs);
}

/** Films that need a proxy, have none and are here: what "make all" makes. */
export function filmsWithoutProxy(station: Station): FilmRow[] {
  const places = whereAreAll(station.library);
  return listFilms(station.library).filter((film) => {
    const facts = filmFacts(station.library, film.id);
    if (!facts || proxyReason(facts) === null || !places.has(film.id)) return false;
    return proxyBytes(station.library, film.id) === null;
  });
}
