import { access } from 'node:fs/promises';
import { basename } from 'node:path';
import { ProblemError } from '../../football/result.ts';
import { lastWords, type RunEnd } from '../film/run.ts';
import type { PlannedSegment } from './reel-plan.ts';
import type { ReelProblem } from './reel-types.ts';

/** Leaves the making of a reel from wherever it is; `renderReel` turns it back into data. */
export class ReelFailure extends ProblemError {
  declare readonly problem: ReelProblem;
}

export const CANCELLED: ReelProblem = {
  code: 'cancelled',
  message: 'The export was cancelled.',
  kept: 'Nothing was written under its name.',
  next: 'Start it again when you want it.',
};

export function diskFull(folder: string, neededBytes?: number, freeBytes?: number): ReelProblem {
  const megabytes = (bytes: number) => `${Math.ceil(bytes / 1e6).toLocaleString('en')} MB`;
  const figures =
    neededBytes === undefined || freeBytes === undefined
      ? ''
      : `: about ${megabytes(neededBytes)} are needed, ${megabytes(freeBytes)} are free`;
  return {
    code: 'disk-full',
    message: `There is too little room in ${folder}${figures}.`,
    kept: 'Nothing was written under the name of the export.',
    next: 'Make room there, or export to another drive.',
  };
}

export function targetUnwritable(target: string, why: string): ReelProblem {
  return {
    code: 'target-unwritable',
    message: `${basename(target)} can't be written: ${why}.`,
    next: 'Choose another folder, or close the program that holds the file.',
  };
}

/** What an error of the file system means for an export to `target`. */
export function fromFileError(error: unknown, target: string, folder: string): ReelProblem {
  const code = (error as NodeJS.ErrnoException).code;
  if (code === 'ENOSPC' || code === 'EDQUOT') return diskFull(folder);
  if (code === 'ENOENT' || code === 'ENOTDIR') return targetUnwritable(target, 'its folder is not there');
  if (code === 'EACCES' || code === 'EPERM' || code === 'EROFS') {
    return targetUnwritable(target, 'the folder may not be written to');
  }
  if (code === 'EISDIR' || code === 'EBUSY') return targetUnwritable(target, 'something else holds its name');
  return targetUnwritable(target, error instanceof Error ? error.message : 'for no reason given');
}

/** What the failed end of an encoder means. */
export function fromEncoder(end: RunEnd, folder: string): ReelProblem {
  if (end.stopped === 'cancelled') return CANCELLED;
  if (/No space left on device|Disk quota exceeded/i.test(end.errors)) return diskFull(folder);
  return {
    code: 'encoder-failed',
    message: `ffmpeg stopped while writing: ${lastWords(end.errors)}.`,
    kept: 'Nothing was written under the name of the export.',
    next: 'Try again; if it stays, name another ffmpeg in TAPEBOOK_FFMPEG.',
  };
}

/** What it means that a segment gave no or other frames than its frame table holds. */
export async function fromSource(
  segment: PlannedSegment,
  end: RunEnd | null,
  detail: string,
): Promise<ReelProblem> {
  const name = basename(segment.path);
  if (end?.stopped === 'cancelled') return CANCELLED;
  const there = await access(segment.path).then(
    () => true,
    () => false,
  );
  if (!there) {
    return {
      code: 'film-missing',
      segment: segment.index,
      message: `The film of clip ${segment.index + 1}, ${name}, is not there.`,
      kept: 'Nothing was written under the name of the export.',
      next: 'Plug the drive in or relink the film, or take the clip out, then export again.',
    };
  }
  return {
    code: 'film-unreadable',
    segment: segment.index,
    message: `Clip ${segment.index + 1} can't be read from ${name}: ${detail}.`,
    kept: 'Nothing was written under the name of the export.',
    next: 'Read the film in again, or take the clip out, then export again.',
  };
}
