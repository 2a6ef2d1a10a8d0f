import type { Database } from 'better-sqlite3';
import { ProblemError } from '../../football/result.ts';
import { CURRENT_VERSION, MIGRATIONS } from './index.ts';

/** 'TPBK': marks a SQLite file as a library of this program (`PRAGMA application_id`). */
export const APPLICATION_ID = 0x5450424b;

export function libraryVersion(db: Database): number {
  return Number(db.pragma('user_version', { simple: true }));
}

/** @throws ProblemError `library-newer` when the file was written by a newer program */
export function refuseNewer(db: Database, path: string): void {
  const version = libraryVersion(db);
  if (version <= CURRENT_VERSION) return;
  throw new ProblemError({
    code: 'library-newer',
    message: `${path} was written by a newer version of Tapebook (library version ${version}, this program knows ${CURRENT_VERSION}).`,
    kept: 'The file was not touched.',
    next: 'Update Tapebook on this machine, then open it again.',
  });
}

/**
 * Brings a library to the current version, one numbered step a transaction. Foreign keys are off
 * around a step, because inside a transaction that switch does nothing and a table rebuild would
 * cascade; they are checked before the step commits.
 *
 * @param backup called once, before the first step, when the library already holds something
 * @throws ProblemError `library-newer`, `library-migration-failed` when a step left dangling references; the file is then unchanged
 */
export function migrate(db: Database, path: string, backup: () => string): void {
  refuseNewer(db, path);
  const from = libraryVersion(db);
  if (from === CURRENT_VERSION) return;
  const saved = from > 0 ? backup() : null;
  for (const step of MIGRATIONS.slice(from)) {
    db.pragma('foreign_keys = OFF');
    try {
      db.transaction(() => {
        db.exec(step.sql);
        const dangling = db.pragma('foreign_key_check') as unknown[];
        if (dangling.length > 0) {
          throw new ProblemError({
            code: 'library-migration-failed',
            message: `${path} could not be brought to version ${step.version} (${step.name}): ${dangling.length} rows refer to something that is not there.`,
            kept: saved ? `A copy of the library as it was is at ${saved}.` : 'The file was not changed.',
            next: 'Keep the file and run `tapebook check` on it.',
          });
        }
        db.pragma(`user_version = ${step.version}`);
      })();
    } finally {
      db.pragma('foreign_keys = ON');
    }
  }
}
