import { renameSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import checkDiskSpace from 'check-disk-space';
import type { Library } from '../../../db/library.ts';
import { ProblemError } from '../../../football/result.ts';
import { tableSeconds } from '../../film/frame-table.ts';
import { frameTableToBuffer } from '../../film/frame-table-file.ts';
import { makeProxy, proxyBytesAtMost, proxySize } from '../../film/proxy.ts';
import type { JobContext } from '../jobs/jobs.ts';
import type { Station } from '../station.ts';
import {
  keptProxies,
  type MakeProxy,
  proxyBytes,
  proxyPathOrProblem,
  proxyPlace,
  proxyTable,
  removeProxy,
} from './proxies.ts';
import { proxySettings } from './proxy-settings.ts';
import { filmFacts, filmOrProblem, filmPathOrProblem, frameTableOf } from './shelf.ts';
import { filmTools } from './stills.ts';

export interface ProxyReport {
  readonly filmId: string;
  readonly frames: number;
  readonly bytes: number;
  /** proxies that went to make room */
  readonly removed: number;
}

/** Room that the drive keeps for the library itself. */
const SPARE_BYTES = 500_000_000;

/** The work of the job. @throws ProblemError `film-missing`, `proxy-failed`, `proxy-limit`, `disk-full` */
export async function makeFilmProxy(
  station: Station,
  { filmId, awaited }: MakeProxy,
  context: Partial<JobContext> = {},
): Promise<ProxyReport> {
  const { library } = station;
  const known = proxyBytes(library, filmId);
  if (known !== null) {
    return { filmId, frames: proxyTable(library, filmId).ptsMicros.length, bytes: known, removed: 0 };
  }
  const path = filmPathOrProblem(library, filmId);
  const table = await frameTableOf(library, filmId);
  const place = proxyPlace(library, filmId);
  const { limitBytes, fit } = proxySettings(library);
  try {
    const needed = proxyBytesAtMost(tableSeconds(table), proxySize(table, fit));
    const removed = await makeRoom(library, filmId, needed, limitBytes, awaited === true);
    const made = await makeProxy({
      path,
      table,
      interlaced: filmFacts(library, filmId)?.interlaced ?? false,
      target: place.film,
      tools: await filmTools(),
      fit,
      ...(context.signal ? { signal: context.signal } : {}),
      ...(context.progress ? { onProgress: context.progress } : {}),
    });
    if (!made.ok) throw new ProblemError(made.problem);
    // the table comes last: only with it the proxy is there
    writeFileSync(`${place.frames}.part`, frameTableToBuffer(made.value.table));
    renameSync(`${place.frames}.part`, place.frames);
    proxyPathOrProblem(library, filmId);
    return { filmId, frames: table.ptsMicros.length, bytes: made.value.bytes, removed };
  } finally {
    // the job is over only after this function, and its film must not be said to be in the making then
    setTimeout(() => station.tell({ type: 'films' }), 0);
  }
}

/**
 * Sees to it that a proxy fits under the limit and on the drive before it is begun. One that a person waits for takes the
 * place of those not used for longest; one made in the background takes nobody's place.
 */
async function makeRoom(
  library: Library,
  filmId: string,
  needed: number,
  limitBytes: number,
  awaited: boolean,
): Promise<number> {
  const { name } = filmOrProblem(library, filmId);
  const proxies = keptProxies(library);
  let total = proxies.reduce((sum, proxy) => sum + proxy.bytes, 0);
  let free = await freeBytes(dirname(library.path));
  let removed = 0;
  for (const proxy of awaited ? proxies : []) {
    if (total + needed <= limitBytes && free >= needed + SPARE_BYTES) break;
    removeProxy(library, proxy.filmId);
    total -= proxy.bytes;
    free += proxy.bytes;
    removed += 1;
  }
  const kept = 'The film and its plays are not touched.';
  if (total + needed > limitBytes) {
    throw new ProblemError({
      kept,
      code: 'proxy-limit',
      message: `The proxy of ${name} may need ${megabytes(needed)}; of the ${megabytes(limitBytes)} for proxies ${megabytes(Math.max(0, limitBytes - total))} are left.`,
      next: 'Drop proxies that are not needed, or raise the limit (film proxies --limit).',
    });
  }
  if (free < needed + SPARE_BYTES) {
    throw new ProblemError({
      kept,
      code: 'disk-full',
      message: `The proxy of ${name} may need ${megabytes(needed)}, and the drive of the library has ${megabytes(free)} free.`,
      next: 'Make room on that drive, or move the library to a larger one.',
    });
  }
  return removed;
}

/** Free bytes on the drive; a drive that does not tell is not in the way. */
async function freeBytes(folder: string): Promise<number> {
  return checkDiskSpace(folder).then(
    ({ free }) => free,
    () => Number.POSITIVE_INFINITY,
  );
}

function megabytes(bytes: number): string {
  return `${Math.ceil(bytes / 1e6).toLocaleString('en')} MB`;
}
