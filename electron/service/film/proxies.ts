import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Library } from '../../../db/library.ts';
import type { FilmRow } from '../../../db/repositories/film.ts';
import { ProblemError } from '../../../football/result.ts';
import type { FilmFacts } from '../../film/film-types.ts';
import type { FrameTable } from '../../film/frame-table.ts';
import { frameTableFromBuffer, frameTableToBuffer } from '../../film/frame-table-file.ts';
import { proxyReason } from '../../film/playable.ts';
import { makeProxy } from '../../film/proxy.ts';
import type { JobContext } from '../jobs/jobs.ts';
import type { Station } from '../station.ts';
import type { FilmView, JobView } from '../views.ts';
import { filmFacts, filmOrProblem, filmPathOrProblem, frameTableOf } from './shelf.ts';
import { filmTools } from './stills.ts';

export interface MakeProxy {
  readonly filmId: string;
}

export const PROXY_JOB = 'make-proxy';

function placeOf(library: Library, filmId: string): { film: string; frames: string } {
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

function proxyBytes(library: Library, filmId: string): number | null {
  const { film, frames } = placeOf(library, filmId);
  return existsSync(frames) ? (statSync(film, { throwIfNoEntry: false })?.size ?? null) : null;
}

/** @throws ProblemError `film-unknown`, `proxy-unknown` */
export function proxyPathOrProblem(library: Library, filmId: string): string {
  const film: FilmRow = filmOrProblem(library, filmId);
  if (proxyBytes(library, filmId) !== null) return placeOf(library, filmId).film;
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
  const read = frameTableFromBuffer(readFileSync(placeOf(library, filmId).frames));
  if (read.ok) return read.value;
  dropProxyFiles(library, filmId);
  throw new ProblemError(read.problem);
}

/** Starts making a proxy, or tells of the job that is at it already. @throws ProblemError `film-unknown`, `film-missing` */
export function startProxy(station: Station, filmId: string): JobView {
  const film = filmOrProblem(station.library, filmId);
  filmPathOrProblem(station.library, filmId);
  const known = proxyJobs(station).get(filmId);
  const job = known && station.jobs.get(known);
  if (job) return job;
  const started = station.jobs.start(PROXY_JOB, `Proxy of ${film.name}`, { filmId } satisfies MakeProxy);
  station.tell({ type: 'films' });
  return started;
}

/** Takes a proxy away; the film stays. */
export function dropProxy(station: Station, filmId: string): void {
  filmOrProblem(station.library, filmId);
  dropProxyFiles(station.library, filmId);
  station.tell({ type: 'films' });
}

function dropProxyFiles(library: Library, filmId: string): void {
  const { film, frames } = placeOf(library, filmId);
  rmSync(frames, { force: true });
  rmSync(film, { force: true });
}

export interface ProxyReport {
  readonly filmId: string;
  readonly frames: number;
  readonly bytes: number;
}

/** The work of the job. @throws ProblemError `film-missing`, `proxy-failed`, `disk-full` */
export async function makeFilmProxy(
  station: Station,
  { filmId }: MakeProxy,
  context: Partial<JobContext> = {},
): Promise<ProxyReport> {
  const { library } = station;
  const known = proxyBytes(library, filmId);
  if (known !== null) return { filmId, frames: proxyTable(library, filmId).ptsMicros.length, bytes: known };
  const path = filmPathOrProblem(library, filmId);
  const table = await frameTableOf(library, filmId);
  const place = placeOf(library, filmId);
  try {
    const made = await makeProxy({
      path,
      table,
      interlaced: filmFacts(library, filmId)?.interlaced ?? false,
      target: place.film,
      tools: await filmTools(),
      ...(context.signal ? { signal: context.signal } : {}),
      ...(context.progress ? { onProgress: context.progress } : {}),
    });
    if (!made.ok) throw new ProblemError(made.problem);
    mkdirSync(join(library.cacheFolder, 'proxies'), { recursive: true });
    writeFileSync(`${place.frames}.part`, frameTableToBuffer(made.value.table));
    renameSync(`${place.frames}.part`, place.frames);
    return { filmId, frames: table.ptsMicros.length, bytes: made.value.bytes };
  } finally {
    // the job is over only after this function, and its film's row must not say "making" then
    setTimeout(() => station.tell({ type: 'films' }), 0);
  }
}
