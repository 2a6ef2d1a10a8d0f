import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { renderReel } from '../../../electron/export/reel.ts';
import { planReel } from '../../../electron/export/reel-plan.ts';
import type { ReelOptions, ReelSegment } from '../../../electron/export/reel-types.ts';
import { compareTimes, decodeSegment } from '../../../electron/export/segment-frames.ts';
import { probeFilm } from '../../../electron/film/probe.ts';
import {
  copyFilm,
  ffprobeMicros,
  makeNumberedFilm,
  range,
  readNumbers,
  readSound,
  toneStarts,
  tools,
  turnMp4,
  X264,
} from '../../fixtures/numbered-film.ts';
import { segment } from '../../fixtures/reel-segments.ts';

const room = vi.hoisted(() => ({ free: Number.POSITIVE_INFINITY }));
vi.mock('check-disk-space', () => ({
  default: async () => ({ free: room.free, size: 1e12, diskPath: '/' }),
}));

const folder = mkdtempSync(join(tmpdir(), 'reel-'));
const at = (name: string) => join(folder, name);
const out = (name: string) => join(folder, 'out', name);
const BOX = { width: 160, height: 96 };
afterAll(() => rmSync(folder, { recursive: true, force: true }));

beforeAll(async () => {
  await makeNumberedFilm({ path: at('plain.mp4'), frames: 90 });
  await makeNumberedFilm({ path: at('sound.mp4'), frames: 90, sound: true });
  await makeNumberedFilm({
    path: at('varying.mp4'),
    frames: 90,
    filter: "settb=1/90000,setpts='90*(N*33+mod(N*7,5)*4+300*gte(N,40))'",
  });
});
beforeEach(() => {
  room.free = Number.POSITIVE_INFINITY;
  rmSync(at('out'), { recursive: true, force: true });
  mkdirSync(at('out'));
});

/** Stretches that start and end beside, on and between key frames, one frame long and up to the last frame. */
const STRETCHES = [
  [0, 3],
  [29, 33],
  [47, 48],
  [61, 90],
] as const;

async function render(segments: ReelSegment[], options: Partial<ReelOptions> = {}, name = 'reel.mp4') {
  const result = await renderReel(segments, out(name), { tools, ...options });
  if (!result.ok) throw new Error(result.problem.message);
  return result.value;
}

const KINDS: { what: string; make: () => Promise<string>; first?: number; slow?: true }[] = [
  { what: '30 frames a second', make: async () => at('plain.mp4') },
  { what: 'varying distances', make: async () => at('varying.mp4') },
  {
    what: '29.97 frames a second, key frames 250 apart',
    make: () =>
      makeNumberedFilm({
        path: at('2997.mp4'),
        frames: 90,
        rate: '30000/1001',
        video: [...X264.slice(0, -1), '250'],
      }),
  },
  {
    what: '59.94 frames a second, open groups',
    make: () =>
      makeNumberedFilm({
        path: at('5994.mp4'),
        frames: 90,
        rate: '60000/1001',
        video: [...X264, '-x264-params', 'open-gop=1'],
      }),
  },
  {
    what: 'a first time stamp that is not zero, and sound',
    make: () => copyFilm(at('sound.mp4'), at('late.mp4'), ['-output_ts_offset', '0.75']),
  },
  {
    what: 'an edit list that starts inside a group of pictures',
    make: async () => {
      await makeNumberedFilm({ path: at('longer.mp4'), frames: 136, sound: true });
      return copyFilm(at('longer.mp4'), at('edit.mp4'), [], ['-ss', '1.51']);
    },
    first: 46,
  },
  { what: 'Matroska', make: () => copyFilm(at('plain.mp4'), at('copy.mkv')) },
  { what: 'a transport stream', make: () => copyFilm(at('sound.mp4'), at('copy.ts')) },
  {
    what: 'fragments',
    make: () => copyFilm(at('plain.mp4'), at('parts.mp4'), ['-movflags', 'frag_keyframe+empty_moov']),
  },
  {
    what: 'an AVI',
    make: () => makeNumberedFilm({ path: at('old.avi'), frames: 90, video: ['-c:v', 'mpeg4', '-q:v', '3'] }),
  },
];

describe('a reel', () => {
  it.each(KINDS)(
    'holds exactly the frames asked for, in order: $what',
    { timeout: 300_000 },
    async ({ make, first = 0 }) => {
      const path = await make();
      const segments = await Promise.all(STRETCHES.map(([from, to]) => segment(path, from, to)));
      const report = await render(segments);
      const wanted = STRETCHES.flatMap(([from, to]) => range(from + first, to + first));
      expect(await readNumbers(report.path, BOX)).toEqual(wanted);
      expect(report.segments).toEqual(
        STRETCHES.map(([inFrame, outFrame]) => ({
          inFrame,
          outFrame,
          frames: outFrame - inFrame,
          how: expect.any(String),
          why: expect.any(String),
        })),
      );
      expect(report.frames).toBe(wanted.length);
      expect(readdirSync(at('out'))).toEqual(['reel.mp4']);
    },
  );

  it('finds its frames by their times, so that nothing before their key frame is decoded', async () => {
    const asked = await segment(at('varying.mp4'), 65, 70);
    const planned = planReel([asked], {});
    if (!planned.ok) throw new Error(planned.problem.message);
    const clip = planned.value.segments[0]!;
    const decoder = decodeSegment(clip, planned.value, tools, 'by-time');
    for await (const _ of decoder.output ?? []);
    await decoder.ended;
    expect(compareTimes(clip, decoder)).toBeNull();
    expect(decoder.times.length).toBe(5);
  });

  it('keeps every frame of mixed films once, each as long as it was', { timeout: 300_000 }, async () => {
    const fast = await makeNumberedFilm({ path: at('fast.mp4'), frames: 60, rate: '60' });
    const segments = [
      await segment(fast, 7, 20),
      await segment(at('varying.mp4'), 35, 45),
      await segment(at('plain.mp4'), 50, 60),
    ];
    const report = await render(segments);
    expect(await readNumbers(report.path, BOX)).toEqual([
      ...range(7, 20),
      ...range(35, 45),
      ...range(50, 60),
    ]);
    const lengths = segments.map(
      ({ table, inFrame, outFrame }) =>
        ((table.ptsMicros[outFrame] ?? table.endMicros) - table.ptsMicros[inFrame]!) / 1e6,
    );
    expect(report.seconds).toBeCloseTo(lengths[0]! + lengths[1]! + lengths[2]!, 4);
    const times = await ffprobeMicros(report.path);
    if (times) expect(Math.abs(times[13]! - times[0]! - lengths[0]! * 1e6)).toBeLessThan(200);
  });

  it('runs at one constant rate when that is asked for, repeating frames of the slower film', async () => {
    const fast = await makeNumberedFilm({ path: at('fast2.mp4'), frames: 30, rate: '60' });
    const report = await render([await segment(fast, 0, 6), await segment(at('plain.mp4'), 40, 43)], {
      rate: 'constant',
    });
    expect(await readNumbers(report.path, BOX)).toEqual([0, 1, 2, 3, 4, 5, 40, 40, 41, 41, 42, 42]);
    expect(report.fps).toBe(60);
  });

  it('keeps sound in step with the picture, and is silent where a clip has none', async () => {
    // the tone starts at each whole second: in the clips at frames 30, 60 and 30 of their films
    const sound = at('sound.mp4');
    const report = await render([
      await segment(sound, 20, 50),
      await segment(at('plain.mp4'), 0, 30),
      await segment(sound, 50, 90),
      await segment(sound, 25, 40),
    ]);
    const starts = toneStarts(await readSound(report.path));
    const wanted = [10, 70, 105].map((frame) => frame / 30);
    expect(starts.length).toBe(3);
    for (const [tone, start] of starts.entries())
      expect(Math.abs(start - wanted[tone]!)).toBeLessThan(1 / 60);
  });

  it('has no sound track where no film has sound', async () => {
    const report = await render([await segment(at('plain.mp4'), 0, 5)]);
    const made = await probeFilm(report.path, { tools });
    expect(made.ok && made.value.hasAudio).toBe(false);
  });

  it('puts a turned or smaller picture between black bars', async () => {
    const turned = turnMp4(await copyFilm(at('plain.mp4'), at('turned.mp4')));
    const small = await makeNumberedFilm({ path: at('small.mp4'), frames: 10, width: 96, height: 96 });
    const report = await render([await segment(small, 2, 6), await segment(turned, 3, 5)], { size: BOX });
    expect([report.width, report.height]).toEqual([160, 96]);
    // 96 x 96 in 160 x 96 stands 32 from the left; 96 x 160, turned, is 58 wide and stands 50 from the left
    const small4 = await readNumbers(report.path, { width: 96, height: 96, crop: '96:96:32:0' });
    expect(small4.slice(0, 4)).toEqual([2, 3, 4, 5]);
    expect(small4.length).toBe(6);
  });

  it('replaces the reel of that name in one step', async () => {
    await render([await segment(at('plain.mp4'), 0, 5)]);
    await render([await segment(at('plain.mp4'), 40, 42)]);
    expect(await readNumbers(out('reel.mp4'), BOX)).toEqual([40, 41]);
  });

  it('is of the same bytes when it is made again', async () => {
    const segments = [await segment(at('sound.mp4'), 10, 30), await segment(at('plain.mp4'), 10, 20)];
    await render(segments, {}, 'one.mp4');
    await new Promise((later) => setTimeout(later, 1_100));
    await render(segments, {}, 'two.mp4');
    expect(readFileSync(out('one.mp4')).equals(readFileSync(out('two.mp4')))).toBe(true);
  });

  it('tells how far it is, up to the end', async () => {
    const told: number[] = [];
    await render([await segment(at('sound.mp4'), 0, 60)], {
      encodeAll: true,
      onProgress: (done) => told.push(done),
    });
    expect(told.length).toBeGreaterThan(30);
    expect([...told].sort((one, other) => one - other)).toEqual(told);
    expect(told.at(-1)).toBe(1);
  });
});

describe('a reel that can not be made', () => {
  async function refused(segments: ReelSegment[], name = 'reel.mp4', options: Partial<ReelOptions> = {}) {
    const result = await renderReel(segments, out(name), { tools, ...options });
    if (result.ok) throw new Error('it was made');
    return result.problem;
  }

  it('for want of a film names the clip and leaves nothing behind', async () => {
    const gone = { ...(await segment(at('plain.mp4'), 0, 5)), path: at('gone.mp4') };
    const problem = await refused([await segment(at('plain.mp4'), 0, 20), gone]);
    expect(problem).toMatchObject({ code: 'film-missing', segment: 1 });
    expect(problem.message).toContain('gone.mp4');
    expect(readdirSync(at('out'))).toEqual([]);
  });

  it('for a film that has changed since it was read names the clip', async () => {
    const long = await makeNumberedFilm({ path: at('changes.mp4'), frames: 90 });
    const asked = await segment(long, 50, 80);
    await makeNumberedFilm({ path: long, frames: 60 });
    const problem = await refused([asked]);
    expect(problem).toMatchObject({ code: 'film-unreadable', segment: 0 });
    expect(readdirSync(at('out'))).toEqual([]);
  });

  it('for want of room says so before it starts', async () => {
    room.free = 1_000_000;
    const problem = await refused([await segment(at('plain.mp4'), 0, 5)]);
    expect(problem.code).toBe('disk-full');
    expect(problem.message).toMatch(/needed.*free/);
    expect(readdirSync(at('out'))).toEqual([]);
  });

  it('keeps the reel of that name from before', async () => {
    await render([await segment(at('plain.mp4'), 7, 9)]);
    room.free = 1;
    await refused([await segment(at('plain.mp4'), 0, 5)]);
    expect(await readNumbers(out('reel.mp4'), BOX)).toEqual([7, 8]);
  });

  it.each([
    ['into a folder that is not there', 'no/where.mp4'],
    ['under the name of a folder', '../out'],
  ])('%s says why', async (_, name) => {
    const problem = await refused([await segment(at('plain.mp4'), 0, 5)], name);
    expect(problem.code).toBe('target-unwritable');
  });

  it('by an ffmpeg that fails says so', async () => {
    const ffmpeg = { ...tools.ffmpeg, path: process.execPath };
    const problem = await refused([await segment(at('plain.mp4'), 0, 5)], 'reel.mp4', {
      tools: { ffmpeg, ffprobe: null },
    });
    expect(['encoder-failed', 'film-unreadable']).toContain(problem.code);
    expect(readdirSync(at('out'))).toEqual([]);
  });

  it('because it was cancelled stops at once and leaves nothing behind', async () => {
    const long = await makeNumberedFilm({ path: at('long.mp4'), frames: 900 });
    const cancel = new AbortController();
    let cancelledAt = 0;
    const problem = await refused([await segment(long, 0, 900)], 'reel.mp4', {
      encodeAll: true,
      signal: cancel.signal,
      onProgress: () => {
        cancelledAt ||= performance.now();
        cancel.abort();
      },
    });
    expect(problem.code).toBe('cancelled');
    expect(performance.now() - cancelledAt).toBeLessThan(1_000);
    expect(readdirSync(at('out'))).toEqual([]);
  });
});
