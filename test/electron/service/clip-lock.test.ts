import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import SqliteDatabase from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkLibrary } from '../../../db/check.ts';
import type { Change } from '../../../db/journal/edit.ts';
import { compareTables, rebuildFromJournal } from '../../../db/journal/rebuild.ts';
import { createLibrary, openLibrary } from '../../../db/library.ts';
import { clipsOfPlays } from '../../../db/repositories/film.ts';
import { lockClip, lockPlay } from '../../../electron/service/actions/clip-lock.ts';
import { addGame } from '../../../electron/service/actions/games.ts';
import { playsByIds } from '../../../electron/service/actions/play-views.ts';
import { addPlay } from '../../../electron/service/actions/tags.ts';
import { Station } from '../../../electron/service/station.ts';
import type { ProblemError } from '../../../football/result.ts';

let folder: string;
let station: Station;
let playId: string;

const rows = (entity: string, id: string, values: Record<string, Change['value']>): Change[] =>
  Object.entries({ removed: 0, ...values }).map(([field, value]) => ({ entity, id, field, value }));

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tapebook-lock-'));
  station = new Station(
    createLibrary(join(folder, 'a.tapebook'), { team: 'Harlow Ridge Herons', level: 'ncaa' }),
    'coach',
  );
  const { gameId } = addGame(station, { title: 'Herons v Mariners', opponent: 'Port Ansel Mariners' });
  playId = addPlay(station, gameId, null).playId;
  const film = (id: string, angle: string) =>
    rows('film', id, { gameId, name: `${id}.mp4`, angle, media: [300, 30, 10, 1280, 720, 'avc'] });
  const clip = (id: string, filmId: string, angle: string) =>
    rows('clip', id, { playId, filmId, angle, range: [0, 300] });
  station.library.journal.commit({ label: 'film' }, [
    ...film('f-side', 'sideline'),
    ...film('f-end', 'endzone'),
    ...clip('c-side', 'f-side', 'sideline'),
    ...clip('c-end', 'f-end', 'endzone'),
  ]);
});
afterEach(async () => {
  await station.close();
  rmSync(folder, { recursive: true, force: true });
});

const locks = () => playsByIds(station, [playId])[0]!.clips.map((clip) => clip.lock);
const refusal = (run: () => unknown): string => {
  try {
    run();
  } catch (error) {
    return (error as ProblemError).problem.code;
  }
  return 'none';
};

describe('two angles held together by hand', () => {
  it('stay so in the library, can be undone, and come out of the journal again bit for bit', () => {
    lockClip(station, 'c-end', { frame: 97, filmId: 'f-side', filmFrame: 120 });
    expect(locks()).toEqual([null, { frame: 97, filmId: 'f-side', filmFrame: 120 }]);
    const { journal } = station.library;
    expect(compareTables(station.library.db, rebuildFromJournal(journal))).toEqual([]);
    expect(checkLibrary(station.library)).toMatchObject({ ok: true });
    journal.undo();
    expect(locks()).toEqual([null, null]);
    journal.redo();
    expect(locks()[1]).toMatchObject({ frame: 97 });
  });

  it('are named by angle from the command line, the other way round as well, and never contradict', () => {
    lockPlay(station, {
      gameTitle: 'Herons v Mariners',
      playNumber: 1,
      frames: [
        ['endzone', 10],
        ['sideline', 12],
      ],
    });
    expect(locks()).toEqual([{ frame: 12, filmId: 'f-end', filmFrame: 10 }, null]);
    lockPlay(station, {
      gameTitle: 'Herons v Mariners',
      playNumber: 1,
      frames: [
        ['sideline', 50],
        ['endzone', 60],
      ],
    });
    expect(locks()).toEqual([null, { frame: 60, filmId: 'f-side', filmFrame: 50 }]);
    lockPlay(station, { gameTitle: 'Herons v Mariners', playNumber: 1, frames: null });
    expect(locks()).toEqual([null, null]);
  });

  it('are refused where there is no such frame, clip or other film', () => {
    const lock = (frame: number, filmId: string, filmFrame: number) => () =>
      lockClip(station, 'c-end', { frame, filmId, filmFrame });
    expect([
      refusal(lock(300, 'f-side', 0)),
      refusal(lock(0, 'f-side', 300)),
      refusal(lock(0, 'f-end', 0)),
      refusal(lock(0, 'nowhere', 0)),
      refusal(() => lockClip(station, 'nowhere', null)),
      refusal(() => lockPlay(station, { gameTitle: 'Herons v Mariners', playNumber: 9, frames: null })),
    ]).toEqual(['lock-frame', 'lock-frame', 'lock-frame', 'film-unknown', 'clip-unknown', 'play-unknown']);
    expect(locks()).toEqual([null, null]);
  });
});

describe('a library from before angles could be held by hand', () => {
  it('can be looked at without being brought up to date', () => {
    const path = join(folder, 'old.tapebook');
    const db = new SqliteDatabase(path);
    db.exec(gunzipSync(readFileSync('test/fixtures/library-v1.sql.gz')).toString('utf8'));
    db.close();
    const old = openLibrary(path, { readOnly: true });
    const [first] = old.db.prepare('SELECT id FROM plays').all() as { id: string }[];
    expect(clipsOfPlays(old, [first!.id]).every((clip) => clip.lockFilmId === null)).toBe(true);
    expect(old.db.pragma('user_version', { simple: true })).toBe(1);
    old.close();
    const updated = openLibrary(path);
    expect(updated.db.prepare('SELECT lock_frame FROM clips').all()).toEqual(
      updated.db.prepare('SELECT NULL AS lock_frame FROM clips').all(),
    );
    updated.close();
  });
});
