import { randomBytes } from 'node:crypto';
import { mkdir, rename, rm } from 'node:fs/promises';
import { dirname } from 'node:path';
import { fail, ok, type Problem, type Result } from '../../football/result.ts';
import { filmInput, QUIET } from './ffmpeg-input.ts';
import type { FilmTools } from './film-types.ts';
import { cutMicros, seekArgs } from './frame-seek.ts';
import type { FrameTable } from './frame-table.ts';
import { lastWords, runProgram } from './run.ts';

export interface StillRequest {
  readonly path: string;
  readonly table: FrameTable;
  readonly frame: number;
  /** where the JPEG goes */
  readonly target: string;
  readonly tools: FilmTools;
  /** height in pixels; default 180 */
  readonly height?: number;
  readonly signal?: AbortSignal;
}

const LIMIT_MS = 30_000;

/**
 * Makes a small JPEG of exactly one frame; only the stretch from the key frame before it is decoded. It gets its name
 * when it is whole, so a still that is there is good.
 */
export async function makeStill(request: StillRequest): Promise<Result<void>> {
  const { path, table, frame, target, tools, height = 180, signal } = request;
  if (!Number.isInteger(frame) || frame < 0 || frame >= table.ptsMicros.length) {
    return fail(trouble(path, `it has no frame ${frame}`));
  }
  const part = `${target}.${randomBytes(4).toString('hex')}.part`;
  const from = cutMicros(table, frame, -1);
  const picked = `settb=1/1000000,trim=start_pts=${from.micros},trim=start_frame=${frame - from.frame}`;
  try {
    await mkdir(dirname(target), { recursive: true });
    const run = await runProgram(
      tools.ffmpeg.path,
      [
        ...QUIET,
        'error',
        '-y',
        ...filmInput(path, seekArgs(table, frame)),
        ...['-map', '0:v:0', '-frames:v', '1'],
        ...['-vf', `${picked},scale=-2:${height},setsar=1,format=yuvj420p`],
        ...['-q:v', '4', '-f', 'mjpeg', `file:${part}`],
      ],
      { timeLimitMs: LIMIT_MS, signal, urgent: true },
    );
    if (run.code !== 0) {
      return fail(trouble(path, run.stopped === 'too-slow' ? 'it took too long' : lastWords(run.errors)));
    }
    await rename(part, target);
    return ok(undefined);
  } catch (error) {
    return fail(trouble(path, (error as Error).message));
  } finally {
    await rm(part, { force: true }).catch(() => {});
  }
}

function trouble(path: string, why: string): Problem {
  return {
    code: 'still-failed',
    message: `No picture could be made of ${path}: ${why}.`,
    kept: 'The film and its plays are not touched.',
    next: 'Play the film to see whether it is damaged.',
  };
}
