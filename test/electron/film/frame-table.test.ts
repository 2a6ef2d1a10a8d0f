import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  centreMicros,
  type FrameTable,
  frameAtMicros,
  frameCount,
  keyFrameBefore,
  startMicros,
  tableSeconds,
} from '../../../electron/film/frame-table.ts';
import { frameTableFromBuffer, frameTableToBuffer } from '../../../electron/film/frame-table-file.ts';

function tableOf(ptsMicros: number[], keyFrames: number[], endMicros: number): FrameTable {
  return {
    ptsMicros: Float64Array.from(ptsMicros),
    keyFrames: Uint32Array.from(keyFrames),
    endMicros,
    variable: true,
    rate: { num: 30_000, den: 1001 },
    width: 1920,
    height: 1080,
    rotation: 90,
    codec: 'avc',
    container: 'mp4',
    hasAudio: true,
  };
}

const FILM = tableOf([83_333, 125_000, 166_667, 300_000], [0, 2], 333_333);

describe('a frame table', () => {
  it('counts frames and measures the picture from its first frame on', () => {
    expect(frameCount(FILM)).toBe(4);
    expect(tableSeconds(FILM)).toBeCloseTo(0.25, 9);
  });

  it.each([
    ['before the film', 0, 0],
    ['at the edge of a frame', 125_000, 1],
    ['just before the edge', 124_999, 0],
    ['inside a long frame', 299_999, 2],
    ['after the film', 9e9, 3],
  ])('knows the frame on the screen %s', (_, micros, frame) => {
    expect(frameAtMicros(FILM, micros)).toBe(frame);
  });

  it('finds every frame again at its centre', () => {
    for (let frame = 0; frame < 4; frame++)
      expect(frameAtMicros(FILM, centreMicros(FILM, frame))).toBe(frame);
  });

  it.each([
    [0, 0],
    [1, 0],
    [2, 2],
    [3, 2],
  ])('decodes frame %i from key frame %i on', (frame, key) => {
    expect(keyFrameBefore(FILM, frame)).toBe(key);
  });

  it('decodes from the start where the first key frame comes late', () => {
    expect(keyFrameBefore(tableOf([0, 1, 2], [2], 3), 1)).toBe(0);
  });

  it.each([-1, 5, 0.5, Number.NaN])('has no frame %d', (frame) => {
    expect(() => startMicros(FILM, frame)).toThrow(RangeError);
  });
});

describe('a kept frame table', () => {
  it('comes back as it was, whatever its times are', () => {
    const films = fc
      .array(fc.integer({ min: 1, max: 20_000_000_000 }), { minLength: 1, maxLength: 200 })
      .chain((steps) =>
        fc.record({
          first: fc.integer({ min: -5_000_000, max: 5_000_000_000 }),
          steps: fc.constant(steps),
          keys: fc.uniqueArray(fc.nat(steps.length - 1)).map((keys) => keys.sort((a, b) => a - b)),
        }),
      );
    fc.assert(
      fc.property(films, ({ first, steps, keys }) => {
        let time = first;
        const times = steps.map((step) => (time += step));
        const table = tableOf(times, keys, time + 1);
        expect(frameTableFromBuffer(frameTableToBuffer(table))).toEqual({ ok: true, value: table });
      }),
    );
  });

  it('is small: two hours of constant film take less than 4 kB', () => {
    const times = Array.from({ length: 216_000 }, (_, frame) => Math.round((frame * 1e6) / 30));
    const keys = Array.from({ length: 864 }, (_, key) => key * 250);
    expect(frameTableToBuffer(tableOf(times, keys, 7.2e9)).length).toBeLessThan(4096);
  });

  it('is refused when it is damaged, cut off or of another version, and never misread', () => {
    const good = frameTableToBuffer(FILM);
    const otherVersion = Buffer.from(good);
    otherVersion[4] = 99;
    for (const bad of [Buffer.alloc(0), good.subarray(0, 20), otherVersion, Buffer.from('#EXTM3U\n')]) {
      expect(frameTableFromBuffer(bad).ok).toBe(false);
    }
    for (let at = 0; at < good.length; at++) {
      const bent = Buffer.from(good);
      bent[at] = bent[at]! ^ 0xff;
      const read = frameTableFromBuffer(bent);
      if (read.ok) expect(read.value.ptsMicros.length).toBe(4);
    }
  });
});
