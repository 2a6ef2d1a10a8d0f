import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import SqliteDatabase from 'better-sqlite3';
import { getTableColumns, getTableName, is } from 'drizzle-orm';
import { getTableConfig, SQLiteTable } from 'drizzle-orm/sqlite-core';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { checkLibrary } from '../../db/check.ts';
import { createLibrary, type Library, openLibrary } from '../../db/library.ts';
import { firstLibrary } from '../../db/migrations/0001-first-library.ts';
import { CURRENT_VERSION, MIGRATIONS } from '../../db/migrations/index.ts';
import { loadPlays } from '../../db/repositories/play-records.ts';
import * as schema from '../../db/schema.ts';
import type { ProblemError } from '../../football/result.ts';

/** A library as version 1 wrote it: one game, logged, changed and undone. Made by `test/fixtures/write-library.ts`. */
const STORED = 'test/fixtures/library-v1.sql.gz';

let folder: string;
const at = (name: string) => join(folder, name);

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tapebook-opening-'));
});
afterEach(() => {
  vi.doUnmock('../../db/migrations/index.ts');
  vi.resetModules();
  rmSync(folder, { recursive: true, force: true });
});

function storedLibrary(path: string): string {
  const db = new SqliteDatabase(path);
  db.exec(gunzipSync(readFileSync(STORED)).toString('utf8'));
  db.close();
  return path;
}

function problem(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    const { problem } = error as ProblemError;
    if (problem) return problem.code;
    throw error;
  }
  return 'none';
}

function expectTheStoredGame(library: Library): void {
  const plays = loadPlays(library.db);
  expect(plays.map((p) => p.record.playNumber)).toEqual([1, 2, 3]);
  expect(plays[0]?.record).toMatchObject({
    down: 1,
    distance: 10,
    yardsToGoal: 75,
    gain: 9,
    tags: { concept: 'stick', coverage: 'Cover 3 sky', target: '#84 Ira Novak' },
  });
  expect(plays[1]?.predicted).toEqual(expect.arrayContaining(['down', 'distance']));
  expect(checkLibrary(library)).toMatchObject({ ok: true });
}

describe('a library of version 1', () => {
  it('opens as it was left, with everything that can be taken back', () => {
    const library = openLibrary(storedLibrary(at('old.tapebook')), { person: 'coach' });
    expectTheStoredGame(library);
    expect(library.journal.nextUndo()?.label).toBe('log play 2');
    expect(library.journal.nextRedo()?.label).toBe('set gain of play 1');
    library.journal.redo();
    expect(loadPlays(library.db)[0]?.record.gain).toBe(11);
    library.close();
  });

  it('is brought to the next version, each row as it was, and a copy of it is kept from before', async () => {
    const path = storedLibrary(at('old.tapebook'));
    const next = {
      version: CURRENT_VERSION + 1,
      name: 'weather',
      sql: `CREATE TABLE "games_new" ("id" text PRIMARY KEY NOT NULL, "title" text, "season" integer, "week" integer,
          "date" text, "opponent" text, "site" text, "level" text, "removed" integer DEFAULT 0 NOT NULL, "weather" text);
        INSERT INTO games_new SELECT *, NULL FROM games;
        DROP TABLE games;
        ALTER TABLE games_new RENAME TO games;`,
    };
    vi.resetModules();
    vi.doMock('../../db/migrations/index.ts', () => ({
      MIGRATIONS: [...MIGRATIONS, next],
      CURRENT_VERSION: next.version,
    }));
    const newer = await import('../../db/library.ts');
    const updated = newer.openLibrary(path);
    expect(updated.db.pragma('user_version', { simple: true })).toBe(next.version);
    expect(updated.db.pragma('foreign_keys', { simple: true })).toBe(1);
    expect(updated.db.prepare('SELECT weather FROM games').all()).toEqual([{ weather: null }]);
    expect(loadPlays(updated.db)).toHaveLength(3);
    expect(updated.db.prepare('SELECT count(*) FROM tags').pluck().get()).toBeGreaterThan(2);
    updated.close();

    const [kept] = readdirSync(folder).filter((name) => name.startsWith('old.tapebook.before-update-'));
    expect(kept).toBeDefined();
    const before = openLibrary(at(kept!));
    expect(before.db.pragma('user_version', { simple: true })).toBe(CURRENT_VERSION);
    expectTheStoredGame(before);
    before.close();

    // the program from before the update refuses it, to write and to look
    for (const readOnly of [false, true])
      expect(problem(() => openLibrary(path, { readOnly }))).toBe('library-newer');
  });

  it('stays as it was when a step of the update leaves something dangling', async () => {
    const path = storedLibrary(at('old.tapebook'));
    const step = { version: CURRENT_VERSION + 1, name: 'lossy', sql: 'DELETE FROM games;' };
    vi.resetModules();
    vi.doMock('../../db/migrations/index.ts', () => ({
      MIGRATIONS: [...MIGRATIONS, step],
      CURRENT_VERSION: step.version,
    }));
    const newer = await import('../../db/library.ts');
    expect(problem(() => newer.openLibrary(path))).toBe('library-migration-failed');
    const library = openLibrary(path);
    expectTheStoredGame(library);
    library.close();
  });
});

describe('the tables', () => {
  it('are the ones that the code reads: names, types and what may be missing', () => {
    const db = new SqliteDatabase(':memory:');
    for (const step of MIGRATIONS) db.exec(step.sql);
    const made = db
      .prepare("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
      .pluck()
      .all() as string[];
    const known = Object.values(schema).filter((table) => is(table, SQLiteTable)) as SQLiteTable[];
    expect(known.map((t) => getTableName(t)).sort()).toEqual(made);
    for (const table of known) {
      const name = getTableName(table);
      const expected = Object.values(getTableColumns(table)).map((column) => ({
        name: column.name,
        type: column.getSQLType(),
        notnull: Number(column.notNull || column.primary || inPrimaryKey(table, column.name)),
      }));
      const columns = db
        .prepare(`SELECT name, lower(type) AS type, "notnull" FROM pragma_table_info(?)`)
        .all(name);
      expect(columns, name).toEqual(expect.arrayContaining(expected));
      expect(columns, name).toHaveLength(expected.length);
      const indexes = db.prepare(`SELECT name FROM pragma_index_list(?) WHERE origin = 'c' ORDER BY name`);
      expect(indexes.pluck().all(name), name).toEqual(
        getTableConfig(table)
          .indexes.map((i) => i.config.name)
          .sort(),
      );
    }
    db.close();
  });

  it('are made by numbered steps without a gap', () => {
    expect(MIGRATIONS.map((m) => m.version)).toEqual(MIGRATIONS.map((_, i) => i + 1));
    expect(MIGRATIONS[0]).toBe(firstLibrary);
  });
});

function inPrimaryKey(table: SQLiteTable, column: string): boolean {
  return getTableConfig(table).primaryKeys.some((key) => key.columns.some((c) => c.name === column));
}

describe('a file that is no library', () => {
  it.each<[string, (path: string) => void, string]>([
    ['an empty file', (path) => writeFileSync(path, ''), 'library-not-ours'],
    ['a text', (path) => writeFileSync(path, 'Herons v Mariners'), 'library-not-ours'],
    ['a folder', (path) => mkdirSync(path), 'library-not-ours'],
    [
      'another program’s database',
      (path) => {
        const db = new SqliteDatabase(path);
        db.exec('CREATE TABLE notes (id integer)');
        db.close();
      },
      'library-not-ours',
    ],
    [
      'half a library',
      (path) => {
        createLibrary(path, { team: 'Herons', level: 'ncaa' }).close();
        truncateSync(path, 30_000);
        rmSync(`${path}-lock`);
      },
      'library-damaged',
    ],
  ])('%s is named as such and left as it was', (_, make, code) => {
    make(at('x.tapebook'));
    const before = existsSync(at('x.tapebook')) && readdirSync(folder);
    expect(problem(() => openLibrary(at('x.tapebook')))).toBe(code);
    if (code === 'library-not-ours') expect(readdirSync(folder)).toEqual(before);
  });

  it('leaves nothing behind where a new library cannot be made', () => {
    mkdirSync(at('x.tapebook-lock'));
    expect(problem(() => createLibrary(at('x.tapebook'), { team: 'Herons', level: 'ncaa' }))).toBe(
      'library-unopened',
    );
    expect(readdirSync(folder)).toEqual(['x.tapebook-lock']);
  });
});

describe('one writer at a time', () => {
  it('is kept when the second comes by another name of the same file', () => {
    const library = createLibrary(at('herons.tapebook'), { team: 'Herons', level: 'ncaa' });
    symlinkSync(at('herons.tapebook'), at('link.tapebook'));
    expect(problem(() => openLibrary(at('link.tapebook')))).toBe('library-held');
    library.close();
    const linked = openLibrary(at('link.tapebook'));
    expect(problem(() => openLibrary(at('herons.tapebook')))).toBe('library-held');
    linked.close();
  });

  it('holds a copy of a library that is open elsewhere for a library of its own', () => {
    const library = createLibrary(at('herons.tapebook'), { team: 'Herons', level: 'ncaa' });
    library.db.pragma('wal_checkpoint(TRUNCATE)');
    copyFileSync(at('herons.tapebook'), at('copy.tapebook'));
    const copy = openLibrary(at('copy.tapebook'));
    expect(checkLibrary(copy)).toMatchObject({ ok: true });
    copy.close();
    library.close();
  });
});
