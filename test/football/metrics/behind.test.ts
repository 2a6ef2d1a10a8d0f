import { describe, expect, it } from 'vitest';
import { standsBehind } from '../../../football/metrics/behind.ts';
import { metricOf } from '../../../football/metrics/definitions.ts';
import { COUNTER_INDEX, playFacts } from '../../../football/metrics/facts.ts';
import { blankPlay, type PlayRecord } from '../../../football/play.ts';

function play(playId: string, more: Partial<PlayRecord>): PlayRecord {
  return { ...blankPlay(playId, 'game'), down: 1, distance: 10, ...more };
}

const PLAYS = [
  play('caught', { playKind: 'pass', result: 'complete', gain: 12 }),
  play('sack', { playKind: 'pass', result: 'sack', gain: -7 }),
  play('run', { playKind: 'run', result: 'rush', gain: 3 }),
  play('dropped', { playKind: 'pass', result: 'incomplete' }),
  play('caught, gain not logged', { playKind: 'pass', result: 'complete' }),
  play('kick', { playKind: 'punt', down: 4 }),
];

describe('the plays behind a number', () => {
  it.each([
    ['sacks', ['sack']],
    ['calls', ['caught', 'sack', 'run', 'dropped', 'caught, gain not logged']],
    ['completionPct', ['caught', 'dropped', 'caught, gain not logged']],
    ['yardsPerCompletion', ['caught']],
    ['sackRate', ['caught', 'sack', 'dropped', 'caught, gain not logged']],
    ['interceptions', []],
  ])('of %s are the ones that make it', (key, expected) => {
    const metric = metricOf(key)!;
    const behind = PLAYS.filter((each) => {
      const facts = playFacts(each);
      return standsBehind(metric, (counter) => facts[COUNTER_INDEX[counter]] ?? 0);
    });
    expect(behind.map((each) => each.playId)).toEqual(expected);
  });
});
