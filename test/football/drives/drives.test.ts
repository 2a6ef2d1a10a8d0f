import { describe, expect, it } from 'vitest';
import { drivesOf } from '../../../football/drives/drives.ts';
import { blankPlay, type PlayRecord } from '../../../football/play.ts';

function drives(...entries: Partial<PlayRecord>[]): (number | null)[] {
  const plays = entries.map((entry, i) => ({
    ...blankPlay(`p${i}`, 'g'),
    playNumber: i + 1,
    quarter: 1,
    playKind: 'run',
    ...entry,
  }));
  return [...drivesOf(plays).values()];
}

const herons = { possession: 'Herons' };
const mariners = { possession: 'Mariners' };

describe('Drives', () => {
  it('end with a change of possession', () => {
    expect(drives(herons, herons, { ...herons, playKind: 'punt' }, mariners, herons)).toEqual([
      1, 1, 1, 2, 3,
    ]);
  });
  it('keep the try that they scored, and no kickoff', () => {
    expect(
      drives(
        { ...mariners, playKind: 'kickoff' },
        herons,
        { ...herons, playKind: 'try' },
        { ...herons, playKind: 'kickoff' },
        mariners,
      ),
    ).toEqual([null, 1, 1, null, 2]);
  });
  it('begin anew after an onside kick that the kicking team recovers', () => {
    expect(
      drives(herons, { ...herons, playKind: 'try' }, { ...herons, playKind: 'kickoff' }, herons),
    ).toEqual([1, 1, null, 2]);
  });
  it('begin anew with the second half, not with the second quarter', () => {
    expect(drives(herons, { ...herons, quarter: 2 }, { ...herons, quarter: 3 })).toEqual([1, 1, 2]);
  });
  it('are kept where they are recorded, and counted on from there', () => {
    expect(drives({ ...herons, drive: 4 }, herons, mariners)).toEqual([4, 4, 5]);
  });
  it('are read by play number, whatever the order they come in', () => {
    const plays = [3, 1, 2].map((n) => ({
      ...blankPlay(`p${n}`, 'g'),
      playNumber: n,
      quarter: 1,
      playKind: 'run',
      possession: n === 3 ? 'Mariners' : 'Herons',
    }));
    expect(drivesOf(plays).get('p3')).toBe(2);
  });
});
