import { describe, expect, it } from 'vitest';
import { expectedPointsAdded, situationPoints } from '../../../football/expected-points/added.ts';
import { blankPlay, type PlayRecord } from '../../../football/play.ts';

const at = (given: Partial<PlayRecord>): PlayRecord => ({
  ...blankPlay('p', 'g'),
  possession: 'Herons',
  quarter: 1,
  clock: 600,
  down: 1,
  distance: 10,
  yardsToGoal: 75,
  playKind: 'run',
  result: 'rush',
  ...given,
});
const before = situationPoints(at({}))!;

describe('expected points added', () => {
  it('are what the next situation is worth more than this one', () => {
    const next = at({ yardsToGoal: 60 });
    expect(expectedPointsAdded(at({ gain: 15 }), next)).toBeCloseTo(situationPoints(next)! - before, 12);
  });

  it('turn sign when the other team has the ball', () => {
    const theirs = at({ possession: 'Mariners', yardsToGoal: 60 });
    expect(expectedPointsAdded(at({ gain: 0 }), theirs)).toBeCloseTo(-situationPoints(theirs)! - before, 12);
  });

  it.each<[string, Partial<PlayRecord>, number]>([
    ['a touchdown counts seven', { gain: 75, touchdown: true }, 7],
    ['so does a gain to the goal line that nobody logged as one', { gain: 75 }, 7],
    [
      'an interception returned for one counts seven against',
      { result: 'interception', touchdown: true },
      -7,
    ],
    ['a field goal counts three', { playKind: 'fieldGoal', result: 'good', down: 4 }, 3],
    ['a safety counts two against', { safety: true, gain: -25 }, -2],
  ])('%s', (_words, given, points) => {
    const play = at(given);
    expect(expectedPointsAdded(play, null)).toBeCloseTo(points - situationPoints(play)!, 12);
  });

  it('let a half that ends be worth nothing', () => {
    expect(expectedPointsAdded(at({ quarter: 2, gain: 3 }), 'endOfHalf')).toBe(
      -situationPoints(at({ quarter: 2 }))!,
    );
    const kickoff = at({ quarter: 3, playKind: 'kickoff', down: null, distance: null });
    expect(expectedPointsAdded(at({ quarter: 2, gain: 3 }), kickoff)).toBe(
      -situationPoints(at({ quarter: 2 }))!,
    );
  });

  it.each<[string, Partial<PlayRecord>, Partial<PlayRecord> | null]>([
    ['nothing is known after it', { gain: 3 }, null],
    ['its own down is not logged', { gain: 3, down: null }, { yardsToGoal: 72 }],
    ['it was played in overtime, which the model has not seen', { gain: 3, quarter: 5 }, { quarter: 5 }],
    ['the next team is not logged', { gain: 3 }, { possession: null }],
    ['it is a kickoff', { playKind: 'kickoff' }, {}],
  ])('are not known where %s', (_words, given, next) => {
    expect(expectedPointsAdded(at(given), next && at(next))).toBeNull();
  });

  it('know quarters of twelve minutes', () => {
    const late = at({ quarter: 2, clock: 30 });
    expect(situationPoints(late, { quarterSeconds: 720 })).toBe(situationPoints(late));
    const early = at({ clock: 720 });
    expect(situationPoints(early, { quarterSeconds: 720 })).toBe(situationPoints(at({ clock: 540 })));
  });
});
