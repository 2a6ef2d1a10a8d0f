import { existsSync, realpathSync } from 'node:fs';
import SqliteDatabase from 'better-sqlite3';
import { ProblemError } from '../football/result.ts';

/**
 * One writer at a time. The lock is an exclusive transaction on a small SQLite file beside the library:
 * the operating system gives it up when the process dies, however it dies, so no stale lock can stay. It lies beside the
 * file itself, whatever links lead there.
 *
 * @throws ProblemError `library-held` when another process holds it
 */
export function holdLibrary(path: string): () => void {
  const lock = new SqliteDatabase(`${existsSync(path) ? realpathSync(path) : path}-lock`, { timeout: 0 });
  try {
    lock.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    lock.close();
    if ((error as { code?: string }).code !== 'SQLITE_BUSY') throw error;
    throw new ProblemError(
      {
        code: 'library-held',
        message: `${path} is already open in another Tapebook.`,
        kept: 'Nothing was changed.',
        next: 'Use that window, or close it and try again.',
      },
      { cause: error },
    );
  }
  return () => {
    lock.exec('ROLLBACK');
    lock.close();
  };
}
