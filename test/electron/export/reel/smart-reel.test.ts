import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeReel } from '../../../../electron/export/reel/make-reel.ts';
import { openPacketFilm } from '../../../../electron/export/reel/packet-film.ts';
import { renderReel } from '../../../../electron/export/reel.ts';
import { planReel } from '../../../../electron/export/reel-plan.ts';
import type { ReelOptions, ReelSegment } from '../../../../electron/export/reel-types.ts';
import { probeFilm } from '../../../../electron/film/probe.ts';
import {
  makeNumberedFilm,
  range,
  readNumbers,
  readSound,
  toneStarts,
  tools,
} from '../../../fixtures/numbered-film.ts';

const folder = mkdtempSync(join(tmpdir(), 'smart-reel-'));
const at = (name: string) => join(folder, name);
const BOX = { width: 160, height: 96 };
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const x264 = (params: string, ...more: string[]) => [
  ...['-c:v', 'libx264', '-preset', 'veryfast', '-crf', '18', ...more],
  ...['-x264-params', `scenecut=0:${params}`],
];
const CLOSED = x264('keyint=30:min-keyint=30:bframes=2:b-adapt=0');

async function clipOf(path: string): Promise<(inFrame: number, outFrame: number) => ReelSegment> {
  const film = await probeFilm(path, { tools });
  if (!film.ok) throw new Error(film.problem.message);
  const { table, contentId } = film.value;
  return (inFrame, outFrame) => ({ path, table, inFrame, outFrame, filmId: contentId });
}

async function render(segments: readonly ReelSegment[], name: string, options: Partial<ReelOptions> = {}) {
  const made = await renderReel(segments, at(name), { tools, ...options });
  if (!made.ok) throw new Error(made.problem.message);
  return made.value;
}

const wantedOf = (segments: readonly ReelSegment[]) =>
  segments.flatMap(({ inFrame, outFrame }) => range(inFrame, outFrame));

beforeAll(async () => {
  await makeNumberedFilm({ path: at('closed.mp4'), frames: 600, video: CLOSED });
  await makeNumberedFilm({ path: at('sound.mp4'), frames: 600, video: CLOSED, sound: true });
});

const KINDS: {
  what: string;
  film: Partial<Parameters<typeof makeNumberedFilm>[0]>;
  /** how stretches across key frames are made */
  how: 'edges' | 'encoded';
  why?: RegExp;
}[] = [
  { what: 'closed groups of 30', film: { video: CLOSED }, how: 'edges' },
  {
    what: '29.97 frames a second, with sound',
    film: { video: CLOSED, rate: '30000/1001', sound: true },
    how: 'edges',
  },
  {
    what: 'pyramids of B-frames, 59.94 a second',
    film: {
      video: x264('keyint=48:min-keyint=48:bframes=5:b-adapt=0:b-pyramid=normal:ref=4'),
      rate: '60000/1001',
    },
    how: 'edges',
  },
  {
    what: 'groups of 250',
    film: { video: x264('keyint=250:bframes=3:b-adapt=0') },
    how: 'encoded',
    why: /no key frame|hardly/,
  },
  {
    what: 'open groups',
    film: { video: x264('keyint=30:min-keyint=30:bframes=3:b-adapt=0:open-gop=1') },
    how: 'encoded',
    why: /no key frame|open|hardly/,
  },
  {
    what: 'varying distances',
    film: { video: CLOSED, filter: "settb=1/90000,setpts='90*(N*33+mod(N*7,5)*4+300*gte(N,40))'" },
    how: 'edges',
  },
  {
    what: 'interlaced film',
    film: { video: x264('keyint=30:min-keyint=30:tff=1', '-flags', '+ildct+ilme') },
    how: 'encoded',
    why: /interlaced/,
  },
];

describe('a reel of copied packets', () => {
  it.each(KINDS)(
    'holds exactly the frames asked for: $what',
    { timeout: 400_000 },
    async ({ what, film, how, why }) => {
      const path = await makeNumberedFilm({
        path: at(`${what.replace(/\W+/g, '-')}.mp4`),
        frames: 300,
        ...film,
      });
      const clip = await clipOf(path);
      const segments = [clip(7, 131), clip(61, 152), clip(59, 121), clip(95, 97), clip(170, 299)];
      const report = await render(segments, 'kind.mp4');
      expect(await readNumbers(report.path, BOX)).toEqual(wantedOf(segments));
      expect(report.segments[0]?.how).toBe(how);
      if (why) expect(report.segments[0]?.why).toMatch(why);
      expect(report.segments[3]?.how).toBe('encoded');
      const made = await probeFilm(report.path, { tools });
      if (!made.ok || !film.filter) return;
      // every frame is shown as long as it was
      const { table } = segments[0]!;
      for (let frame = 0; frame < 124; frame++) {
        const since = table.ptsMicros[7 + frame]! - table.ptsMicros[7]!;
        expect(
          Math.abs(made.value.table.ptsMicros[frame]! - made.value.table.ptsMicros[0]! - since),
        ).toBeLessThan(50);
      }
    },
  );

  it('holds sixty clips at arbitrary frames, with their sound in step, and twice the same bytes', {
    timeout: 300_000,
  }, async () => {
    const clip = await clipOf(at('sound.mp4'));
    const segments = range(0, 60).map((n) => {
      const inFrame = (n * 97) % 480;
      return clip(inFrame, inFrame + 45 + ((n * 31) % 60));
    });
    const edgeFolder = at('edges');
    const cold = await render(segments, 'cold.mp4', { edgeFolder });
    expect(cold.segments.every(({ how }) => how !== 'encoded')).toBe(true);
    expect(await readNumbers(cold.path, BOX)).toEqual(wantedOf(segments));
    const kept = readdirSync(edgeFolder, { recursive: true }).filter((name) => String(name).endsWith('.mp4'));
    expect(kept.length).toBeGreaterThan(60);
    const warm = await render(segments, 'warm.mp4', { edgeFolder });
    const bare = await render(segments, 'bare.mp4');
    const bytes = readFileSync(cold.path);
    expect(readFileSync(warm.path).equals(bytes)).toBe(true);
    expect(readFileSync(bare.path).equals(bytes)).toBe(true);

    // the film's tone starts at each of its whole seconds
    const tones: number[] = [];
    let frame = 0;
    for (const { inFrame, outFrame } of segments) {
      for (let second = Math.ceil(inFrame / 30); second * 30 < outFrame - 2; second++) {
        if (second * 30 >= inFrame + 2) tones.push((frame + second * 30 - inFrame) / 30);
      }
      frame += outFrame - inFrame;
    }
    const heard = toneStarts(await readSound(cold.path));
    for (const tone of tones) {
      const nearest = heard.reduce((best, one) =>
        Math.abs(one - tone) < Math.abs(best - tone) ? one : best,
      );
      expect(Math.abs(nearest - tone)).toBeLessThan(1 / 30);
    }
  });

  it('joins films whose parameter sets bear one number, and films of another kind, in one reel', {
    timeout: 300_000,
  }, async () => {
    const other = await makeNumberedFilm({
      path: at('other.mp4'),
      frames: 200,
      firstNumber: 1000,
      video: x264('keyint=40:min-keyint=40:bframes=0:ref=3:no-cabac=1', '-profile:v', 'main'),
    });
    const small = await makeNumberedFilm({
      path: at('small.mp4'),
      frames: 60,
      width: 96,
      height: 64,
      video: CLOSED,
    });
    const [one, two, three] = [await clipOf(at('closed.mp4')), await clipOf(other), await clipOf(small)];
    const report = await render([one(20, 140), two(13, 150), one(200, 300), three(5, 9)], 'mixed.mp4');
    const numbers = await readNumbers(report.path, BOX);
    expect(numbers.slice(0, -4)).toEqual([...range(20, 140), ...range(1013, 1150), ...range(200, 300)]);
    expect(numbers.length).toBe(120 + 137 + 100 + 4);
    expect(report.segments.map(({ how }) => how)).toEqual(['edges', 'edges', 'edges', 'encoded']);
  });

  it('joins whole films without encoding anything', async () => {
    const films = await Promise.all(
      range(0, 6).map((n) =>
        makeNumberedFilm({
          path: at(`play-${n}.mp4`),
          frames: 30,
          firstNumber: n * 100,
          video: CLOSED,
          sound: true,
        }),
      ),
    );
    const segments = await Promise.all(films.map(async (path) => (await clipOf(path))(0, 30)));
    const report = await render(segments, 'joined.mp4');
    expect(report.segments.every(({ how }) => how === 'copied')).toBe(true);
    expect(await readNumbers(report.path, BOX)).toEqual(
      range(0, 6).flatMap((n) => range(n * 100, n * 100 + 30)),
    );
    const starts = toneStarts(await readSound(report.path));
    expect(starts.length).toBe(6);
    for (const [n, start] of starts.entries()) expect(Math.abs(start - n)).toBeLessThan(1 / 30);
  });

  it('is made by the old ffmpeg that comes with the packages', { timeout: 400_000 }, async () => {
    const { path } = (await import('@ffmpeg-installer/ffmpeg')) as unknown as { path: string };
    const clip = await clipOf(at('closed.mp4'));
    const segments = [clip(7, 131), clip(250, 290)];
    const ffmpeg = { path, version: 'N-92722-gf22fcd4483-static', from: 'bundled' as const };
    const report = await render(segments, 'old.mp4', { tools: { ffmpeg, ffprobe: null } });
    expect(report.segments[0]?.how).toBe('edges');
    expect(await readNumbers(report.path, BOX)).toEqual(wantedOf(segments));
  });
});

describe('a look at the finished reel', () => {
  /** Makes a reel that is spoilt before it is looked at, as often as `spoil` says. */
  async function spoilt(spoil: (path: string, attempt: number) => Promise<void>) {
    const clip = await clipOf(at('closed.mp4'));
    const segments = [clip(7, 131), clip(200, 290), clip(311, 400)];
    const planned = planReel(segments, {});
    if (!planned.ok) throw new Error(planned.problem.message);
    const path = mkdtempSync(at('work-'));
    mkdirSync(path, { recursive: true });
    const made = await makeReel(
      planned.value,
      { path, beside: folder },
      { tools },
      {
        beforeCheck: (reel, _, attempt) => spoil(reel, attempt),
      },
    );
    expect(await readNumbers(made.path, BOX)).toEqual(wantedOf(segments));
    return made.segments;
  }

  it('finds a wrong picture at a join and encodes that clip', { timeout: 400_000 }, async () => {
    const segments = await spoilt(async (path, attempt) => {
      if (attempt > 0) return;
      const reel = await openPacketFilm(path, null);
      if (!('setup' in reel)) throw new Error(reel.why);
      // the first picture of the second clip takes the bytes of the first of the third, as far as they reach
      const file = await open(path, 'r+');
      const [to, from] = [reel.packetOf[124]!, reel.packetOf[214]!];
      const bytes = Buffer.alloc(Math.min(reel.bytes[to]!, reel.bytes[from]!));
      await file.read(bytes, 0, bytes.length, reel.at[from]!);
      await file.write(bytes, 0, bytes.length, reel.at[to]!);
      await file.close();
    });
    expect(segments.map(({ how }) => how)).toEqual(['edges', 'encoded', 'edges']);
    expect(segments[1]?.why).toMatch(/did not pass the check/);
  });

  it('encodes all when it can not tell which clip is wrong', { timeout: 400_000 }, async () => {
    const segments = await spoilt(async (path, attempt) => {
      if (attempt === 0) writeFileSync(path, readFileSync(path).subarray(0, 4000));
    });
    expect(segments.every(({ how }) => how === 'encoded')).toBe(true);
  });
});
