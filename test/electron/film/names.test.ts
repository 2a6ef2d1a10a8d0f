import { describe, expect, it } from 'vitest';
import { guessAngle, guessPlayNumber, guessPlayNumbers, naturalOrder } from '../../../electron/film/names.ts';

// All names here are made up for these tests after habits of cameras and staffs (common practice, no source).

describe('the order of film files', () => {
  it.each([
    [
      ['play 10.mp4', 'play 2.mp4', 'play 1.mp4'],
      ['play 1.mp4', 'play 2.mp4', 'play 10.mp4'],
    ],
    [
      ['B003.mov', 'b12.mov', 'B4.mov'],
      ['B003.mov', 'B4.mov', 'b12.mov'],
    ],
    [
      ['q2-01.mp4', 'q1-20.mp4', 'q1-3.mp4'],
      ['q1-3.mp4', 'q1-20.mp4', 'q2-01.mp4'],
    ],
  ])('is as people count: %j', (given, wanted) => {
    expect(naturalOrder(given)).toEqual(wanted);
  });

  it('does not change the list it is given', () => {
    const given = ['b', 'a'];
    naturalOrder(given);
    expect(given).toEqual(['b', 'a']);
  });
});

describe('the angle in a name', () => {
  it.each([
    ['Herons v Mariners sideline 12.mp4', 'sideline'],
    ['Herons_SL_012.mp4', 'sideline'],
    ['012-wide.mp4', 'sideline'],
    ['012 side line.mov', 'sideline'],
    ['012_EZ.mp4', 'endzone'],
    ['EndZone-12.MP4', 'endzone'],
    ['012 end zone.mp4', 'endzone'],
    ['tight012.mp4', 'endzone'],
    ['/games/Stags/EZ/0012.mp4', 'endzone'],
    ['C:\\film\\Sideline\\0012.mp4', 'sideline'],
    ['scoreboard 3.mp4', 'other'],
    ['/film/EZ/012 sideline.mp4', 'sideline'],
    ['012.mp4', null],
    ['sideline and ez.mp4', null],
    ['Bellwether Bay 3.mp4', null],
    ['sleet game 4.mp4', null],
    ['Broadside 4.mp4', null],
  ])('%s -> %s', (name, angle) => {
    expect(guessAngle(name)).toBe(angle);
  });
});

describe('the play number in a name', () => {
  it.each([
    ['play 12.mp4', 12],
    ['Play012_EZ.mp4', 12],
    ['P7-sideline.mov', 7],
    ['#31 wide.mp4', 31],
    ['Herons 2025-09-06 play 44.mp4', 44],
    ['20250906 044 ez.mp4', 44],
    ['Q3 play 101 1080p60.mp4', 101],
    ['012.mp4', 12],
    ['12_sl.mp4', 12],
    ['week 3 022 sl.mp4', 22],
    ['MVI_0123.MP4', null],
    ['GX010045.MP4', null],
    ['C0007.MP4', null],
    ['3 12 ez.mp4', null],
    ['Herons v Stags 2025.mp4', null],
    ['game.mp4', null],
    ['000.mp4', null],
    ['play 2nd half.mp4', null],
  ])('%s -> %s', (name, number) => {
    expect(guessPlayNumber(name)).toBe(number);
  });

  it('is the number that changes from file to file', () => {
    expect(guessPlayNumbers(['d4 07 ez.mp4', 'd4 08 ez.mp4', 'd4 09 ez.mp4'])).toEqual([7, 8, 9]);
    expect(guessPlayNumbers(['5 1 sl.mp4', '5 2 sl.mp4', '5 3 sl.mp4'])).toEqual([1, 2, 3]);
  });

  it('stays open where two numbers change', () => {
    expect(guessPlayNumbers(['1 3.mp4', '2 4.mp4', '3 5.mp4'])).toEqual([null, null, null]);
  });

  it('is told for each angle by itself', () => {
    expect(guessPlayNumbers(['9 1 sl.mp4', '9 2 sl.mp4', '8 1 ez.mp4', '8 2 ez.mp4'])).toEqual([1, 2, 1, 2]);
  });
});
