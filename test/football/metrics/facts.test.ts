import { describe, expect, it } from 'vitest';
import { METRICS, metricOf, metricValue, wilson } from '../../../football/metrics/definitions.ts';
import {
  COUNTER_INDEX,
  COUNTERS,
  type Counter,
  playFacts,
  sumFacts,
} from '../../../football/metrics/facts.ts';
import { DEFAULT_METRIC_SETTINGS, type MetricSettings } from '../../../football/metrics/settings.ts';
import { blankPlay, type PlayRecord } from '../../../football/play.ts';

const play = (given: Partial<PlayRecord>): PlayRecord => ({ ...blankPlay('p', 'g'), ...given });
const fact = (given: Partial<PlayRecord>, counter: Counter, settings?: MetricSettings): number =>
  playFacts(play(given), settings)[COUNTER_INDEX[counter]] as number;
const value = (key: string, plays: readonly Partial<PlayRecord>[]): number | null =>
  metricValue(metricOf(key)!, sumFacts(plays.map((p) => playFacts(play(p))))).value;

describe('what a play counts as (common practice, no source)', () => {
  it('counts calls, attempts and completions of one concept as three counts', () => {
    const plays = [
      { playKind: 'pass', result: 'complete', gain: 11, airYards: 5 },
      { playKind: 'pass', result: 'incomplete' },
      { playKind: 'pass', result: 'throwaway' },
      { playKind: 'pass', result: 'sack', gain: -7 },
      { playKind: 'pass', result: 'scramble', gain: 4 },
    ];
    expect(value('calls', plays)).toBe(5);
    expect(value('dropbacks', plays)).toBe(5);
    expect(value('attempts', plays)).toBe(3);
    expect(value('completions', plays)).toBe(1);
    expect(value('completionPct', plays)).toBeCloseTo(100 / 3, 10);
    expect(value('yards', plays)).toBe(8);
    expect(value('passYards', plays)).toBe(11);
    expect(value('yardsPerAttempt', plays)).toBeCloseTo(11 / 3, 10);
    expect(value('yardsPerCompletion', plays)).toBe(11);
  });

  it('finds six yards after the catch and a first down on second and six', () => {
    const caught = { down: 2, distance: 6, result: 'complete', airYards: 5, gain: 11 };
    expect(fact(caught, 'yardsAfterCatch')).toBe(6);
    expect(fact(caught, 'firstDowns')).toBe(1);
    expect(fact(caught, 'successes')).toBe(1);
  });

  it.each<[string, Partial<PlayRecord>, Partial<Record<Counter, number>>]>([
    ['a spike is an attempt and no dropback', { playKind: 'spike' }, { calls: 1, attempts: 1, dropbacks: 0 }],
    [
      'a kneel is a call and no try to gain',
      { playKind: 'kneel', gain: -1, down: 1, distance: 10 },
      { calls: 1, yards: -1, runs: 0, successKnown: 0, explosiveKnown: 0, losses: 0 },
    ],
    [
      'a pass call without a result is a dropback',
      { playKind: 'pass' },
      { calls: 1, dropbacks: 1, attempts: 0 },
    ],
    ['the kind is read from a rush', { result: 'rush', gain: 3 }, { calls: 1, runs: 1, dropbacks: 0 }],
    ['the kind is read from a sack', { result: 'sack' }, { calls: 1, dropbacks: 1, sacks: 1, gainKnown: 0 }],
    ['an incompletion gained nothing by rule', { result: 'incomplete' }, { gainKnown: 1, yards: 0 }],
    ['a kick is no call', { playKind: 'punt', kickYards: 40 }, { calls: 0, firstDowns: 0 }],
    ['a made kick without a kind is no call', { result: 'good' }, { calls: 0 }],
    [
      'a nullified play is no call',
      { playKind: 'noPlay', result: 'complete', gain: 40 },
      { calls: 0, completions: 0 },
    ],
    [
      'offsetting fouls wipe the play out',
      { result: 'rush', gain: 9, penaltyOutcome: 'offset' },
      { calls: 0 },
    ],
    ['nothing logged is no call', {}, { calls: 0 }],
    [
      'a touchdown on an interception is not the offense’s',
      { result: 'interception', touchdown: true },
      { touchdowns: 0, interceptions: 1, turnovers: 1, firstDowns: 0 },
    ],
    [
      'a recorded first down wins over the gain',
      { result: 'rush', gain: 10, distance: 10, firstDown: false },
      { firstDowns: 0 },
    ],
    [
      'a fumble lost past the line is no first down',
      { result: 'rush', gain: 12, distance: 10, fumble: 'lost' },
      { firstDowns: 0, turnovers: 1 },
    ],
    [
      'a pressured sack is both',
      { result: 'sack', tags: { pocket: 'hit' } },
      { pressureKnown: 1, pressured: 1, pressuredSacks: 1 },
    ],
    [
      'a clean pocket is known',
      { result: 'complete', tags: { pocket: 'clean' } },
      { pressureKnown: 1, pressured: 0 },
    ],
  ])('%s', (_words, given, expected) => {
    for (const [counter, number] of Object.entries(expected))
      expect([counter, fact(given, counter as Counter)]).toEqual([counter, number]);
  });

  it.each([
    // down, distance, gain, quarter, score for and against, then success by each variant
    [1, 10, 5, 1, 0, 0, true, true, true],
    [1, 10, 4, 1, 0, 0, false, true, true],
    [2, 5, 3, 1, 0, 0, false, true, true],
    [2, 10, 7, 1, 0, 0, true, true, true],
    [3, 4, 3, 1, 0, 0, false, false, false],
    [4, 1, 1, 1, 0, 0, true, true, true],
    [1, 10, 4, 4, 3, 12, false, true, false],
    [1, 10, 4, 4, 4, 12, false, true, true],
    [1, 10, 3, 4, 7, 6, false, false, true],
  ])(
    'down %i and %i, gain %i, quarter %i, %i-%i',
    (down, distance, gain, quarter, scoreFor, scoreAgainst, ...expected) => {
      const given = { playKind: 'run', down, distance, gain, quarter, scoreFor, scoreAgainst };
      const found = (['50/70/100', '40/60/100', '40/60/100 late'] as const).map(
        (success) => fact(given, 'successes', { ...DEFAULT_METRIC_SETTINGS, success }) === 1,
      );
      expect(found).toEqual(expected);
    },
  );

  it('does not judge a fourth-quarter success whose score is not known', () => {
    const late = { ...DEFAULT_METRIC_SETTINGS, success: '40/60/100 late' as const };
    expect(fact({ playKind: 'run', down: 1, distance: 10, gain: 4, quarter: 4 }, 'successKnown', late)).toBe(
      0,
    );
  });

  it('measures a scramble as a run when it asks what is explosive', () => {
    expect(fact({ result: 'scramble', gain: 12 }, 'explosives')).toBe(1);
    expect(fact({ result: 'complete', gain: 12 }, 'explosives')).toBe(0);
  });
});

describe('metrics from sums', () => {
  it('never divide by zero and never call the unknown nought', () => {
    for (const metric of METRICS) {
      const none = metricValue(metric, sumFacts([]));
      // without a team in the settings nobody's turnovers are known
      const unknown = metric.denominator !== undefined || metric.key === 'turnoverMargin';
      expect([metric.key, none.value]).toEqual([metric.key, unknown ? null : 0]);
    }
    expect(value('yardsAfterCatch', [{ result: 'complete', gain: 8 }])).toBeNull();
    expect(value('yardsPerCompletion', [{ result: 'complete' }])).toBeNull();
  });

  it('name only counters that exist, and each key once', () => {
    for (const metric of METRICS) for (const counter of metric.counters) expect(COUNTERS).toContain(counter);
    expect(new Set(METRICS.map((m) => m.key)).size).toBe(METRICS.length);
  });

  it('time the throw from snap to release', () => {
    expect(
      value('timeToThrow', [
        { result: 'complete', moments: { snap: 10, release: 12.5 } },
        { result: 'incomplete', moments: { snap: 3, release: 6.5 } },
        { result: 'sack', moments: { snap: 3 } },
      ]),
    ).toBeCloseTo(3, 10);
  });
});

describe('Wilson’s interval', () => {
  // VassarStats and Newcombe (1998), table I; to four places
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('of %i in %i', (successes, trials, low, high) => {
    const [lo, hi] = wilson(successes, trials)!;
    expect(lo).toBeCloseTo(low, 4);
    expect(hi).toBeCloseTo(high, 4);
  });

  it('agrees with a published implementation to ten places (msn0/wilson-score-interval, z = 1.96)', () => {
    const [lo, hi] = wilson(430, 474, 1.96)!;
    expect(lo).toBeCloseTo(0.8776750858, 9);
    expect(hi).toBeCloseTo(0.930123984, 9);
    expect(wilson(0, 0)).toBeNull();
  });
});
