import { describe, expect, it } from 'vitest';
import { letterbox, planReel } from '../../../electron/export/reel-plan.ts';
import type { ReelSegment } from '../../../electron/export/reel-types.ts';
import type { FrameRate, FrameTable } from '../../../electron/film/frame-table.ts';

function film(
  times: number[],
  endMicros: number,
  rate: FrameRate,
  rest: Partial<FrameTable> = {},
): FrameTable {
  return {
    ptsMicros: Float64Array.from(times),
    keyFrames: Uint32Array.of(0),
    endMicros,
    variable: false,
    rate,
    width: 1280,
    height: 720,
    rotation: 0,
    codec: 'avc',
    container: 'mp4',
    hasAudio: false,
    ...rest,
  };
}

function steady(count: number, num: number, den = 1, rest: Partial<FrameTable> = {}): FrameTable {
  const times = Array.from({ length: count }, (_, frame) => Math.round((frame * 1e6 * den) / num));
  return film(times, Math.round((count * 1e6 * den) / num), { num, den }, rest);
}

function segment(table: FrameTable, inFrame: number, outFrame: number): ReelSegment {
  return { path: 'film.mp4', table, inFrame, outFrame };
}

function plan(segments: ReelSegment[], options: Parameters<typeof planReel>[1] = {}) {
  const planned = planReel(segments, options);
  if (!planned.ok) throw new Error(planned.problem.message);
  return planned.value;
}

describe('the plan of a reel', () => {
  it('keeps the one rate that all its films share, to the fraction', () => {
    const table = steady(300, 30_000, 1001);
    const reel = plan([segment(table, 10, 20), segment(table, 0, 5)]);
    expect(reel).toMatchObject({ frames: 15, constant: true, rate: { num: 30_000, den: 1001 } });
    expect(reel.startsMicros[15]).toBeCloseTo((15 * 1e6 * 1001) / 30_000, 6);
    expect(reel.segments.map((one) => [one.firstFrame, one.frames])).toEqual([
      [0, 10],
      [10, 5],
    ]);
  });

  it('shows every frame once, as long as in its film, where rates differ', () => {
    const reel = plan([
      segment(steady(60, 60), 0, 2),
      segment(film([0, 40_000, 140_000], 180_000, { num: 17, den: 1 }, { variable: true }), 1, 3),
    ]);
    expect(reel).toMatchObject({ frames: 4, constant: false });
    expect([...reel.startsMicros]).toEqual([0, 16_667, 33_333, 133_333, 173_333]);
  });

  it('repeats frames of the slower film where a constant rate is asked for', () => {
    const reel = plan([segment(steady(60, 60), 0, 4), segment(steady(30, 30), 0, 3)], { rate: 'constant' });
    expect(reel).toMatchObject({ constant: true, rate: { num: 60, den: 1 }, frames: 10 });
    expect([...(reel.segments[1]?.repeats ?? [])]).toEqual([2, 2, 2]);
  });

  it.each([
    {
      what: 'the largest film',
      sizes: [
        [1280, 720],
        [640, 360],
      ],
      wanted: [1280, 720],
    },
    { what: 'no more than 1920 x 1080', sizes: [[3840, 2160]], wanted: [1920, 1080] },
    { what: 'no more for an upright film either', sizes: [[2160, 3840]], wanted: [1080, 1920] },
    { what: 'even sides', sizes: [[853, 479]], wanted: [854, 480] },
  ])('takes the size of $what', ({ sizes, wanted }) => {
    const reel = plan(sizes.map(([width, height]) => segment(steady(5, 30, 1, { width, height }), 0, 5)));
    expect([reel.width, reel.height]).toEqual(wanted);
  });

  it.each([
    { what: 'is empty', segments: [], code: 'reel-empty' },
    { what: 'ends before it starts', segments: [segment(steady(5, 30), 3, 3)], code: 'reel-bad-segment' },
    { what: 'goes past the film', segments: [segment(steady(5, 30), 0, 6)], code: 'reel-bad-segment' },
    { what: 'starts before the film', segments: [segment(steady(5, 30), -1, 2)], code: 'reel-bad-segment' },
    { what: 'asks for half a frame', segments: [segment(steady(5, 30), 0.5, 2)], code: 'reel-bad-segment' },
  ])('is refused when it $what', ({ segments, code }) => {
    const planned = planReel(segments, {});
    expect(planned.ok ? 'planned' : planned.problem.code).toBe(code);
  });
});

describe('a picture of another shape', () => {
  it.each([
    [
      { width: 640, height: 480 },
      { width: 1280, height: 720 },
      { width: 960, height: 720, x: 160, y: 0 },
    ],
    [
      { width: 1920, height: 800 },
      { width: 1280, height: 720 },
      { width: 1280, height: 534, x: 0, y: 92 },
    ],
    [
      { width: 1280, height: 720 },
      { width: 1280, height: 720 },
      { width: 1280, height: 720, x: 0, y: 0 },
    ],
    [
      { width: 96, height: 160 },
      { width: 160, height: 96 },
      { width: 58, height: 96, x: 50, y: 0 },
    ],
  ])('%o stands in %o at %o', (source, target, box) => {
    expect(letterbox(source, target)).toEqual(box);
  });
});
