import { describe, expect, it } from 'vitest';
import type { Level } from '../../../football/play.ts';
import { foulRule } from '../../../football/rules/fouls.ts';
import { rulesFor } from '../../../football/rules/index.ts';
import type { Ruled } from '../../../football/rules/types.ts';
import { BUILT_IN_TERMS } from '../../../football/vocabulary/terms.ts';

const LEVELS: readonly Level[] = ['ncaa', 'nfhs', 'nfl'];

describe.each(LEVELS)('The rules of %s', (level) => {
  const rules = rulesFor(level);

  it('stand on a reference, value by value', () => {
    const values = Object.values(rules).filter(
      (value): value is Ruled<unknown> => typeof value === 'object' && value !== null && 'standing' in value,
    );
    expect(values.length).toBeGreaterThan(20);
    for (const value of [...values, ...rules.fouls]) {
      expect(value.rule).not.toBe('');
      expect(['read', 'data', 'memory', 'practice']).toContain(value.standing);
    }
  });

  it('name their fouls by the vocabulary', () => {
    const names = new Set(BUILT_IN_TERMS.filter((term) => term.field === 'penalty').map((term) => term.name));
    expect(rules.fouls.map((row) => row.foul).filter((name) => !names.has(name))).toEqual([]);
  });

  it('keep the field 53 1/3 yards wide', () => {
    // common practice, no source
    expect(rules.fieldWidthYards.value).toBeCloseTo(53 + 1 / 3, 10);
  });
});

describe('What differs between levels', () => {
  it.each([
    // read: hash marks 60 feet, 53 ft 4 in and 70 ft 9 in from each sideline of a field 160 feet wide
    ['ncaa', 60],
    ['nfhs', 53 + 4 / 12],
    ['nfl', 70.75],
  ] as const)('the hash marks of %s stand %f feet from the sideline', (level, feet) => {
    const { fieldWidthYards, hashOffsetYards } = rulesFor(level);
    expect((fieldWidthYards.value / 2 - hashOffsetYards.value) * 3).toBeCloseTo(feet, 9);
  });

  it.each([
    ['nfl', 2013, 20],
    ['nfl', 2018, 25],
    ['nfl', 2024, 30],
    ['nfl', 2025, 35],
    ['ncaa', 2025, 25],
    ['nfhs', 2025, 20],
  ] as const)('a kickoff touchback of %s in %i is put on the %i', (level, season, line) => {
    expect(rulesFor(level, season).kickoffTouchbackOwnYardLine.value).toBe(line);
  });

  it('defensive holding is a first down in college and in the league, not in high school', () => {
    const first = LEVELS.map(
      (level) => foulRule(rulesFor(level), 'defensive holding', 'defense')?.automaticFirstDown,
    );
    expect(first).toEqual([true, false, true]);
  });
});
