import { compareTables, rebuildFromJournal } from './journal/rebuild.ts';
import type { Library } from './library.ts';

export interface CheckReport {
  readonly ok: boolean;
  /** SQLite's own integrity check: empty when sound */
  readonly integrity: readonly string[];
  /** dangling references: empty when sound */
  readonly foreignKeys: readonly { table: string; refersTo: string; row: number }[];
  /** rows that the journal would have made otherwise: empty when sound */
  readonly journal: readonly { table: string; id: string }[];
  readonly edits: number;
}

/** Looks a library over: file integrity, references, and every shared row against the journal. */
export function checkLibrary(library: Library): CheckReport {
  const { db } = library;
  const integrity = (db.pragma('integrity_check') as { integrity_check: string }[])
    .map((r) => r.integrity_check)
    .filter((line) => line !== 'ok');
  const foreignKeys = (
    db.pragma('foreign_key_check') as { table: string; parent: string; rowid: number }[]
  ).map((r) => ({
    table: r.table,
    refersTo: r.parent,
    row: r.rowid,
  }));
  const rebuilt = rebuildFromJournal(library.journal);
  const journal = compareTables(db, rebuilt);
  rebuilt.close();
  const { edits } = db.prepare('SELECT count(*) AS edits FROM edits').get() as { edits: number };
  return {
    ok: integrity.length === 0 && foreignKeys.length === 0 && journal.length === 0,
    integrity,
    foreignKeys,
    journal,
    edits,
  };
}
