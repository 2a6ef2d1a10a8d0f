import { closeSync, existsSync, openSync, readSync, rmSync } from 'node:fs';
import { basename, dirname, extname, join } from 'node:path';
import SqliteDatabase, { type Database } from 'better-sqlite3';
import { type BetterSQLite3Database, drizzle } from 'drizzle-orm/better-sqlite3';
import { v7 as uuidv7 } from 'uuid';
import type { Level } from '../football/play.ts';
import { ProblemError } from '../football/result.ts';
import type { Change } from './journal/edit.ts';
import { Journal } from './journal/journal.ts';
import { holdLibrary } from './lock.ts';
import { APPLICATION_ID, migrate, refuseNewer } from './migrations/run.ts';
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
 * @throws ProblemError `library-missing`, `library-not-ours`, `library-held`, `library-newer`, `library-unopened`
 */
export function openLibrary(path: string, options: OpenOptions = {}): Library {
  if (!existsSync(path)) {
    throw new ProblemError({
      code: 'library-missing',
      message: `There is no library at ${path}.`,
      next: 'Check the path, or make one with `tapebook new --team <name> --level ncaa --library <file>`.',
    });
  }
  refuseOthers(path);
  return open(path, options);
}

export interface NewLibrary {
  readonly team: string;
  readonly level: Level;
}

/**
 * Makes a library with the first playbook in it, and opens it.
 * @throws ProblemError `library-exists`, `folder-missing`, `library-unopened`
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
  let release = () => {};
  let db: Database | null = null;
  try {
    if (!readOnly) release = holdLibrary(path);
    db = new SqliteDatabase(path, { readonly: readOnly, fileMustExist: !isNew });
    prepare(db, path, readOnly, isNew);
    // under a station of its own, so that nobody can take the beginning of a library back
    if (start) new Journal(db, uuidv7(), 'tapebook').commit({ label: 'new library', origin: 'made' }, start);
  } catch (error) {
    db?.close();
    if (isNew && db) for (const end of ['', '-wal', '-shm']) rmSync(`${path}${end}`, { force: true });
    release();
    throw asProblem(error, path);
  }
  const opened = db;
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

/** Looks at the head of a file before anything is opened or made beside it. */
function refuseOthers(path: string): void {
  const head = Buffer.alloc(72);
  try {
    const file = openSync(path, 'r');
    try {
      readSync(file, head, 0, head.length, 0);
    } finally {
      closeSync(file);
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EISDIR') head.fill(0);
    else throw unopened(path, error);
  }
  // SQLite, The Database File Format: a magic string at 0, the application's number at 68
  const isDatabase = head.toString('latin1', 0, 16) === 'SQLite format 3\0';
  if (isDatabase && head.readUInt32BE(68) === APPLICATION_ID) return;
  throw new ProblemError({
    code: 'library-not-ours',
    message: isDatabase
      ? `${path} is a database, but not a Tapebook library.`
      : `${path} is not a Tapebook library.`,
    kept: 'It was not touched.',
    next: 'Choose a library file.',
  });
}

function prepare(db: Database, path: string, readOnly: boolean, isNew: boolean): void {
  if (isNew) db.pragma(`application_id = ${APPLICATION_ID}`);
  db.pragma('foreign_keys = ON');
  if (readOnly) {
    refuseNewer(db, path);
    return;
  }
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
        code: 'library-damaged',
        message: `${path} is damaged: ${(error as Error).message}.`,
        kept: 'It was not touched.',
        next: 'Keep this file, and restore a backup made with `tapebook backup`.',
      },
      { cause: error },
    );
  }
  return code.startsWith('SQLITE_') ? unopened(path, error) : error;
}

function unopened(path: string, error: unknown): ProblemError {
  return new ProblemError(
    {
      code: 'library-unopened',
      message: `${path} could not be opened: ${(error as Error).message}.`,
      kept: 'What is in it was not touched.',
      next: 'Check that the file and its folder may be read and written, and that the disk has room.',
    },
    { cause: error },
  );
}
