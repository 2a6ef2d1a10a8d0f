import SqliteDatabase, { type Database } from 'better-sqlite3';
import { migrate } from '../migrations/run.ts';
import { RowWriter } from './apply.ts';
import { JOURNALED_TABLES } from './entities.ts';
import type { Journal } from './journal.ts';

/** A library in memory with every shared table made anew from the journal. The caller closes it. */
export function rebuildFromJournal(journal: Journal): Database {
  const copy = new SqliteDatabase(':memory:');
  migrate(copy, ':memory:', () => '');
  copy.pragma('foreign_keys = OFF');
  const writer = new RowWriter(copy);
  copy.transaction(() => {
    for (const edit of journal.edits()) writer.write(edit);
  })();
  return copy;
}

export interface TableDifference {
  readonly table: string;
  readonly id: string;
}

/** Rows that differ between two libraries' shared tables, by table and id. Empty when they are the same. */
export function compareTables(a: Database, b: Database): TableDifference[] {
  const differences: TableDifference[] = [];
  for (const table of JOURNALED_TABLES) {
    const ofB = new Map<string, string>();
    for (const row of rows(b, table)) ofB.set(row.id, JSON.stringify(row));
    for (const row of rows(a, table)) {
      if (ofB.get(row.id) !== JSON.stringify(row)) differences.push({ table, id: row.id });
      ofB.delete(row.id);
    }
    for (const id of ofB.keys()) differences.push({ table, id });
  }
  return differences;
}

function rows(db: Database, table: string): IterableIterator<{ id: string }> {
  return db.prepare(`SELECT * FROM "${table}" ORDER BY id`).iterate() as IterableIterator<{ id: string }>;
}
