import { existsSync, renameSync, rmSync, statSync } from 'node:fs';
import SqliteDatabase from 'better-sqlite3';
import type { Library } from '../../../db/library.ts';
import { ProblemError } from '../../../football/result.ts';

/**
 * Writes a whole copy of the library, checked before it gets its name. Returns its size in bytes.
 * @throws ProblemError `backup-exists`, `backup-failed`
 */
export async function backupTo(library: Library, to: string): Promise<number> {
  if (existsSync(to)) {
    throw new ProblemError({
      code: 'backup-exists',
      message: `There is already a file ${to}.`,
      kept: 'It was not touched.',
      next: 'Choose another name.',
    });
  }
  const part = `${to}.part`;
  try {
    rmSync(part, { force: true });
    await library.db.backup(part);
    const copy = new SqliteDatabase(part);
    // one file without a write-ahead log beside it, so that it can be carried anywhere
    copy.pragma('journal_mode = DELETE');
    const sound = copy.pragma('integrity_check', { simple: true }) === 'ok';
    copy.close();
    if (!sound) throw new Error('the copy is not sound');
    renameSync(part, to);
    return statSync(to).size;
  } catch (error) {
    rmSync(part, { force: true });
    throw new ProblemError(
      {
        code: 'backup-failed',
        message: `The copy ${to} could not be written: ${(error as Error).message}.`,
        kept: 'The library itself was not touched; no half copy was left.',
        next: 'Check that the folder is there and has room.',
      },
      { cause: error },
    );
  }
}
