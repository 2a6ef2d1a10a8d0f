import { describe, expect, it } from 'vitest';
import { RunClock } from '../../../renderer/player/film-run.ts';

const CONSTANT = { ptsMicros: Array.from({ length: 100 }, (_, n) => n * 40_000), fps: 25 };
const UNEVEN = { ptsMicros: [0, 40_000, 140_000, 150_000, 190_000], fps: 25 };

describe('a run at its pace', () => {
  it.each([
    ['forwards', 1, 1, [10, 10, 11, 15]],
    ['backwards', -1, 1, [10, 10, 9, 5]],
    ['backwards at half speed', -1, 0.5, [10, 10, 10, 8]],
    ['backwards at quarter speed', -1, 0.25, [10, 10, 10, 9]],
    ['forwards at half speed', 1, 0.5, [10, 10, 10, 12]],
  ] as const)('%s gives each frame its time', (_, direction, rate, frames) => {
    const clock = new RunClock(CONSTANT, direction, rate, 10, 1000);
    expect([1000, 1039, 1041, 1201].map((now) => clock.frame(now))).toEqual(frames);
  });

  it('gives uneven frames the time that each of them had, backwards too', () => {
    const clock = new RunClock(UNEVEN, -1, 1, 3, 0);
    expect([0, 39, 41, 49, 51, 149, 151].map((now) => clock.frame(now))).toEqual([3, 3, 2, 2, 1, 1, 0]);
  });

  it('goes on from where it was held up, as if nothing had been', () => {
    const clock = new RunClock(CONSTANT, -1, 1, 50, 0);
    clock.goOnFrom(49, 500);
    expect([clock.frame(500), clock.frame(541)]).toEqual([49, 48]);
  });
});
