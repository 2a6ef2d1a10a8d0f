import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import type { Library } from '../../../db/library.ts';
import { ProblemError } from '../../../football/result.ts';
import { probeFilm } from '../../film/probe.ts';
import { splitFilm } from '../../film/split/split-film.ts';
import type { Split } from '../../film/split/splitter.ts';
import type { JobContext } from '../jobs/jobs.ts';
import type { Station } from '../station.ts';
import { filmPathOrProblem } from './shelf.ts';
import { filmTools } from './stills.ts';

/** A change to how plays are found makes what was kept stale. */
const VERSION = 1;

const angle = z.enum(['sideline', 'endzone', 'other']);
const frame = z.number().int().nonnegative();
const KEPT = z.object({
  version: z.literal(VERSION),
  cuts: z.array(frame),
  stops: z.array(frame),
  shots: z.array(
    z.object({
      startFrame: frame,
      endFrame: frame,
      startedBy: z.enum(['film', 'cut', 'stop']),
      angle,
    }),
  ),
  plays: z.array(
    z.object({
      inFrame: frame,
      outFrame: frame,
      snapFrame: frame.nullable(),
      angle,
      play: z.number().int().positive(),
    }),
  ),
});

/**
 * Finds the shots and plays of a film file, without a library.
 * @throws ProblemError why the file is refused, `cancelled`
 */
export async function splitFile(path: string, context: Partial<JobContext> = {}): Promise<Split> {
  const probe = await probeFilm(path, context.signal ? { signal: context.signal } : {});
  if (!probe.ok) throw new ProblemError(probe.problem);
  const split = await splitFilm(probe.value, {
    tools: await filmTools(),
    ...(context.signal ? { signal: context.signal } : {}),
    ...(context.progress ? { onProgress: context.progress } : {}),
  });
  if (!split.ok) throw new ProblemError(split.problem);
  return split.value;
}

export interface SplitWork {
  readonly filmId: string;
}

function keptPath(library: Library, filmId: string): string {
  return join(library.cacheFolder, 'splits', `${filmId}.json`);
}

/** What was found in a film before, or null: a cache beside the library, which is proposals and nothing else. */
export function keptSplit(library: Library, filmId: string): Split | null {
  const path = keptPath(library, filmId);
  if (!existsSync(path)) return null;
  try {
    const read = KEPT.safeParse(JSON.parse(readFileSync(path, 'utf8')));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

/** The job: finds the plays of a film of the library and keeps them as proposals. */
export async function splitWork(
  station: Station,
  { filmId }: SplitWork,
  context: Partial<JobContext> = {},
): Promise<{ filmId: string; cuts: number; plays: number }> {
  const { library } = station;
  const split = keptSplit(library, filmId) ?? (await splitFile(filmPathOrProblem(library, filmId), context));
  const path = keptPath(library, filmId);
  mkdirSync(join(library.cacheFolder, 'splits'), { recursive: true });
  writeFileSync(`${path}.part`, JSON.stringify({ version: VERSION, ...split }));
  renameSync(`${path}.part`, path);
  station.tell({ type: 'films' });
  return { filmId, cuts: split.cuts.length, plays: new Set(split.plays.map((p) => p.play)).size };
}
