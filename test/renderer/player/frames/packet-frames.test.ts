import { describe, expect, it } from 'vitest';
import { clockShift, frameOfPacket } from '../../../../renderer/player/frames/packet-frames.ts';

const times = (first: number, count = 40, gap = 33_367) => ({
  ptsMicros: Array.from({ length: count }, (_, n) => first + Math.round(n * gap)),
  fps: 29.97,
});
/** Stored as B-frames are: 0 3 1 2 6 4 5 ... */
const stored = (micros: readonly number[]) =>
  micros.map(
    (_, n) =>
      micros[n % 3 === 1 ? Math.min(n + 2, micros.length - 1) : n === 0 ? 0 : n - (n % 3 === 2 ? 1 : 1)]!,
  );

describe('the clock of the container and that of the frame table', () => {
  it.each([
    ['agree', 0, 0],
    ['agree to a millisecond', 400, 0],
    ['are apart where a container does not start at zero', 1_400_000, 1_400_000],
    ['are apart backwards', -750_000, -750_000],
  ])('%s', (_, apart, expected) => {
    const table = times(0);
    const shift = clockShift(
      table,
      stored(table.ptsMicros).map((micros) => micros + apart),
    );
    expect(Math.abs((shift ?? Number.NaN) - expected)).toBeLessThan(500);
  });

  it('meet behind packets that an edit list hides', () => {
    const table = times(0);
    const hidden = [-10, -9, -8, -7, -6].map((n) => n * 33_367);
    expect(clockShift(table, [...hidden, ...table.ptsMicros])).toBe(0);
    expect(frameOfPacket(table, hidden[0]!, 0)).toBeNull();
    expect(frameOfPacket(table, 33_367 * 4, 0)).toBe(4);
  });

  it('are not joined where the film is another one', () => {
    expect(clockShift(times(0), times(0, 40, 20_000).ptsMicros)).toBeNull();
    expect(clockShift(times(0), [])).toBeNull();
  });
});
