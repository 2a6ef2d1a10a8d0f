import { mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { type IncomingHttpHeaders, request } from 'node:http';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { rememberPlace } from '../../../db/repositories/film.ts';
import { addFilms } from '../../../electron/service/film/add-films.ts';
import { type RunningService, serveStation } from '../../../electron/service/server.ts';
import type { Problem } from '../../../football/result.ts';
import { gameOf, type TestStation, testStation } from '../../support/station.ts';

const SECRET = 'a-secret-of-this-launch';
const FILM = Buffer.from(Array.from({ length: 5000 }, (_, i) => i % 251));

let home: TestStation;
let service: RunningService;
let playId: string;

beforeAll(async () => {
  home = testStation();
  playId = gameOf(home.station, 1).playIds[0]!;
  const renderer = join(home.folder, 'window');
  mkdirSync(join(renderer, 'assets'), { recursive: true });
  writeFileSync(join(renderer, 'index.html'), '<title>The window</title>');
  writeFileSync(join(renderer, 'assets', 'index.js'), 'export {};');
  writeFileSync(join(home.folder, 'kept.txt'), 'not for the window');
  const path = join(home.folder, 'week 1 #3.mp4');
  writeFileSync(path, FILM);
  home.station.library.journal.commit({ label: 'film' }, [
    { entity: 'film', id: 'film-1', field: 'removed', value: 0 },
    { entity: 'film', id: 'film-1', field: 'name', value: 'week 1 #3.mp4' },
    { entity: 'film', id: 'film-2', field: 'removed', value: 0 },
    { entity: 'film', id: 'film-2', field: 'name', value: 'moved.mp4' },
  ]);
  rememberPlace(home.station.library, {
    filmId: 'film-1',
    path,
    bytes: FILM.length,
    modifiedMs: statSync(path).mtimeMs,
  });
  service = await serveStation(home.station, { rendererFolder: renderer, secret: SECRET });
});

afterAll(async () => {
  await service.close();
  await home.remove();
});

interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
}

/** A request as a browser or a stranger could send it: path and headers go out exactly as they stand here. */
function ask(
  path: string,
  headers: Record<string, string> = {},
  post: { body: string } | null = null,
): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const { hostname, port } = new URL(service.origin);
    const asked = request({ hostname, port, path, headers, method: post ? 'POST' : 'GET' }, (answer) => {
      const parts: Buffer[] = [];
      answer.on('data', (part: Buffer) => parts.push(part));
      answer.on('end', () =>
        resolve({ status: answer.statusCode ?? 0, headers: answer.headers, body: Buffer.concat(parts) }),
      );
    });
    asked.on('error', reject);
    asked.end(post?.body);
  });
}

const known = { 'x-tapebook-secret': SECRET };
const problemIn = (answer: Answer) => (JSON.parse(answer.body.toString()) as { problem: Problem }).problem;
const post = (path: string, body: unknown) =>
  ask(
    path,
    { ...known, 'content-type': 'application/json' },
    { body: typeof body === 'string' ? body : JSON.stringify(body) },
  );

describe('who may ask the service', () => {
  it('the address with the secret opens the window once; from then on a cookie does that no script can read', async () => {
    const first = await ask(`/log?secret=${SECRET}&play=3`);
    expect(first.status).toBe(302);
    expect(first.headers.location).toBe('/log?play=3');
    const [cookie = ''] = first.headers['set-cookie'] ?? [];
    expect(cookie).toMatch(/HttpOnly/i);
    expect(cookie).toMatch(/SameSite=Strict/i);
    const given = { cookie: cookie.split(';', 1)[0] ?? '' };
    expect((await ask('/api/library', given)).status).toBe(200);
    expect((await ask('/log', given)).body.toString()).toContain('The window');
    expect((await ask('/media/films/film-1', given)).status).toBe(200);
  });

  it.each([
    '/',
    '/index.html',
    '/assets/index.js',
    '/api/library',
    '/api/events',
    '/api/folders',
    '/media/films/film-1',
    '/media/stills/film-1/3.jpg',
  ])('nobody gets %s without the secret', async (path) => {
    expect((await ask(path)).status).toBe(401);
    expect((await ask(path, { 'x-tapebook-secret': 'a-secret-of-this-launcH' })).status).toBe(401);
    expect((await ask(path, { 'x-tapebook-secret': '' })).status).toBe(401);
    const cookie = `tapebook-${new URL(service.origin).port}=wrong`;
    expect((await ask(path, { cookie })).status).toBe(401);
    expect((await ask(`${path}?secret=wrong`)).status).toBe(401);
  });

  it('the secret in the address opens nothing but a window', async () => {
    const answer = await ask(`/api/undo?secret=${SECRET}`, {}, { body: '{}' });
    expect(answer.status).toBe(401);
  });

  it('a redirect never leads to another machine', async () => {
    const answer = await ask(`//elsewhere.example/?secret=${SECRET}`);
    expect(answer.headers.location ?? '/').toMatch(/^\/(?!\/)/);
  });

  it.each(['localhost', 'evil.example', '127.0.0.1', '127.0.0.1:1'])(
    'the host %j is not this service',
    async (host) => {
      const answer = await ask('/api/library', { ...known, host });
      expect(answer.status).toBe(421);
    },
  );

  it.each(['http://evil.example', 'null', 'https://127.0.0.1', 'http://localhost:3000'])(
    'a page of %s may not ask',
    async (origin) => {
      expect((await ask('/api/library', { ...known, origin })).status).toBe(403);
    },
  );

  it('the window itself may', async () => {
    expect((await ask('/api/library', { ...known, origin: service.origin })).status).toBe(200);
  });

  it('tells the window to run nothing from elsewhere', async () => {
    const { headers } = await ask('/', known);
    const policy = String(headers['content-security-policy']);
    expect(policy).toContain("default-src 'self'");
    expect(policy).toContain("object-src 'none'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toContain('unsafe-eval');
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['cross-origin-resource-policy']).toBe('same-origin');
  });
});

describe('film', () => {
  it('comes whole, and by ranges (RFC 9110, 14)', async () => {
    const whole = await ask('/media/films/film-1', known);
    expect(whole.status).toBe(200);
    expect(whole.body.equals(FILM)).toBe(true);
    expect(whole.headers['content-type']).toBe('video/mp4');
    for (const [range, from, to] of [
      ['bytes=0-99', 0, 100],
      ['bytes=4900-', 4900, 5000],
      ['bytes=-10', 4990, 5000],
      ['bytes=4990-9999', 4990, 5000],
    ] as const) {
      const part = await ask('/media/films/film-1', { ...known, range });
      expect(part.status, range).toBe(206);
      expect(part.headers['content-range'], range).toBe(`bytes ${from}-${to - 1}/5000`);
      expect(part.body.equals(FILM.subarray(from, to)), range).toBe(true);
    }
  });

  it('refuses a range that lies behind the end', async () => {
    const answer = await ask('/media/films/film-1', { ...known, range: 'bytes=5000-' });
    expect(answer.status).toBe(416);
    expect(answer.headers['content-range']).toBe('bytes */5000');
  });

  it('brought in by the Film room comes from where it lies, from the first byte to the last', async () => {
    const clip = join(process.cwd(), 'sample-clips/herons-mariners-018-sideline.mp4');
    const input = { paths: [clip], gameTitle: 'Herons v Mariners', angle: null, onePlayPerFile: false };
    const { added } = await addFilms(home.station, input);
    const address = `/media/films/${added[0]?.filmId}`;
    const bytes = readFileSync(clip);
    const last = bytes.length - 1;
    const part = await ask(address, { ...known, range: `bytes=1000-${last}` });
    expect([part.status, part.headers['content-range']]).toEqual([206, `bytes 1000-${last}/${bytes.length}`]);
    expect(part.body.equals(bytes.subarray(1000))).toBe(true);
    expect((await ask(address, { ...known, range: `bytes=${bytes.length}-` })).status).toBe(416);
    expect((await ask(address, { range: 'bytes=0-1' })).status).toBe(401);
  });

  it('is named when it is not there, or not where it was', async () => {
    const unknown = await ask('/media/films/film-9', known);
    expect([unknown.status, problemIn(unknown).code]).toEqual([404, 'film-unknown']);
    const missing = await ask('/media/films/film-2', known);
    expect([missing.status, problemIn(missing).code]).toEqual([404, 'film-missing']);
    expect(problemIn(missing).message).toContain('moved.mp4');
  });

  it.each([
    '/media/films/..%2Fkept.txt',
    '/media/films/%2e%2e%2fkept.txt',
    '/media/films/film-1/../../kept.txt',
    '/media/stills/..%2F..%2Fkept/1.jpg',
    '/assets/..%2f..%2fkept.txt',
    '/..%2fkept.txt',
    '/../kept.txt',
    '/assets/%2e%2e/%2e%2e/kept.txt',
    '/%5c..%5ckept.txt',
  ])('nothing beside it is served: %s', async (path) => {
    const answer = await ask(path, known);
    expect(answer.body.toString()).not.toContain('not for the window');
  });
});

describe('what is asked wrongly', () => {
  it.each<[string, string, unknown]>([
    ['no JSON', '/api/tags', '{"playId": '],
    ['nothing', '/api/tags', ''],
    ['a list', '/api/tags', []],
    ['no play', '/api/tags', { changes: [{ field: 'gain', value: { kind: 'number', number: 3 } }] }],
    ['no change', '/api/tags', { playId: 'x', changes: [] }],
    ['a value of no kind', '/api/tags', { playId: 'x', changes: [{ field: 'gain', value: 3 }] }],
    ['half a frame', '/api/moments', { playId: 'x', kind: 'snap', filmId: 'film-1', frame: 1.5 }],
    ['no moment', '/api/moments', { playId: 'x', kind: 'kickoff', filmId: 'film-1', frame: 1 }],
    [
      'an angle nobody has',
      '/api/clips',
      { playId: 'x', filmId: 'f', angle: 'roof', inFrame: 0, outFrame: 1 },
    ],
    ['no path', '/api/films/add', { paths: [], onePlayPerFile: true, gameTitle: 'x' }],
    ['a date that is none', '/api/games', { title: 'Herons v Stags', date: '2025-13-01' }],
  ])('%s is a problem in words, not a failure', async (_, path, body) => {
    const answer = await post(path, body);
    expect(answer.status).toBe(400);
    expect(problemIn(answer)).toMatchObject({ code: 'request-unfit', kept: 'Nothing was changed.' });
  });

  it('a body that does not say it is JSON changes nothing', async () => {
    const body = JSON.stringify({ title: 'Herons v Foxes' });
    const answer = await ask('/api/games', { ...known, 'content-type': 'text/plain' }, { body });
    expect(answer.status).toBe(400);
    expect(home.station.library.db.prepare('SELECT count(*) FROM games').pluck().get()).toBe(1);
  });

  it('an address of the service that is not there is not the window', async () => {
    for (const path of ['/api/nothing', '/media/nothing']) {
      const answer = await ask(path, known);
      expect([path, answer.status]).toEqual([path, 404]);
      expect(answer.body.toString()).not.toContain('The window');
    }
  });

  it('a frame behind the end of a film is a problem in words', async () => {
    const { code } = problemIn(
      await post('/api/moments', { playId, kind: 'snap', filmId: 'film-9', frame: 3 }),
    );
    expect(code).toBe('film-unknown');
  });

  it('two stations side by side keep their windows apart', async () => {
    const other = await serveStation(home.station, { secret: 'another-secret' });
    const { port } = new URL(other.origin);
    expect(port).not.toBe(new URL(service.origin).port);
    const answer = await fetch(`${other.origin}/api/library`, { headers: known });
    expect(answer.status).toBe(401);
    await other.close();
  });
});
