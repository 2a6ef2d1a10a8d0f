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
