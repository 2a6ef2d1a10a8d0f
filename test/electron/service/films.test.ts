import { createHash } from 'node:crypto';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { checkLibrary } from '../../../db/check.ts';
import { answer } from '../../../electron/service/actions/answers.ts';
import { clipOfFile } from '../../../electron/service/actions/clip-of-file.ts';
import { changeItem, makeCutup } from '../../../electron/service/actions/cutups.ts';
import { filmViews, relinkFilm, relinkFolder } from '../../../electron/service/actions/films.ts';
import { playsOfGame } from '../../../electron/service/actions/play-views.ts';
import { removePlay, setClip, stampMoment, tagPlay, undo } from '../../../electron/service/actions/tags.ts';
import { type AddReport, addFilms } from '../../../electron/service/film/add-films.ts';
import type { ExportReport } from '../../../electron/service/film/export-cutup.ts';
import { frameTableOf } from '../../../electron/service/film/shelf.ts';
import type { Station } from '../../../electron/service/station.ts';
import type { Angle, JobView } from '../../../electron/service/views.ts';
import { makeNumberedFilm, range, readNumbers } from '../../fixtures/numbered-film.ts';
import { problemOf, type TestStation, testStation } from '../../support/station.ts';

// film is made, probed and encoded here, and a machine may be busy
vi.setConfig({ testTimeout: 120_000 });

const GAME = 'Herons v Mariners';
const FRAMES = 24;
/** Made once: six short films, each with other numbers drawn into it, and a long one. */
let shelf: string;
let home: TestStation;
let station: Station;
let folder: string;

beforeAll(async () => {
  shelf = mkdtempSync(join(tmpdir(), 'tapebook-shelf-'));
  for (const n of range(1, 7))
    await makeNumberedFilm({ path: join(shelf, `${n}.mp4`), frames: FRAMES, firstNumber: n * 100 });
  await makeNumberedFilm({ path: join(shelf, 'long.mp4'), frames: 150, firstNumber: 1000 });
});
afterAll(() => rmSync(shelf, { recursive: true, force: true }));

beforeEach(() => {
  home = testStation();
  station = home.station;
  folder = join(home.folder, 'film');
  mkdirSync(folder);
});
afterEach(async () => {
  expect(checkLibrary(home.station.library)).toMatchObject({ ok: true });
  await home.remove();
});

/** Lays film on the coach's disk under these names, film n of the shelf as the nth. */
function lay(...names: string[]): string[] {
  return names.map((name, i) => {
    const path = join(folder, name);
    mkdirSync(join(path, '..'), { recursive: true });
    copyFileSync(join(shelf, `${i + 1}.mp4`), path);
    return path;
  });
}

const bringIn = (paths: readonly string[], more: { angle?: Angle; whole?: boolean } = {}) =>
  addFilms(station, {
    paths,
    gameTitle: GAME,
    angle: more.angle ?? null,
    onePlayPerFile: !more.whole,
  });

/** Plays as number: the films of their clips, angle by angle. */
function plays(): Record<number, string[]> {
  const names = new Map(filmViews(station).map((f) => [f.filmId, f.name]));
  const gameId = addedGame();
  return Object.fromEntries(
    playsOfGame(station, gameId).map((p) => [
      p.record.playNumber,
      p.clips.map((c) => `${c.angle}: ${names.get(c.filmId)}`),
    ]),
  );
}
const addedGame = () =>
  station.library.db.prepare('SELECT id FROM games WHERE title = ?').pluck().get(GAME) as string;
const finished = (job: JobView) => station.jobs.finished(job.jobId);

describe('bringing film in, one play a file', () => {
  it('makes plays in the order people count in, and pairs the angles by the numbers in the names', async () => {
    const paths = lay(
      'play 10 sideline.mp4',
      'play 2 sideline.mp4',
      'play 1 endzone.mp4',
      'play 1 sideline.mp4',
      'play 10 endzone.mp4',
    );
    const report = await bringIn(paths);
    expect(report.refused).toEqual([]);
    expect(report.added.map((f) => basename(f.path))).toEqual([
      'play 1 endzone.mp4',
      'play 1 sideline.mp4',
      'play 2 sideline.mp4',
      'play 10 endzone.mp4',
      'play 10 sideline.mp4',
    ]);
    expect(report.added[0]).toMatchObject({
      frames: FRAMES,
      fps: 30,
      seconds: FRAMES / 30,
      width: 160,
      height: 96,
    });
    expect(report.plays).toEqual({ made: 3, paired: 2 });
    expect(plays()).toEqual({
      1: ['sideline: play 1 sideline.mp4', 'endzone: play 1 endzone.mp4'],
      2: ['sideline: play 2 sideline.mp4'],
      10: ['sideline: play 10 sideline.mp4', 'endzone: play 10 endzone.mp4'],
    });
    const [clip] = playsOfGame(station, addedGame())[0]!.clips;
    expect(clip).toMatchObject({ inFrame: 0, outFrame: FRAMES });
  });

  it('keeps the place of a film that can not be read, so that the films after it stay with their plays', async () => {
    const names = ['MVI_0001.MP4', 'MVI_0002.MP4', 'MVI_0003.MP4'];
    const sideline = lay(...names.map((name) => `card A/${name}`));
    const endzone = lay(...names.map((name) => `card B/${name}`));
    endzone.forEach((path, i) => {
      copyFileSync(join(shelf, `${i + 4}.mp4`), path);
    });
    writeFileSync(sideline[1]!, 'no film at all');
    const first = await bringIn(sideline, { angle: 'sideline' });
    expect(first).toMatchObject({ plays: { made: 3, paired: 0 }, refused: [{ path: sideline[1], play: 2 }] });
    expect(first.refused[0]!.reason).toContain('Play 2 keeps its place');
    expect(await bringIn(endzone, { angle: 'endzone' })).toMatchObject({ plays: { made: 0, paired: 3 } });
    expect(Object.values(plays()).map((clips) => clips.map((words) => words.split(':')[0]))).toEqual([
      ['sideline', 'endzone'],
      ['endzone'],
      ['sideline', 'endzone'],
    ]);
    // the same card again makes nothing twice
    expect(await bringIn(sideline, { angle: 'sideline' })).toMatchObject({ plays: { made: 0, paired: 0 } });
    // the film is copied again from the camera and comes in
    copyFileSync(join(shelf, '2.mp4'), sideline[1]!);
    expect(await bringIn([sideline[1]!], { angle: 'sideline' })).toMatchObject({
      plays: { made: 0, paired: 1 },
    });
  });

  it('pairs by order where names say nothing, one angle after the other', async () => {
    const sideline = lay('card1/MVI_0071.mp4', 'card1/MVI_0072.mp4', 'card1/MVI_0073.mp4');
    const endzone = [4, 5, 6].map((n) => {
      const path = join(folder, `MVI_99${n}.mp4`);
      copyFileSync(join(shelf, `${n}.mp4`), path);
      return path;
    });
    await bringIn(sideline, { angle: 'sideline' });
    expect(await bringIn(endzone, { angle: 'endzone' })).toMatchObject({ plays: { made: 0, paired: 3 } });
    expect(Object.values(plays())).toEqual([
      ['sideline: MVI_0071.mp4', 'endzone: MVI_994.mp4'],
      ['sideline: MVI_0072.mp4', 'endzone: MVI_995.mp4'],
      ['sideline: MVI_0073.mp4', 'endzone: MVI_996.mp4'],
    ]);
  });

  it('finds the film files of a folder and of the folders in it, and leaves the rest alone', async () => {
    lay('sideline/play 1.mp4', 'sideline/play 2.mp4', 'endzone/play 1.mp4');
    writeFileSync(join(folder, 'sideline', 'notes.txt'), 'wind from the left');
    writeFileSync(join(folder, 'sideline', '.hidden.mp4'), 'x');
    expect(await bringIn([folder])).toMatchObject({ plays: { made: 2, paired: 1 }, refused: [] });
    expect(plays()[1]).toEqual(['sideline: play 1.mp4', 'endzone: play 1.mp4']);
  });

  it('refuses by name what it cannot read, says why and what to do, and goes on with the rest', async () => {
    const paths = lay('play 1.mp4', 'play 2.mp4', 'play 3.mp4', 'play 4.mp4');
    writeFileSync(paths[1]!, 'this is no film');
    writeFileSync(paths[2]!, readFileSync(paths[2]!).subarray(0, 500));
    const nowhere = join(folder, 'play 5.mp4');
    const empty = join(folder, 'empty');
    mkdirSync(empty);
    const { added, refused } = await bringIn([...paths, nowhere, empty], { angle: 'sideline' });
    expect(added.map((f) => basename(f.path))).toEqual(['play 1.mp4', 'play 4.mp4']);
    expect(refused.map((r) => r.path).sort()).toEqual([paths[1], paths[2], nowhere, empty].sort());
    for (const { reason } of refused) expect(reason).toMatch(/\. .+\.$/);
    expect(Object.keys(plays())).toEqual(['1', '4']);
  });

  it('knows a film by its content: twice the same is one film and one play', async () => {
    const [path] = lay('play 1 sideline.mp4');
    const copy = join(folder, 'the same again.mp4');
    copyFileSync(path!, copy);
    await bringIn([path!, copy]);
    const again = await bringIn([path!]);
    expect(again).toMatchObject({ added: [{ known: true }], plays: { made: 0, paired: 0 } });
    expect(filmViews(station)).toHaveLength(1);
    expect(plays()).toEqual({ 1: ['sideline: play 1 sideline.mp4'] });
  });

  it('neither copies the film nor writes to it', async () => {
    const paths = lay('play 1.mp4', 'play 2.mp4');
    const state = () =>
      paths.map((p) => [statSync(p).mtimeMs, createHash('sha256').update(readFileSync(p)).digest('hex')]);
    const before = state();
    await bringIn(paths);
    expect(state()).toEqual(before);
    const bytes = paths.map((p) => statSync(p).size);
    for (const name of readdirSync(home.folder, { recursive: true, encoding: 'utf8' }))
      if (!name.startsWith('film')) expect(bytes, name).not.toContain(statSync(join(home.folder, name)).size);
    expect(readdirSync(folder).sort()).toEqual(['play 1.mp4', 'play 2.mp4']);
  });

  it('gives a play that was removed a new one when its film comes again', async () => {
    const paths = lay('play 1 sideline.mp4');
    await bringIn(paths);
    removePlay(station, playsOfGame(station, addedGame())[0]!.playId);
    expect(await bringIn(paths)).toMatchObject({ plays: { made: 1, paired: 0 } });
    expect(plays()).toEqual({ 1: ['sideline: play 1 sideline.mp4'] });
  });

  it('is taken back file by file', async () => {
    await bringIn(lay('play 1.mp4', 'play 2.mp4'));
    expect(undo(station).label).toBe('bring in play 2.mp4');
    expect(filmViews(station).map((f) => f.name)).toEqual(['play 1.mp4']);
    expect(Object.keys(plays())).toEqual(['1']);
  });
});

describe('one long film', () => {
  it('stays whole, and plays are marked in it by their frames', async () => {
    const path = join(folder, 'first half.mp4');
    copyFileSync(join(shelf, 'long.mp4'), path);
    expect(await bringIn([path], { whole: true, angle: 'sideline' })).toMatchObject({
      added: [{ frames: 150 }],
      plays: { made: 0, paired: 0 },
    });
    expect(plays()).toEqual({});
    const clip = { gameTitle: GAME, path, angle: null };
    const first = await clipOfFile(station, { ...clip, playNumber: 1, inFrame: 0, outFrame: 60 });
    await clipOfFile(station, { ...clip, playNumber: 2, inFrame: 60, outFrame: 150 });
    const changed = await clipOfFile(station, { ...clip, playNumber: 1, inFrame: 5, outFrame: 55 });
    expect(changed).toMatchObject({ clipId: first.clipId, playId: first.playId, angle: 'sideline' });
    expect(playsOfGame(station, addedGame()).map((p) => p.clips.map((c) => [c.inFrame, c.outFrame]))).toEqual(
      [[[5, 55]], [[60, 150]]],
    );
    for (const [inFrame, outFrame] of [
      [-1, 10],
      [10, 10],
      [10, 151],
    ] as const)
      expect(
        (await problemOf(() => clipOfFile(station, { ...clip, playNumber: 3, inFrame, outFrame }))).code,
      ).toBe('clip-range');
    expect(Object.keys(plays())).toEqual(['1', '2']);
  });

  it('gives time to throw from moments stamped on its exact frames, of one film alone', async () => {
    await bringIn(lay('play 1 sideline.mp4', 'play 1 endzone.mp4'));
    const { playId, clips } = playsOfGame(station, addedGame())[0]!;
    const [sideline, endzone] = clips.map((c) => c.filmId) as [string, string];
    const { ptsMicros } = await frameTableOf(station.library, sideline);
    await stampMoment(station, { playId, kind: 'snap', filmId: sideline, frame: 3 });
    await stampMoment(station, { playId, kind: 'release', filmId: endzone, frame: 21 });
    const timeToThrow = () => {
      const value = { kind: 'term' as const, termId: '', name: 'pass' };
      tagPlay(station, { playId, changes: [{ field: 'playKind', value }] });
      return answer(station, 'TRUE').metrics.timeToThrow;
    };
    // a snap on one clock and a release on another say nothing about each other
    expect(timeToThrow()).toBeNull();
    const stamped = await stampMoment(station, { playId, kind: 'release', filmId: sideline, frame: 18 });
    expect(stamped.plays[0]?.stamped).toContainEqual({
      kind: 'release',
      filmId: sideline,
      frame: 18,
      seconds: ptsMicros[18]! / 1e6,
    });
    expect(timeToThrow()).toBeCloseTo(15 / 30, 6);
    await stampMoment(station, { playId, kind: 'release', filmId: sideline, frame: null });
    expect(timeToThrow()).toBeNull();
    const late = { playId, kind: 'catch' as const, filmId: sideline };
    expect((await problemOf(() => stampMoment(station, { ...late, frame: FRAMES }))).code).toBe(
      'frame-range',
    );
  });
});

describe('film that moved', () => {
  it('is missed by name, and found again by its content under whatever name', async () => {
    const [path] = lay('play 1 sideline.mp4', 'play 2 sideline.mp4');
    await bringIn([folder]);
    const film = filmViews(station).find((f) => f.name === 'play 1 sideline.mp4')!;
    const moved = join(home.folder, 'on the other drive.mp4');
    renameSync(path!, moved);
    expect(filmViews(station).map((f) => f.path !== null)).toEqual([false, true]);
    const other = join(folder, 'play 2 sideline.mp4');
    expect((await problemOf(() => relinkFilm(station, film.filmId, other))).code).toBe('film-other');
    expect((await problemOf(() => relinkFilm(station, film.filmId, path!))).message).toContain('play 1');
    expect(await relinkFilm(station, film.filmId, moved)).toMatchObject({ path: moved, clips: 1 });
  });

  it('is looked for in a folder, all of it at once', async () => {
    lay('play 1.mp4', 'play 2.mp4', 'play 3.mp4');
    await bringIn([folder]);
    const later = join(home.folder, 'archive');
    mkdirSync(later);
    renameSync(folder, join(later, 'week 1'));
    rmSync(join(later, 'week 1', 'play 3.mp4'));
    writeFileSync(join(later, 'week 1', 'play 4.mp4'), 'no film');
    expect(await relinkFolder(station, later)).toEqual({ found: 2, missing: 1 });
    expect(filmViews(station).map((f) => f.path && basename(f.path))).toEqual([
      'play 1.mp4',
      'play 2.mp4',
      null,
    ]);
    expect((await problemOf(() => relinkFolder(station, join(later, 'none')))).code).toBe('folder-missing');
  });

  it('is not taken for itself when another file lies at its place', async () => {
    const [path] = lay('play 1.mp4');
    await bringIn([path!]);
    copyFileSync(join(shelf, 'long.mp4'), path!);
    expect(filmViews(station)[0]?.path).toBeNull();
  });
});

describe('bringing film in as a job', () => {
  const start = (paths: readonly string[]) =>
    station.jobs.start('add-films', `Bring film in to ${GAME}`, {
      paths,
      gameTitle: GAME,
      angle: null,
      onePlayPerFile: true,
    });

  it('can be cancelled half way, and taken up again without doing anything twice', async () => {
    const paths = lay('play 1.mp4', 'play 2.mp4', 'play 3.mp4', 'play 4.mp4', 'play 5.mp4', 'play 6.mp4');
    const stop = station.onEvent((event) => {
      if (event.type === 'films') station.jobs.cancel(job.jobId);
    });
    const job = start(paths);
    const cancelled = await finished(job);
    stop();
    expect(cancelled).toMatchObject({ state: 'cancelled', problem: null });
    const half = filmViews(station).length;
    expect(half).toBeGreaterThan(0);
    expect(half).toBeLessThan(6);
    expect((cancelled.report as AddReport).added).toHaveLength(half);

    const done = await finished(station.jobs.resume(job.jobId));
    expect(done).toMatchObject({ state: 'done', progress: 1, report: { refused: [] } });
    expect(filmViews(station)).toHaveLength(6);
    expect(Object.keys(plays())).toEqual(['1', '2', '3', '4', '5', '6']);
    expect(station.jobs.resume(job.jobId)).toMatchObject({ state: 'done' });
  });

  it('goes on at the next start when the service was closed in the middle', async () => {
    const paths = lay('play 1.mp4', 'play 2.mp4', 'play 3.mp4', 'play 4.mp4', 'play 5.mp4', 'play 6.mp4');
    const job = start(paths);
    await new Promise<void>((resolve) => {
      station.onEvent((event) => event.type === 'films' && resolve());
    });
    station = await home.reopen();
    expect(station.jobs.get(job.jobId)).toMatchObject({ state: 'waiting' });
    station.jobs.resumeInterrupted();
    expect(await finished(job)).toMatchObject({ state: 'done' });
    expect(Object.keys(plays())).toEqual(['1', '2', '3', '4', '5', '6']);
    expect(filmViews(station)).toHaveLength(6);
  });

  it('waits its turn behind another, and is called off at once while it waits', async () => {
    const paths = lay('play 1.mp4', 'play 2.mp4', 'play 3.mp4');
    const first = start(paths.slice(0, 2));
    const second = start(paths.slice(2));
    expect(station.jobs.cancel(second.jobId)).toMatchObject({ state: 'cancelled' });
    expect(await finished(first)).toMatchObject({ state: 'done' });
    await finished(second);
    expect(station.jobs.get(second.jobId)).toMatchObject({ state: 'cancelled' });
    expect(Object.keys(plays())).toEqual(['1', '2']);
    expect(await finished(station.jobs.resume(second.jobId))).toMatchObject({ state: 'done' });
    expect(Object.keys(plays())).toEqual(['1', '2', '3']);
  });

  it('that is not there is a problem in words', async () => {
    for (const work of [() => station.jobs.cancel('x'), () => station.jobs.resume('x')])
      expect((await problemOf(work)).code).toBe('job-unknown');
  });
});

describe('a cut-up written out as a job', () => {
  let cutupId: string;
  const write = async (to: string, angles: Angle[] | null = null) =>
    finished(station.jobs.start('export-cutup', 'Write', { cutupId, to, angles }));
  const out = (name: string) => join(home.folder, name);

  beforeEach(async () => {
    await bringIn(
      lay('play 1 sideline.mp4', 'play 1 endzone.mp4', 'play 2 sideline.mp4', 'play 2 endzone.mp4'),
    );
    const ids = playsOfGame(station, addedGame()).map((p) => p.playId);
    const { list, ...made } = makeCutup(station, { name: 'Both', playIds: [ids[1]!, ids[0]!] });
    cutupId = made.cutupId;
    changeItem(station, cutupId, list[0]!.itemId, { trims: { sideline: [4, 10] }, angles: ['sideline'] });
    changeItem(station, cutupId, list[1]!.itemId, { note: 'late read' });
  });

  it('is one reel of exactly the frames it lists: its order, its trims, its angles', async () => {
    const job = await write(out('reel.mp4'));
    expect(job).toMatchObject({ state: 'done', progress: 1, problem: null });
    const expected = [...range(304, 310), ...range(100, 100 + FRAMES), ...range(200, 200 + FRAMES)];
    expect(await readNumbers(out('reel.mp4'), { width: 160, height: 96 })).toEqual(expected);
    const report = job.report as Extract<ExportReport, { format: 'mp4' | 'm3u8' }>;
    expect(report.clips.map((c) => [c.playNumber, c.angle, c.inFrame, c.outFrame])).toEqual([
      [2, 'sideline', 4, 10],
      [1, 'sideline', 0, FRAMES],
      [1, 'endzone', 0, FRAMES],
    ]);
  });

  it('is written of other angles when asked, and says which items have none', async () => {
    const job = await write(out('reel.mp4'), ['endzone']);
    expect(await readNumbers(out('reel.mp4'), { width: 160, height: 96 })).toEqual([
      ...range(400, 400 + FRAMES),
      ...range(200, 200 + FRAMES),
    ]);
    expect(job.report).toMatchObject({ without: [] });
    expect(await write(out('none.mp4'), ['other'])).toMatchObject({
      state: 'failed',
      problem: { code: 'cutup-empty' },
    });
    expect(existsSync(out('none.mp4'))).toBe(false);
  });

  it('is a playlist of a file a clip, and a sheet of its plays in its order', async () => {
    expect(await write(out('list.m3u8'))).toMatchObject({ state: 'done' });
    const playlist = readFileSync(out('list.m3u8'), 'utf8');
    expect(playlist).toMatch(/^#EXTM3U\r?\n/);
    const parts = playlist.split(/\r?\n/).filter((line) => line !== '' && !line.startsWith('#'));
    const shown = await Promise.all(
      parts.map((part) => readNumbers(join(home.folder, decodeURI(part)), { width: 160, height: 96 })),
    );
    expect(shown).toEqual([range(304, 310), range(100, 100 + FRAMES), range(200, 200 + FRAMES)]);
    expect(await write(out('plays.csv'))).toMatchObject({ state: 'done', report: { rows: 2 } });
    const [head, ...rows] = readFileSync(out('plays.csv'), 'utf8').trim().split('\r\n');
    const at = head!.replace('\uFEFF', '').split(',').indexOf('playNumber');
    expect(rows.map((row) => row.split(',')[at])).toEqual(['2', '1']);
  });

  it.each(['reel.mp4', 'list.m3u8'])(
    'with a film missing names it, and leaves no half %s; what stood there stays',
    async (name) => {
      writeFileSync(out(name), 'the one from last week');
      rmSync(join(folder, 'play 1 endzone.mp4'));
      const job = await write(out(name));
      expect(job).toMatchObject({ state: 'failed', problem: { code: 'film-missing' } });
      expect(job.problem?.message).toContain('play 1 endzone.mp4');
      expect(job.problem?.next).toContain('relink');
      expect(readFileSync(out(name), 'utf8')).toBe('the one from last week');
      expect(readdirSync(home.folder).filter((n) => n.includes('part'))).toEqual([]);
      copyFileSync(join(shelf, '2.mp4'), join(folder, 'play 1 endzone.mp4'));
      expect(await finished(station.jobs.resume(job.jobId))).toMatchObject({ state: 'done', problem: null });
    },
  );

  it('cancelled leaves nothing under its name, and can be taken up again', async () => {
    const job = station.jobs.start('export-cutup', 'Write', { cutupId, to: out('reel.mp4'), angles: null });
    setTimeout(() => station.jobs.cancel(job.jobId), 60);
    const ended = await finished(job);
    if (ended.state === 'cancelled') {
      expect(existsSync(out('reel.mp4'))).toBe(false);
      expect(await finished(station.jobs.resume(job.jobId))).toMatchObject({ state: 'done' });
    }
    expect(await readNumbers(out('reel.mp4'), { width: 160, height: 96 })).toHaveLength(6 + 2 * FRAMES);
  });

  it('to a folder that is not there is a problem in words', async () => {
    for (const name of ['reel.mp4', 'list.m3u8', 'plays.csv']) {
      const job = await write(join(home.folder, 'nowhere', name));
      expect([name, job.state]).toEqual([name, 'failed']);
      expect(job.problem?.code, name).not.toBe('job-failed');
    }
  });

  it('shows a clip that was marked again as it is now', async () => {
    const { playId, clips } = playsOfGame(station, addedGame())[0]!;
    setClip(station, { ...clips[0]!, playId, inFrame: 2, outFrame: 7 });
    await write(out('reel.mp4'), ['sideline']);
    const shown = await readNumbers(out('reel.mp4'), { width: 160, height: 96 });
    expect(shown).toEqual([...range(304, 310), ...range(102, 107)]);
  });
});
