import { open, rename, rm } from 'node:fs/promises';
import { fail, ok, type Problem, type Result } from '../../../football/result.ts';

export interface TableProblem extends Problem {
  readonly code: 'disk-full' | 'target-unwritable' | 'sheet-missing' | 'sheet-unreadable' | 'sheet-empty';
}

/** Writes a file whole or not at all: it gets its name when everything is on disk. */
export async function writeWhole(
  target: string,
  bytes: Uint8Array | string,
): Promise<Result<void, TableProblem>> {
  const part = `${target}.part`;
  try {
    const file = await open(part, 'w');
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(part, target);
    return ok(undefined);
  } catch (error) {
    await rm(part, { force: true }).catch(() => {});
    const full = (error as NodeJS.ErrnoException).code === 'ENOSPC';
    return fail({
      code: full ? 'disk-full' : 'target-unwritable',
      message: full
        ? `The disk is full: ${target} could not be written.`
        : `${target} could not be written: ${(error as Error).message}.`,
      kept: 'No half file was left.',
      next: full
        ? 'Make room, or choose another disk.'
        : 'Check that the folder is there and may be written to.',
    });
  }
}
