import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { renderPlaylist } from '../../../electron/export/playlist.ts';
import { makeNumberedFilm, range, readNumbers, tools } from '../../fixtures/numbered-film.ts';
import { segment } from '../../fixtures/reel-segments.ts';

const folder = mkdtempSync(join(tmpdir(), 'playlist-'));
const at = (name: string) => join(folder, name);
const out = (name: string) => join(folder, 'out', name);
const BOX = { width: 160, height: 96 };
afterAll(() => rmSync(folder, { recursive: true, force: true }));

beforeAll(async () => {
  await makeNumberedFilm({ path: at('plain.mp4'), frames: 30 });
  await makeNumberedFilm({ path: at('sound.mp4'), frames: 45, sound: true });
  await makeNumberedFilm({
    path: at('varying.mp4'),
    frames: 60,
    filter: "settb=1/90000,setpts='90*(N*33+mod(N*7,5)*4+300*gte(N,40))'",
  });
});
beforeEach(() => {
  rmSync(at('out'), { recursive: true, force: true });
  mkdirSync(at('out'));
});

describe('a playlist', () => {
  it('plays exactly the frames of its clips, one segment each', { timeout: 300_000 }, async () => {
    const segments = [
      { ...(await segment(at('sound.mp4'), 3, 40)), title: 'Stick, 3rd and 6' },
      await segment(at('varying.mp4'), 30, 60),
      await segment(at('plain.mp4'), 20, 21),
    ];
    const result = await renderPlaylist(segments, out('third down.m3u8'), { tools });
    if (!result.ok) throw new Error(result.problem.message);
    const wanted = [range(3, 40), range(30, 60), range(20, 21)];
    expect(await readNumbers(result.value.path, BOX)).toEqual(wanted.flat());

    const text = readFileSync(result.value.path, 'utf8');
    const lines = text.split('\n');
    expect(lines[0]).toBe('#EXTM3U');
    expect(lines.at(-2)).toBe('#EXT-X-ENDLIST');
    expect(text).toContain('#EXTINF:1.233333,Stick, 3rd and 6\n');
    // RFC 8216, 4.3.3.1: no segment, rounded, may be longer than the target duration
    const target = Number(/TARGETDURATION:(\d+)/.exec(text)?.[1]);
    for (const [, seconds] of text.matchAll(/#EXTINF:([\d.]+),/g))
      expect(Math.round(Number(seconds))).toBeLessThanOrEqual(target);
    const files = lines.filter((line) => line !== '' && !line.startsWith('#'));
    expect(files.length).toBe(3);
    for (const [clip, file] of files.entries()) {
      expect(file).toMatch(/^[\w./-]+$/);
      expect(await readNumbers(out(file), BOX)).toEqual(wanted[clip]);
    }
    expect(readdirSync(at('out')).length).toBe(2);
  });

  it('made again replaces its segments, but never a folder that holds something else', async () => {
    const options = { tools };
    const first = await renderPlaylist(
      [await segment(at('plain.mp4'), 0, 5), await segment(at('plain.mp4'), 8, 9)],
      out('list.m3u8'),
      options,
    );
    const second = await renderPlaylist([await segment(at('plain.mp4'), 5, 7)], out('list.m3u8'), options);
    expect(first.ok && second.ok).toBe(true);
    expect(readdirSync(out('list-segments'))).toEqual(['0001.ts']);
    expect(await readNumbers(out('list.m3u8'), BOX)).toEqual([5, 6]);
    writeFileSync(out('list-segments/thesis.doc'), 'mine');
    const third = await renderPlaylist([await segment(at('plain.mp4'), 0, 5)], out('list.m3u8'), options);
    expect(third.ok ? 'made' : third.problem.code).toBe('target-unwritable');
    expect(readdirSync(out('list-segments'))).toContain('thesis.doc');
  });
});
