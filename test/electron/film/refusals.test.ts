import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FilmRefusal } from '../../../electron/film/film-types.ts';
import { probeFilm } from '../../../electron/film/probe.ts';
import { bendFilm, filmsToBend } from '../../fixtures/bent-film.ts';
import { copyFilm, makeNumberedFilm, runTool, tools } from '../../fixtures/numbered-film.ts';

const folder = mkdtempSync(join(tmpdir(), 'refused-'));
const at = (name: string) => join(folder, name);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let asked = 0;
const server = createServer((_, response) => {
  asked++;
  response.end();
});
let address = '';
afterAll(() => server.close());

beforeAll(async () => {
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  await makeNumberedFilm({ path: at('good.mp4'), frames: 60, sound: true });
});

function written(name: string, content: string | Buffer): string {
  writeFileSync(at(name), content);
  return at(name);
}

const BAD: { what: string; make: () => Promise<string> | string; code: FilmRefusal }[] = [
  { what: 'a file that is not there', make: () => at('nowhere.mp4'), code: 'film-missing' },
  {
    what: 'a folder',
    make: () => {
      mkdirSync(at('folder.mp4'));
      return at('folder.mp4');
    },
    code: 'film-not-a-file',
  },
  { what: 'an empty file', make: () => written('empty.mp4', ''), code: 'film-empty' },
  {
    what: 'text called film',
    make: () => written('notes.mp4', 'Cover 3 on third down\n'),
    code: 'film-unreadable',
  },
  {
    what: 'nothing but zeros',
    make: () => written('zeros.mov', Buffer.alloc(100_000)),
    code: 'film-unreadable',
  },
  {
    what: 'a playlist in disguise',
    make: () => written('list.mp4', `#EXTM3U\n#EXTINF:1,\n${address}/a.ts\n#EXT-X-ENDLIST\n`),
    code: 'film-is-a-list',
  },
  {
    what: 'a playlist behind blank lines',
    make: () => written('blank.ts', `\n\n #EXTM3U\n#EXTINF:1,\n${address}/a.ts\n`),
    code: 'film-is-a-list',
  },
  {
    what: 'a list for joining files',
    make: () => written('join.avi', `ffconcat version 1.0\nfile '${at('good.mp4')}'\n`),
    code: 'film-is-a-list',
  },
  {
    what: 'a list for joining files behind a comment',
    make: () => written('join2.avi', `# film\nffconcat version 1.0\nfile '${at('good.mp4')}'\n`),
    code: 'film-unreadable',
  },
  {
    what: 'a manifest that names a server',
    make: () => written('dash.mp4', `<?xml version="1.0"?><MPD><BaseURL>${address}/</BaseURL></MPD>`),
    code: 'film-is-a-list',
  },
  {
    what: 'the start of an MP4 without its table',
    make: () => written('head.mp4', readFileSync(at('good.mp4')).subarray(0, 4000)),
    code: 'film-cut-short',
  },
  {
    what: 'an MP4 whose table came first and whose end is missing',
    make: async () => {
      await copyFilm(at('good.mp4'), at('short.mp4'), ['-movflags', '+faststart']);
      truncateSync(at('short.mp4'), 9_000);
      return at('short.mp4');
    },
    code: 'film-cut-short',
  },
  {
    what: 'sound without picture',
    make: async () => {
      await runTool(tools.ffmpeg.path, [
        '-v',
        'error',
        '-y',
        '-i',
        at('good.mp4'),
        '-vn',
        '-c',
        'copy',
        at('sound.mp4'),
      ]);
      return at('sound.mp4');
    },
    code: 'film-no-picture',
  },
  {
    what: 'a picture of 2 x 2',
    make: () => makeNumberedFilm({ path: at('tiny.mp4'), frames: 5, width: 2, height: 2 }),
    code: 'film-absurd',
  },
  {
    what: 'a film that lasts 28 days',
    make: () =>
      makeNumberedFilm({
        path: at('long.mkv'),
        frames: 5,
        filter: "settb=1/90000,setpts='90000*(N*600000)'",
      }),
    code: 'film-absurd',
  },
];

describe('a file that is not film', () => {
  it.each(BAD)('is refused by name, with the reason and what to do: $what', async ({ make, code }) => {
    const path = await make();
    const result = await probeFilm(path, { tools });
    if (result.ok) throw new Error(`it was read: ${result.value.frames} frames`);
    expect(result.problem.code).toBe(code);
    expect(result.problem.message).toContain(path.split('/').pop());
    expect(result.problem.next).toMatch(/\w/);
  });

  it('makes nobody ask a server for anything', () => {
    expect(asked).toBe(0);
  });

  it.skipIf(process.getuid?.() === 0)(
    'is refused when it may not be read (skipped for root, who may)',
    async () => {
      const path = written('secret.mp4', 'x');
      chmodSync(path, 0);
      const result = await probeFilm(path, { tools });
      expect(result.ok ? 'read' : result.problem.code).toBe('film-no-permission');
    },
  );

  it('says that it needs ffmpeg where a kind of file needs it and none works', async () => {
    const path = await makeNumberedFilm({ path: at('old.avi'), frames: 5, video: ['-c:v', 'mpeg4'] });
    const ffmpeg = { ...tools.ffmpeg, path: at('no-such-program') };
    const result = await probeFilm(path, { tools: { ffmpeg, ffprobe: null } });
    expect(result.ok ? 'read' : result.problem.code).toBe('film-tool-missing');
  });

  it('is not read at all after a cancel', async () => {
    const result = await probeFilm(at('good.mp4'), { tools, signal: AbortSignal.abort() });
    expect(result.ok ? 'read' : result.problem.code).toBe('cancelled');
  });

  it('that sends its reader into an endless loop ends at the limit', async () => {
    // the first level-one element has a length that no element may have, at which the reader starts over for ever
    const head = Buffer.from(
      '1a45dfa39f4286810142f7810142f2810442f381084282847765626d42878104428581021853806701ffffffffffffff',
      'hex',
    );
    const path = written(
      'loop.webm',
      Buffer.concat([head, Buffer.from('1654ae6b00', 'hex'), Buffer.alloc(4000, 1)]),
    );
    const before = performance.now();
    const result = await probeFilm(path, { tools, timeLimitMs: 1_500 });
    expect(result.ok ? 'read' : result.problem.code).toBe('film-too-slow');
    expect(performance.now() - before).toBeLessThan(10_000);
  });
});

describe('a damaged film', () => {
  it('is read or refused with a reason, and stops nothing else: 60 of them', {
    timeout: 300_000,
  }, async () => {
    // the same films, two thousand of them, are a benchmark: test/bench/bad-film.bench.ts
    const sources = await filmsToBend(at);
    for (let round = 0; round < 60; round++) {
      const source = sources[round % sources.length]!;
      const path = written(
        `bent-${round % 6}.${source.split('.').pop()}`,
        bendFilm(source, 20250906 + round),
      );
      const result = await probeFilm(path, { tools, timeLimitMs: 4_000 });
      if (result.ok) expect(result.value.frames).toBeGreaterThan(0);
      else expect(result.problem.message).toContain('bent-');
    }
    expect(asked).toBe(0);
    const good = await probeFilm(at('good.mp4'), { tools });
    expect(good.ok && good.value.frames).toBe(60);
  });
});
