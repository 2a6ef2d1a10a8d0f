import { describe, expect, it } from 'vitest';
import { metricOf, metricValue } from '../../../football/metrics/definitions.ts';
import { COUNTER_INDEX, COUNTERS, type Counter, lineYards } from '../../../football/metrics/facts.ts';
import { passerRating } from '../../../football/metrics/passing-metrics.ts';

function value(key: string, counters: Partial<Record<Counter, number>>): number {
  const sums = new Float64Array(COUNTERS.length);
  for (const [name, n] of Object.entries(counters)) sums[COUNTER_INDEX[name as Counter]] = n;
  return metricValue(metricOf(key)!, sums).value!;
}

const passer = (att: number, cmp: number, yds: number, td: number, int: number) => ({
  attempts: att,
  completions: cmp,
  completionYardsKnown: cmp,
  passYards: yds,
  passTouchdowns: td,
  interceptions: int,
});

describe('college passing efficiency', () => {
  it.each([
    // stassen.com/football/pass-eff: the best and the worst play there can be, and its worked example
    ['18 of 20 for 355, 3 touchdowns, 1 intercepted', passer(20, 18, 355, 3, 1), 278.6, 1],
    ['one pass of 99 yards for a touchdown', passer(1, 1, 99, 1, 0), 1261.6, 1],
    [
      'one completion that lost 99 and was intercepted never happens; the floor is',
      passer(1, 1, -99, 0, 0),
      -731.6,
      1,
    ],
    // season lines as published by the schools (inputs from memory)
    ['225 of 309 for 3175', passer(309, 225, 3175, 33, 4), 191.78, 2],
    ['402 of 527 for 5671', passer(527, 402, 5671, 60, 6), 201.97, 1],
  ] as const)('%s', (_words, counters, expected, digits) => {
    expect(value('passingEfficiency', counters)).toBeCloseTo(expected, digits);
  });
});

describe('professional passer rating', () => {
  it.each([
    // the league's own example; a Hall of Fame career and season (profootballhof.com)
    [461, 324, 3969, 35, 10, 112.8],
    [3192, 2059, 25479, 174, 85, 96.2],
    [486, 317, 4254, 28, 9, 104.4],
    [20, 20, 300, 5, 0, 158.3],
    [10, 0, 0, 0, 5, 0],
  ])(
    '%i attempts, %i caught, %i yards, %i touchdowns, %i intercepted: %f',
    (att, cmp, yds, td, int, expected) => {
      expect(passerRating(att, cmp, yds, td, int)).toBeCloseTo(expected, 1);
      expect(value('passerRating', passer(att, cmp, yds, td, int))).toBe(
        passerRating(att, cmp, yds, td, int),
      );
    },
  );
});

it('adjusted net yards: 255 yards, 2 touchdowns, 1 intercepted on 34, 3 sacks for 8 (insidethepylon.com)', () => {
  const counters = { ...passer(34, 20, 255, 2, 1), sacks: 3, sackYardsKnown: 3, sackYards: 8 };
  expect(value('adjustedNetYardsPerAttempt', counters)).toBeCloseTo(6.54, 2);
});

it('havoc: 4 losses and 3 passes broken up in 60 plays are 11.7 % (Connelly, 2014)', () => {
  expect(value('havocRate', { losses: 4, passBreakups: 3, lossKnown: 60 })).toBeCloseTo(11.7, 1);
});

it.each([
  // Football Study Hall, 26 April 2011
  [-2, -2.4],
  [0, 0],
  [3, 3],
  [8, 6],
  [10, 7],
  [25, 7],
])('a run of %i gives the line %f yards', (gain, yards) => {
  expect(lineYards(gain)).toBeCloseTo(yards, 10);
});

it('a target share is a share of the whole table, and not known without it', () => {
  const sums = new Float64Array(COUNTERS.length);
  sums[COUNTER_INDEX.targets] = 9;
  const total = new Float64Array(COUNTERS.length);
  total[COUNTER_INDEX.targets] = 36;
  const share = metricOf('targetShare')!;
  expect(metricValue(share, sums, total)).toMatchObject({ value: 25, numerator: 9, denominator: 36 });
  expect(metricValue(share, sums).value).toBeNull();
});
