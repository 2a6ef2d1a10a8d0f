import { describe, expect, it } from 'vitest';
import { driveLines } from '../../../football/metrics/drive-facts.ts';
import { COUNTER_INDEX, type Counter } from '../../../football/metrics/facts.ts';
import { gameFacts } from '../../../football/metrics/game-facts.ts';
import { DEFAULT_METRIC_SETTINGS } from '../../../football/metrics/settings.ts';
import { blankPlay, type PlayRecord } from '../../../football/play.ts';
import { rulesFor } from '../../../football/rules/index.ts';

/** Plays of an invented game, numbered as they come. */
function game(rows: readonly Partial<PlayRecord>[]): PlayRecord[] {
  return rows.map((row, i) => ({
    ...blankPlay(`p${i + 1}`, 'g'),
    playNumber: i + 1,
    quarter: 1,
    clock: 800 - 20 * i,
    ...row,
  }));
}
const run = (
  possession: string,
  down: number,
  distance: number,
  yardsToGoal: number,
  gain: number,
): Partial<PlayRecord> => ({
  possession,
  down,
  distance,
  yardsToGoal,
  playKind: 'run',
  result: 'rush',
  gain,
});

const PLAYS = game([
  run('Herons', 1, 10, 75, 2),
  run('Herons', 2, 8, 73, 3),
  { ...run('Herons', 3, 5, 70, 0), playKind: 'pass', result: 'incomplete' },
  {
    possession: 'Herons',
    down: 4,
    distance: 5,
    yardsToGoal: 70,
    playKind: 'punt',
    result: 'fairCatch',
    kickYards: 40,
  },
  run('Mariners', 1, 10, 70, 55),
  run('Mariners', 1, 10, 15, 15),
  { possession: 'Mariners', yardsToGoal: 3, playKind: 'try', result: 'good', tags: { tryKind: 'kick try' } },
  { possession: 'Mariners', yardsToGoal: 65, playKind: 'kickoff', result: 'touchback' },
  run('Herons', 1, 10, 75, 60),
  run('Herons', 1, 10, 15, 2),
  run('Herons', 2, 8, 13, 1),
  run('Herons', 3, 7, 12, 0),
  {
    possession: 'Herons',
    down: 4,
    distance: 7,
    yardsToGoal: 12,
    playKind: 'fieldGoal',
    result: 'good',
    kickYards: 29,
  },
  { ...run('Mariners', 1, 10, 75, -1), playKind: 'kneel', quarter: 2, clock: 20 },
]);

describe('drives', () => {
  it('are told with their calls, yards, points and ends', () => {
    const told = driveLines(PLAYS, rulesFor('ncaa')).map((d) => [
      d.team,
      d.calls,
      d.yards,
      d.points,
      d.end,
      d.reachedRedZone,
      d.threeAndOut,
    ]);
    expect(told).toEqual([
      ['Herons', 3, 5, 0, 'punt', false, true],
      ['Mariners', 2, 70, 7, 'touchdown', true, false],
      ['Herons', 4, 63, 3, 'fieldGoal', true, false],
      ['Mariners', 1, -1, 0, 'endOfHalf', false, false],
    ]);
  });

  it('stand in the counters of their first play, one of nothing but kneels nowhere', () => {
    const facts = gameFacts(PLAYS);
    const at = (playId: string, counter: Counter) => facts.get(playId)![COUNTER_INDEX[counter]];
    const total = (counter: Counter) =>
      [...facts.values()].reduce((sum, row) => sum + row[COUNTER_INDEX[counter]]!, 0);
    expect(total('drives')).toBe(3);
    expect(total('driveYards')).toBe(138);
    expect(total('drivePoints')).toBe(10);
    expect(total('redZoneTrips')).toBe(2);
    expect(total('redZoneTouchdowns')).toBe(1);
    expect(total('redZoneScores')).toBe(2);
    expect(at('p5', 'drivePoints')).toBe(7);
    expect(at('p6', 'drivePoints')).toBe(0);
    expect(at('p1', 'threeAndOuts')).toBe(1);
  });

  it('add expected points over a touchdown up to what the drive was short of seven', () => {
    const facts = gameFacts(PLAYS, { ...DEFAULT_METRIC_SETTINGS, level: 'ncaa' });
    const epa = (playId: string) => facts.get(playId)![COUNTER_INDEX.epa]!;
    expect(epa('p5')).toBeGreaterThan(2);
    expect(epa('p5') + epa('p6')).toBeGreaterThan(5);
    expect(epa('p5') + epa('p6')).toBeLessThan(7);
    expect(epa('p3')).toBeLessThan(0);
    expect(facts.get('p8')![COUNTER_INDEX.epaKnown]).toBe(0);
  });

  it('find a down wiped out by holding where the level’s rules are known', () => {
    const held = game([
      {
        ...run('Herons', 1, 10, 75, 30),
        penalty: 'holding',
        penaltyOn: 'offense',
        penaltyOutcome: 'accepted',
        tags: { penaltyFrom: 'from snap' },
      },
    ]);
    const calls = (level?: 'ncaa') =>
      gameFacts(held, level ? { ...DEFAULT_METRIC_SETTINGS, level } : DEFAULT_METRIC_SETTINGS).get('p1')![
        COUNTER_INDEX.calls
      ];
    expect(calls()).toBe(1);
    expect(calls('ncaa')).toBe(0);
  });
});
