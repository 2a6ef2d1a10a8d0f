import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { proxyBytesAtMost } from '../../../electron/film/proxy.ts';
import { filmViews } from '../../../electron/service/actions/films.ts';
import { addFilms } from '../../../electron/service/film/add-films.ts';
import {
  dropProxy,
  keptProxies,
  proxyPathOrProblem,
  proxyTable,
  startProxy,
  wantProxies,
} from '../../../electron/service/film/proxies.ts';
import { changeProxySettings } from '../../../electron/service/film/proxy-settings.ts';
import { sweepCache } from '../../../electron/service/film/sweep-cache.ts';
import { serveStation } from '../../../electron/service/server.ts';
import type { Station } from '../../../electron/service/station.ts';
import type { JobView } from '../../../electron/service/views.ts';
import { makeNumberedFilm, range, readNumbers, runTool, tools } from '../../fixtures/numbered-film.ts';
import { problemOf, type TestStation, testStation } from '../../support/station.ts';

vi.setConfig({ testTimeout: 120_000 });

const FRAMES = 30;
let shelf: string;
let home: TestStation;
let station: Station;

beforeAll(async () => {
  shelf = mkdtempSync(join(tmpdir(), 'tapebook-proxies-'));
  const video = ['-c:v', 'mjpeg', '-q:v', '3'];
  for (const n of [1, 2, 3])
    await makeNumberedFilm({ path: join(shelf, `${n}.avi`), frames: FRAMES, firstNumber: n * 100, video });
  await makeNumberedFilm({ path: join(shelf, 'plain.mp4'), frames: FRAMES });
  await runTool(tools.ffmpeg.path, [
    ...[
      '-v',
      'error',
      '-f',
      'lavfi',
      '-i',
      'testsrc2=s=1280x720:r=30:d=5',
      ...video,
      join(shelf, 'long.avi'),
    ],
  ]);
});
afterAll(() => rmSync(shelf, { recursive: true, force: true }));

beforeEach(() => {
  home = testStation();
  station = home.station;
});
afterEach(() => home.remove());

const bringIn = (...names: string[]) =>
  addFilms(station, {
    paths: names.map((name) => join(shelf, name)),
    gameTitle: 'Herons v Mariners',
    angle: 'sideline',
    onePlayPerFile: true,
  });
const view = (name: string) => filmViews(station).find((film) => film.name === name)!;
const finished = (job: JobView) => station.jobs.finished(job.jobId);
const inCache = () => readdirSync(join(station.library.cacheFolder, 'proxies')).sort();

describe('the proxies of a library', () => {
  it('are wanted for film that the window cannot play, made as jobs, served and dropped', async () => {
    const { proxies } = await bringIn('1.avi', 'plain.mp4');
    // without a service the proxy is written down for the next one
    expect(proxies).toBe(1);
    expect(station.jobs.list()).toMatchObject([{ kind: 'make-proxy', state: 'waiting' }]);
    expect(view('plain.mp4')).toMatchObject({ proxy: 'none', proxyReason: null, interlaced: false });
    const { filmId } = view('1.avi');
    expect(view('1.avi').proxy).toBe('making');
    expect((await problemOf(() => proxyPathOrProblem(station.library, filmId))).code).toBe('proxy-unknown');

    station.jobs.resumeInterrupted();
    const [job] = station.jobs.list();
    expect(await finished(job!)).toMatchObject({ state: 'done', filmId, report: { frames: FRAMES } });
    expect(view('1.avi')).toMatchObject({ proxy: 'ready', proxyReason: expect.stringContaining('JPEG') });
    const path = proxyPathOrProblem(station.library, filmId);
    expect(await readNumbers(path, { width: 160, height: 96 })).toEqual(range(100, 100 + FRAMES));

    const service = await serveStation(station, { secret: 'test' });
    const ask = (at: string, method = 'GET', headers = {}) =>
      fetch(service.origin + at, { method, headers: { 'x-tapebook-secret': 'test', ...headers } });
    const frames = await (await ask(`/api/films/${filmId}/frames?of=proxy`)).json();
    expect(frames.ptsMicros).toEqual(Array.from(proxyTable(station.library, filmId).ptsMicros));
    const part = await ask(`/media/films/${filmId}/proxy`, 'GET', { range: 'bytes=4-7' });
    expect([part.status, await part.text()]).toEqual([206, 'ftyp']);
    expect((await ask(`/api/films/${filmId}/proxy`, 'DELETE')).status).toBe(200);
    expect((await ask(`/media/films/${filmId}/proxy`)).status).toBe(404);
    expect(view('1.avi').proxy).toBe('wanted');
    expect(inCache()).toEqual([]);
    const again = (await (await ask(`/api/films/${filmId}/proxy`, 'POST')).json()) as JobView;
    const twice = (await (await ask(`/api/films/${filmId}/proxy`, 'POST')).json()) as JobView;
    expect(twice.jobId).toBe(again.jobId);
    expect(await finished(again)).toMatchObject({ state: 'done' });
    await service.close();
  });

  it('stay under their limit: the one not used for longest goes, and one in the background takes nobody’s place', async () => {
    await bringIn('1.avi', '2.avi', '3.avi');
    for (const job of station.jobs.list()) station.jobs.cancel(job.jobId);
    const ids = ['1.avi', '2.avi', '3.avi'].map((name) => view(name).filmId) as [string, string, string];
    for (const id of ids.slice(0, 2)) await finished(startProxy(station, id));
    // the first was looked at last
    const before = new Date(Date.now() - 60_000);
    utimesSync(join(station.library.cacheFolder, 'proxies', `${ids[1]}.frames`), before, before);
    expect(keptProxies(station.library).map((proxy) => proxy.filmId)).toEqual([ids[1], ids[0]]);
    // beside the most that the third may take there is room for one of the two, not for both
    const [one, other] = keptProxies(station.library).map((proxy) => proxy.bytes) as [number, number];
    const needed = proxyBytesAtMost(FRAMES / 30, { width: 160, height: 96 });
    changeProxySettings(station.library, { limitGigabytes: (needed + Math.max(one, other) + 1000) / 1e9 });
    expect(wantProxies(station, [ids[2]], 'now')).toBe(1);
    const [background] = station.jobs.list();
    expect(await finished(background!)).toMatchObject({ state: 'failed', problem: { code: 'proxy-limit' } });
    expect(keptProxies(station.library)).toHaveLength(2);
    expect(await finished(startProxy(station, ids[2]))).toMatchObject({
      state: 'done',
      report: { removed: 1 },
    });
    expect(keptProxies(station.library).map((proxy) => proxy.filmId)).toEqual([ids[0], ids[2]]);
  });

  it('called off end within a second, with nothing left, and the film is as before', async () => {
    await bringIn('long.avi');
    const { filmId } = view('long.avi');
    station.jobs.resumeInterrupted();
    const job = startProxy(station, filmId);
    await vi.waitFor(() => expect(inCache().length).toBeGreaterThan(0), { timeout: 30_000, interval: 20 });
    const before = performance.now();
    dropProxy(station, filmId);
    expect(await finished(job)).toMatchObject({ state: 'cancelled' });
    expect(performance.now() - before).toBeLessThan(1_000);
    expect(inCache()).toEqual([]);
    expect(view('long.avi').proxy).toBe('wanted');
  });
});

describe('the order of jobs', () => {
  it('lets what a person waits for go before the background, two at a time, and a hurried one next', async () => {
    const ended: string[] = [];
    const open = new Map<string, () => void>();
    let most = 0;
    station.jobs.define<{ name: string; slow?: boolean }>('test', {
      background: ({ name }) => name.startsWith('b'),
      work: ({ name }) =>
        new Promise<void>((resolve) => {
          most = Math.max(most, open.size + 1);
          open.set(name, () => {
            open.delete(name);
            ended.push(name);
            resolve();
          });
        }),
    });
    const jobs = new Map(
      ['b1', 'b2', 'b3', 'p1', 'p2'].map((name) => [name, station.jobs.start('test', name, { name })]),
    );
    const running = async (...names: string[]) =>
      vi.waitFor(() => expect([...open.keys()].sort()).toEqual(names));
    // of the background one at most runs, and a place is taken by what a person asked for first
    await running('p1', 'p2');
    open.get('p1')!();
    await running('b1', 'p2');
    station.jobs.hurry(jobs.get('b3')!.jobId);
    open.get('p2')!();
    await running('b1', 'b3');
    expect(station.jobs.cancel(jobs.get('b2')!.jobId)).toMatchObject({ state: 'cancelled' });
    for (const end of [...open.values()]) end();
    await Promise.all([...jobs.values()].map(finished));
    expect([ended.length, most]).toEqual([4, 2]);
  });
});

describe('the service killed while a proxy is made', () => {
  const start = (library: string): Promise<{ child: ChildProcess; address: URL }> => {
    const child = spawn(process.execPath, ['dist/service/main.mjs', '--library', library], {
      stdio: ['pipe', 'pipe', 'inherit'],
    });
    return new Promise((resolve, reject) => {
      child.once('exit', (code) => reject(new Error(`The service ended with ${code}.`)));
      child.stdout!.once('data', (said) => resolve({ child, address: new URL(JSON.parse(said).address) }));
    });
  };
  const jobsOf = async (address: URL): Promise<JobView[]> =>
    (
      await fetch(new URL('/api/jobs', address), {
        headers: { 'x-tapebook-secret': address.searchParams.get('secret')! },
      })
    ).json();

  it('has no half file under a final name, sweeps what was half made, and makes it at the next start', async () => {
    await bringIn('long.avi');
    const { filmId } = view('long.avi');
    const { cacheFolder } = station.library;
    await station.close();
    const first = await start(home.path);
    await vi.waitFor(
      () => expect(readdirSync(join(cacheFolder, 'proxies')).some((n) => n.endsWith('.part'))).toBe(true),
      { timeout: 60_000, interval: 20 },
    );
    const dead = new Promise((resolve) => first.child.once('exit', resolve));
    first.child.kill('SIGKILL');
    await dead;
    expect(existsSync(join(cacheFolder, 'proxies', `${filmId}.mp4`))).toBe(false);
    const second = await start(home.path);
    await vi.waitFor(async () => expect(await jobsOf(second.address)).toMatchObject([{ state: 'done' }]), {
      timeout: 90_000,
      interval: 200,
    });
    expect(readdirSync(join(cacheFolder, 'proxies')).sort()).toEqual([`${filmId}.frames`, `${filmId}.mp4`]);
    const closed = new Promise((resolve) => second.child.once('exit', resolve));
    second.child.stdin!.end();
    await closed;
    station = await home.reopen();
    expect(view('long.avi')).toMatchObject({ proxy: 'ready', frames: 150 });
  });

  it('leaves a cache that is swept of all that was half made, and of nothing else', () => {
    const { cacheFolder } = station.library;
    for (const folder of ['proxies', 'frames', 'edges/.tapebook-work-1'])
      mkdirSync(join(cacheFolder, folder), { recursive: true });
    const names = ['proxies/a.mp4', 'proxies/a.frames', 'frames/a.frames'];
    const half = ['proxies/b.mp4.1f.part', 'proxies/c.mp4', 'proxies/d.frames', 'frames/e.json.part'];
    for (const name of [...names, ...half]) writeFileSync(join(cacheFolder, name), 'x');
    expect(sweepCache(station.library)).toBe(half.length + 1);
    for (const name of names) expect(existsSync(join(cacheFolder, name)), name).toBe(true);
    for (const name of [...half, 'edges/.tapebook-work-1'])
      expect(existsSync(join(cacheFolder, name)), name).toBe(false);
  });
});
