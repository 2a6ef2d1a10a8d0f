import { describe, expect, it } from 'vitest';
import { blankPlay, type PlayRecord } from '../../../football/play.ts';
import { distanceOf, sideChangesOf } from '../../../football/side-changes/side-changes.ts';

const play = (n: number, drive: number, left: string, right: string): PlayRecord => ({
  ...blankPlay(`p${n}`, 'g'),
  playNumber: n,
  drive,
  possession: 'Herons',
  tags: { leftOutside: left, rightOutside: right },
});

describe('side changes of outside receivers', () => {
  it('69 changes across the whole field are about 2.1 miles (common practice, no source)', () => {
    expect(distanceOf(69).miles).toBeCloseTo(2.09, 2);
  });

  it('are counted on consecutive plays of a drive, for each receiver by himself', () => {
    const lines = sideChangesOf([
      play(1, 1, '#1', '#4'),
      play(2, 1, '#4', '#1'),
      play(3, 1, '#4', '#11'),
      play(4, 1, '#1', '#4'),
      play(5, 2, '#4', '#1'),
    ]);
    // #1 sat out the third play, and the fifth begins another drive
    expect(lines.map(({ receiver, changes, playIds }) => [receiver, changes, playIds])).toEqual([
      ['#4', 2, ['p2', 'p4']],
      ['#1', 1, ['p2']],
    ]);
    expect(lines[0]!.yards).toBeCloseTo(106.67, 2);
  });

  it('are shorter for receivers who line up inside the sideline', () => {
    expect(distanceOf(3, 10).yards).toBeCloseTo(100, 9);
  });
});
