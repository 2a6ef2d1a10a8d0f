import { constants } from 'node:fs';
import { type FileHandle, open } from 'node:fs/promises';
import { fail, ok, type Result } from '../../football/result.ts';
import type { FilmProbe, FilmProblem, ProbedFile, ProbeOptions } from './film-types.ts';
import { firstPtsMicros, frameCount, rateNumber, tableSeconds } from './frame-table.ts';
import { contentIdOf } from './identity.ts';
import { readFrameTable } from './read-frame-table.ts';
import { refusal } from './refusals.ts';

function problemOf(error: unknown, path: string): FilmProblem {
  const code = (error as NodeJS.ErrnoException).code;
  if (code === 'ENOENT' || code === 'ENOTDIR') return refusal('film-missing', path);
  if (code === 'EACCES' || code === 'EPERM') return refusal('film-no-permission', path);
  return refusal('film-unreadable', path, error instanceof Error ? error.message : '');
}

/** Looks into one file: its identity, its frame table, and a summary. Reads only, decodes nothing, throws nothing. */
export async function probeFilm(
  path: string,
  options: ProbeOptions = {},
): Promise<Result<FilmProbe, FilmProblem>> {
  let file: FileHandle | undefined;
  try {
    // without O_NONBLOCK, opening a pipe waits for a writer for ever
    file = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    const stats = await file.stat();
    if (!stats.isFile()) return fail(refusal('film-not-a-file', path));
    const read = await readFrameTable(path, file, stats.size, options);
    if (!read.ok) return read;
    const { table, facts } = read.value;
    return ok({
      path,
      contentId: await contentIdOf(file, stats.size),
      bytes: stats.size,
      modifiedMs: stats.mtimeMs,
      frames: frameCount(table),
      fps: rateNumber(table.rate),
      variable: table.variable,
      seconds: tableSeconds(table),
      firstPtsMicros: firstPtsMicros(table),
      width: table.width,
      height: table.height,
      rotation: table.rotation,
      codec: table.codec,
      container: table.container,
      hasAudio: table.hasAudio,
      facts,
      table,
    });
  } catch (error) {
    return fail(problemOf(error, path));
  } finally {
    await file?.close().catch(() => {});
  }
}

/**
 * Looks into many files, a few at a time and started in the order given; yields each as soon as it is known. When the
 * signal aborts, files not yet begun are left out.
 */
export async function* probeFilms(
  paths: readonly string[],
  options: ProbeOptions & { readonly concurrency?: number } = {},
): AsyncGenerator<ProbedFile, void, void> {
  const running = new Map<number, Promise<ProbedFile>>();
  const width = Math.max(1, options.concurrency ?? 2);
  let next = 0;
  while (next < paths.length || running.size > 0) {
    while (running.size < width && next < paths.length && !options.signal?.aborted) {
      const index = next++;
      const path = paths[index]!;
      running.set(
        index,
        probeFilm(path, options).then((result) => ({ index, path, result })),
      );
    }
    if (running.size === 0) return;
    const done = await Promise.race(running.values());
    running.delete(done.index);
    yield done;
  }
}
