import { describe, expect, it } from 'vitest';
import {
  formatClock,
  formatSpot,
  formatValue,
  numberTrouble,
  parseClock,
  parseFlag,
  parseNumber,
  parseSpot,
  playerLabel,
  sameValue,
} from '../../football/values.ts';
import { BUILT_IN_FIELDS } from '../../football/vocabulary/fields.ts';

const field = (key: string) => BUILT_IN_FIELDS.find((f) => f.key === key)!;

describe('a spot', () => {
  // common practice, no source: minus is the own half, plus the opponent's
  it.each([
    ['-35', 65],
    ['+20', 20],
    ['50', 50],
    ['-1', 99],
    ['+1', 1],
    ['\u221240', 60],
    ['35', null],
    ['+51', null],
    ['-0', null],
    ['x', null],
  ])('%s is %s yards to goal', (text, yards) => {
    expect(parseSpot(text)).toBe(yards);
  });

  it('is written as it is read, for every yard of the field', () => {
    for (let yards = 1; yards <= 99; yards += 1) expect(parseSpot(formatSpot(yards))).toBe(yards);
  });
});

describe('a clock', () => {
  it.each([
    ['7:42', 462],
    [':09', 9],
    ['15:00', 900],
    ['15:01', null],
    ['7:60', null],
    ['742', null],
  ])('%s is %s seconds', (text, seconds) => {
    expect(parseClock(text)).toBe(seconds);
  });

  it('is written as it is read, for every second of a quarter', () => {
    for (let seconds = 0; seconds <= 900; seconds += 1)
      expect(parseClock(formatClock(seconds))).toBe(seconds);
  });
});

describe('the other spellings', () => {
  it('reads numbers, yes and no', () => {
    expect([parseNumber('7'), parseNumber('-3'), parseNumber('+2.5'), parseNumber('7y')]).toEqual([
      7,
      -3,
      2.5,
      null,
    ]);
    expect([parseFlag('Yes'), parseFlag('n'), parseFlag('maybe')]).toEqual([true, false, null]);
  });

  it('writes a value in the spelling of its field', () => {
    expect(formatValue(field('yardsToGoal'), { kind: 'number', number: 65 })).toBe('-35');
    expect(formatValue(field('clock'), { kind: 'number', number: 462 })).toBe('7:42');
    expect(formatValue(field('gain'), { kind: 'number', number: -3 })).toBe('-3');
    expect(formatValue(field('touchdown'), { kind: 'flag', flag: true })).toBe('yes');
    expect(formatValue(field('concept'), { kind: 'clear' })).toBe('');
    expect(playerLabel({ number: 84, name: 'Ira Novak' })).toBe('#84 Ira Novak');
    expect(playerLabel({ number: 84, name: null })).toBe('#84');
  });

  it('says what a field cannot hold', () => {
    expect(numberTrouble(field('down'), 5)).toMatch(/1 to 4/);
    expect(numberTrouble(field('gain'), 2.5)).toMatch(/whole/);
    expect(numberTrouble(field('gain'), -7)).toBeNull();
  });

  it('knows the same player by id, or by number where nobody on the roster wears it', () => {
    const novak = { kind: 'player', playerId: 'p1', number: 84, name: 'Ira Novak', team: null } as const;
    const unknown = { kind: 'player', playerId: null, number: 84, name: null, team: null } as const;
    expect(sameValue(novak, { ...novak, name: 'I. Novak' })).toBe(true);
    expect(sameValue(novak, unknown)).toBe(false);
    expect(sameValue(unknown, { ...unknown })).toBe(true);
  });
});
