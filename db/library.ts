import { existsSync } from 'node:fs';
import { basename, dirname, extname, join } from 'node:path';
import SqliteDatabase, { type Database } from 'better-sqlite3';
import { type BetterSQLite3Database, drizzle } from 'drizzle-orm/better-sqlite3';
import { v7 as uuidv7 } from 'uuid';
import type { Level } from '../football/play.ts';
import { ProblemError } from '../football/result.ts';
import type { Change } from './journal/edit.ts';
import { Journal } from './journal/journal.ts';
import { holdLibrary } from './lock.ts';
import { APPLICATION_ID, migrate } from './migrations/run.ts';
import { firstPlaybook } from './playbook/first-playbook.ts';
import * as schema from './schema.ts';

export interface OpenOptions {
  /** who sits at the station; stands beside every edit */
  readonly person?: string;
  /** look only: may be opened while another process holds the library */
  readonly readOnly?: boolean;
}

/** A staff's library, open. One process writes it; anybody may look. */
export interface Library {
  readonly path: string;
  /** frame tables, stills and other things that can be thrown away */
  readonly cacheFolder: string;
  readonly db: Database;
  readonly orm: BetterSQLite3Database<typeof schema>;
  readonly journal: Journal;
  readonly readOnly: boolean;
  close(): void;
}

export function cacheFolderOf(path: string): string {
  return join(dirname(path), `${basename(path, extname(path))}.cache`);
}

/**
 * Opens a library.
 * @throws ProblemError `library-missing`, `library-not-ours`, `library-held`, `library-newer`
 */
export function openLibrary(path: string, options: OpenOptions = {}): Library {
  if (!existsSync(path)) {
    throw new ProblemError({
      code: 'library-missing',
      message: `There is no library at ${path}.`,
      next: 'Check the path, or make one with `tapebook new --team <name> --level ncaa --library <file>`.',
    });
  }
  return open(path, options);
}

export interface NewLibrary {
  readonly team: string;
  readonly level: Level;
}

/**
 * Makes a library with the first playbook in it, and opens it.
 * @throws ProblemError `library-exists`
 */
export function createLibrary(path: string, { team, level }: NewLibrary, options: OpenOptions = {}): Library {
  if (existsSync(path)) {
    throw new ProblemError({
      code: 'library-exists',
      message: `There is already a file at ${path}.`,
      kept: 'It was not touched.',
      next: 'Choose another name, or open it with --library.',
    });
  }
  if (!existsSync(dirname(path))) {
    throw new ProblemError({
      code: 'folder-missing',
      message: `There is no folder ${dirname(path)}.`,
      next: 'Make the folder first, or choose another place.',
    });
  }
  return open(path, options, [
    { entity: 'setting', id: 'team', field: 'value', value: JSON.stringify(team) },
    { entity: 'setting', id: 'level', field: 'value', value: JSON.stringify(level) },
    ...firstPlaybook(),
  ]);
}

/** @param start what a new library begins with; null opens one that is there */
function open(path: string, options: OpenOptions, start: readonly Change[] | null = null): Library {
  const isNew = start !== null;
  const readOnly = options.readOnly ?? false;
  const release = readOnly ? () => {} : holdLibrary(path);
  let db: Database | null = null;
  try {
    db = new SqliteDatabase(path, { readonly: readOnly, fileMustExist: !isNew });
    prepare(db, path, readOnly, isNew);
  } catch (error) {
    db?.close();
    release();
    throw asProblem(error, path);
  }
  const opened = db;
  // under a station of its own, so that nobody can take the beginning of a library back
  if (start)
    new Journal(opened, uuidv7(), 'tapebook').commit({ label: 'new library', origin: 'made' }, start);
  const journal = new Journal(opened, stationId(opened, readOnly), options.person ?? 'coach');
  let closed = false;
  return {
    path,
    cacheFolder: cacheFolderOf(path),
    db: opened,
    orm: drizzle(opened, { schema }),
    journal,
    readOnly,
    close() {
      if (closed) return;
      closed = true;
      opened.close();
      release();
    },
  };
}

function prepare(db: Database, path: string, readOnly: boolean, isNew: boolean): void {
  if (isNew) db.pragma(`application_id = ${APPLICATION_ID}`);
  if (Number(db.pragma('application_id', { simple: true })) !== APPLICATION_ID) {
    throw new ProblemError({
      code: 'library-not-ours',
      message: `${path} is a database, but not a Tapebook library.`,
      kept: 'It was not touched.',
      next: 'Choose a library file.',
    });
  }
  db.pragma('foreign_keys = ON');
  if (readOnly) return;
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  migrate(db, path, () => {
    const saved = `${path}.before-update-${new Date().toISOString().replaceAll(/[:.]/g, '-')}`;
    db.exec(`VACUUM INTO '${saved.replaceAll("'", "''")}'`);
    return saved;
  });
}

function stationId(db: Database, readOnly: boolean): string {
  const known = db.prepare("SELECT value FROM local WHERE key = 'station'").get() as
    | { value: string }
    | undefined;
  if (known) return known.value;
  const made = uuidv7();
  if (!readOnly) db.prepare("INSERT INTO local (key, value) VALUES ('station', ?)").run(made);
  return made;
}

function asProblem(error: unknown, path: string): unknown {
  const code = (error as { code?: string }).code ?? '';
  if (code === 'SQLITE_NOTADB' || code.startsWith('SQLITE_CORRUPT')) {
    return new ProblemError(
      {
        code: 'library-not-ours',
        message: `${path} is not a Tapebook library, or it is damaged.`,
        kept: 'It was not touched.',
        next: 'Choose a library file, or restore a backup of this one.',
      },
      { cause: error },
    );
  }
  return error;
}
