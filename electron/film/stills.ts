import { mkdir, rename, rm } from 'node:fs/promises';
import { dirname } from 'node:path';
import { fail, ok, type Problem, type Result } from '../../football/result.ts';
import { filmInput, QUIET } from './ffmpeg-input.ts';
import type { FilmTools } from './film-types.ts';
import { centreMicros, type FrameTable } from './frame-table.ts';
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
}

const LIMIT_MS = 30_000;

/**
 * Makes a small JPEG of one frame. It gets its name when it is whole, so a still that is there is good.
 */
export async function makeStill(request: StillRequest): Promise<Result<void>> {
  const { path, table, frame, target, tools, height = 180 } = request;
  if (frame < 0 || frame >= table.ptsMicros.length) {
    return fail(trouble(path, `it has no frame ${frame}`));
  }
  await mkdir(dirname(target), { recursive: true });
  const part = `${target}.${process.pid}.part`;
  // the middle of the frame, because a seek to its edge may land on the one before; ffmpeg counts from the first frame
  const seconds = (centreMicros(table, frame) - (table.ptsMicros[0] ?? 0)) / 1e6;
  const run = await runProgram(
    tools.ffmpeg.path,
    [
      ...QUIET,
      'error',
      '-y',
      ...filmInput(path, ['-ss', seconds.toFixed(6)]),
      ...['-map', '0:v:0', '-frames:v', '1', '-vf', `scale=-2:${height}`, '-q:v', '4', '-f', 'mjpeg', part],
    ],
    { timeLimitMs: LIMIT_MS },
  );
  if (run.code !== 0) {
    await rm(part, { force: true });
    return fail(trouble(path, run.stopped === 'too-slow' ? 'it took too long' : lastWords(run.errors)));
  }
  try {
    await rename(part, target);
  } catch (error) {
    return fail(trouble(path, (error as Error).message));
  }
  return ok(undefined);
}

function trouble(path: string, why: string): Problem {
  return {
    code: 'still-failed',
    message: `No picture could be made of ${path}: ${why}.`,
    kept: 'The film and its plays are not touched.',
    next: 'Play the film to see whether it is damaged.',
  };
}
