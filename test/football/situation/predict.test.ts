import { describe, expect, it } from 'vitest';
import { blankPlay, type Level, type PlayRecord } from '../../../football/play.ts';
import { rulesFor } from '../../../football/rules/index.ts';
import { predictNext } from '../../../football/situation/predict.ts';

type Entry = Partial<PlayRecord>;

const TEAMS = { home: 'Herons', away: 'Mariners' };

function play(entry: Entry, playNumber = 10): PlayRecord {
  return {
    ...blankPlay(`p${playNumber}`, 'g'),
    playNumber,
    quarter: 2,
    possession: 'Herons',
    scoreFor: 7,
    scoreAgainst: 3,
    ...entry,
  };
}

/** The opening kickoff, so that the game is known to be logged with its kickoffs. */
const OPENING = play(
  {
    quarter: 1,
    possession: 'Mariners',
    playKind: 'kickoff',
    yardsToGoal: 65,
    result: 'touchback',
    scoreFor: 0,
    scoreAgainst: 0,
  },
  1,
);

function next(level: Level, entry: Entry, season?: number): string {
  const prediction = predictNext([OPENING, play(entry)], rulesFor(level, season), TEAMS);
  if (!prediction.ok) return prediction.code;
  const s = prediction.situation;
  const series = s.down === null ? (s.playKind ?? '?') : `${s.down}&${s.distance}`;
  return `${s.possession} ${series} at ${s.yardsToGoal}, ${s.scoreFor}-${s.scoreAgainst}`;
}

const down = (number: number, distance: number, yardsToGoal: number): Entry => ({
  down: number,
  distance,
  yardsToGoal,
});

/** what happened, level, the play, what must come next. Where no source is named: the rule itself. */
const CASES: readonly (readonly [string, Level, Entry, string])[] = [
  [
    'a run short of the line',
    'ncaa',
    { ...down(1, 10, 75), playKind: 'run', gain: 4 },
    'Herons 2&6 at 71, 7-3',
  ],
  ['a run to the line', 'ncaa', { ...down(2, 6, 71), playKind: 'run', gain: 6 }, 'Herons 1&10 at 65, 7-3'],
  [
    'a first down inside the ten',
    'ncaa',
    { ...down(2, 6, 14), playKind: 'run', gain: 8 },
    'Herons 1&6 at 6, 7-3',
  ],
  [
    'a loss on first and goal',
    'ncaa',
    { ...down(1, 5, 5), playKind: 'run', gain: -3 },
    'Herons 2&8 at 8, 7-3',
  ],
  [
    // NCAA statistics rules, read: 3rd and goal at the 3, stopped an inch short, is a gain of 2
    'a run stopped an inch short of the goal',
    'ncaa',
    { ...down(3, 3, 3), playKind: 'run', gain: 2.9 },
    'Herons 4&1 at 1, 7-3',
  ],
  [
    'a run stopped between two stripes',
    'ncaa',
    { ...down(1, 10, 50), playKind: 'run', gain: 3.5 },
    'Herons 2&6 at 46, 7-3',
  ],
  [
    'an incomplete pass',
    'ncaa',
    { ...down(1, 10, 75), playKind: 'pass', result: 'incomplete' },
    'Herons 2&10 at 75, 7-3',
  ],
  ['a spike', 'ncaa', { ...down(1, 10, 30), playKind: 'spike' }, 'Herons 2&10 at 30, 7-3'],
  ['a kneel', 'nfl', { ...down(2, 10, 30), playKind: 'kneel', gain: -1 }, 'Herons 3&11 at 31, 7-3'],
  [
    'a sack',
    'ncaa',
    { ...down(2, 6, 40), playKind: 'pass', result: 'sack', gain: -8 },
    'Herons 3&14 at 48, 7-3',
  ],
  [
    'a completion known by its two parts',
    'ncaa',
    { ...down(2, 6, 40), playKind: 'pass', result: 'complete', airYards: 5, yardsAfterCatch: 6 },
    'Herons 1&10 at 29, 7-3',
  ],
  [
    'a fourth down that failed',
    'ncaa',
    { ...down(4, 3, 48), playKind: 'run', gain: 2 },
    'Mariners 1&10 at 54, 3-7',
  ],
  ['a touchdown', 'ncaa', { ...down(2, 4, 4), playKind: 'run', gain: 4 }, 'Herons try at 3, 13-3'],
  [
    'a gain past the goal line that is no touchdown',
    'ncaa',
    { ...down(2, 4, 4), playKind: 'run', gain: 4, touchdown: false },
    'touchdown-missing',
  ],
  [
    'a safety',
    'ncaa',
    { ...down(2, 12, 98), playKind: 'run', gain: -2, safety: true },
    'Herons kickoff at 80, 7-5',
  ],
  [
    'an interception whose return is known',
    'ncaa',
    { ...down(2, 6, 40), playKind: 'pass', result: 'interception', airYards: 20, returnYards: 12 },
    'Mariners 1&10 at 68, 3-7',
  ],
  [
    'an interception whose end is not logged',
    'ncaa',
    { ...down(2, 6, 40), playKind: 'pass', result: 'interception' },
    'end-missing',
  ],
  [
    'an interception in the end zone',
    'ncaa',
    { ...down(2, 6, 20), playKind: 'pass', result: 'interception', tags: { touchbackRuling: 1 } },
    'Mariners 1&10 at 80, 3-7',
  ],
  [
    'an interception run back all the way',
    'ncaa',
    { ...down(2, 6, 40), playKind: 'pass', result: 'interception', touchdown: true },
    'Mariners try at 3, 9-7',
  ],
  [
    'an interception fumbled back to the offense',
    'ncaa',
    {
      ...down(2, 6, 40),
      playKind: 'pass',
      result: 'interception',
      fumble: 'lost',
      tags: { endPossession: 'offense ball', endYardsToGoal: 37 },
    },
    'Herons 1&10 at 37, 7-3',
  ],
  [
    'a fumble lost',
    'ncaa',
    { ...down(2, 6, 40), playKind: 'run', gain: 3, fumble: 'lost', tags: { endYardsToGoal: 39 } },
    'Mariners 1&10 at 61, 3-7',
  ],
  [
    'a fumble kept, recovered behind the spot of the fumble',
    'ncaa',
    { ...down(2, 6, 40), playKind: 'run', gain: 3, fumble: 'kept', tags: { endYardsToGoal: 44 } },
    'Herons 3&10 at 44, 7-3',
  ],
  [
    'a punt fair caught',
    'ncaa',
    { ...down(4, 8, 70), playKind: 'punt', result: 'fairCatch', kickYards: 40 },
    'Mariners 1&10 at 70, 3-7',
  ],
  [
    'a punt returned',
    'ncaa',
    { ...down(4, 8, 70), playKind: 'punt', result: 'returned', kickYards: 45, returnYards: 9 },
    'Mariners 1&10 at 66, 3-7',
  ],
  [
    'a punt touchback',
    'ncaa',
    { ...down(4, 8, 50), playKind: 'punt', result: 'touchback' },
    'Mariners 1&10 at 80, 3-7',
  ],
  [
    'a punt muffed and recovered by the punting team',
    'ncaa',
    {
      ...down(4, 8, 70),
      playKind: 'punt',
      result: 'muffed',
      tags: { endPossession: 'offense ball', endYardsToGoal: 28 },
    },
    'Herons 1&10 at 28, 7-3',
  ],
  [
    'a blocked punt that the punting team falls on short of the line',
    'ncaa',
    {
      ...down(4, 8, 70),
      playKind: 'punt',
      result: 'blocked',
      tags: { endPossession: 'offense ball', endYardsToGoal: 80 },
    },
    'Mariners 1&10 at 20, 3-7',
  ],
  [
    'a punt without its length',
    'ncaa',
    { ...down(4, 8, 70), playKind: 'punt', result: 'downed' },
    'kick-missing',
  ],
  [
    'a college kickoff touchback',
    'ncaa',
    { yardsToGoal: 65, playKind: 'kickoff', result: 'touchback' },
    'Mariners 1&10 at 75, 3-7',
  ],
  [
    'a high school kickoff touchback',
    'nfhs',
    { yardsToGoal: 60, playKind: 'kickoff', result: 'touchback' },
    'Mariners 1&10 at 80, 3-7',
  ],
  [
    'a professional kickoff touchback',
    'nfl',
    { yardsToGoal: 65, playKind: 'kickoff', result: 'touchback' },
    'Mariners 1&10 at 65, 3-7',
  ],
  [
    // NCAA announcement of 2018: a kickoff fair-caught inside the 25 is put on the 25
    'a college kickoff fair-caught at the 10',
    'ncaa',
    { yardsToGoal: 65, playKind: 'kickoff', result: 'fairCatch', kickYards: 55 },
    'Mariners 1&10 at 75, 3-7',
  ],
  [
    // NCAA A.R. 6-2-1-I: the receivers snap at their 35
    'a college kickoff out of bounds',
    'ncaa',
    { yardsToGoal: 65, playKind: 'kickoff', result: 'outOfBounds' },
    'Mariners 1&10 at 65, 3-7',
  ],
  [
    'a professional kickoff out of bounds',
    'nfl',
    { yardsToGoal: 65, playKind: 'kickoff', result: 'outOfBounds' },
    'Mariners 1&10 at 60, 3-7',
  ],
  [
    'an onside kick recovered',
    'ncaa',
    { yardsToGoal: 65, playKind: 'kickoff', result: 'onsideRecovered', kickYards: 11 },
    'Herons 1&10 at 54, 7-3',
  ],
  [
    'a field goal',
    'ncaa',
    { ...down(4, 8, 20), playKind: 'fieldGoal', result: 'good' },
    'Herons kickoff at 65, 10-3',
  ],
  // 8-4-2-b, read: the previous spot, but not inside the 20; in the league the spot of the kick
  [
    'a college field goal missed',
    'ncaa',
    { ...down(4, 8, 30), playKind: 'fieldGoal', result: 'missed', kickYards: 47 },
    'Mariners 1&10 at 70, 3-7',
  ],
  [
    'a professional field goal missed',
    'nfl',
    { ...down(4, 8, 30), playKind: 'fieldGoal', result: 'missed', kickYards: 48 },
    'Mariners 1&10 at 62, 3-7',
  ],
  [
    'a short field goal missed',
    'ncaa',
    { ...down(4, 2, 8), playKind: 'fieldGoal', result: 'missed', kickYards: 25 },
    'Mariners 1&10 at 80, 3-7',
  ],
  [
    'a high school field goal missed',
    'nfhs',
    { ...down(4, 8, 30), playKind: 'fieldGoal', result: 'missed' },
    'end-missing',
  ],
  ['a try kicked', 'ncaa', { yardsToGoal: 3, playKind: 'try', result: 'good' }, 'Herons kickoff at 65, 8-3'],
  [
    'a try run in',
    'ncaa',
    { yardsToGoal: 3, playKind: 'try', result: 'rush', touchdown: true },
    'Herons kickoff at 65, 9-3',
  ],
  [
    'a try run back by the defense',
    'ncaa',
    {
      yardsToGoal: 3,
      playKind: 'try',
      result: 'returned',
      touchdown: true,
      tags: { endPossession: 'defense ball' },
    },
    'Herons kickoff at 65, 7-5',
  ],
  [
    'a try that a high school defense cannot score on',
    'nfhs',
    {
      yardsToGoal: 3,
      playKind: 'try',
      result: 'returned',
      touchdown: true,
      tags: { endPossession: 'defense ball' },
    },
    'score-contradicts',
  ],
];

const foul = (penalty: string, penaltyOn: string, penaltyYards: number | null, more: Entry = {}): Entry => ({
  penalty,
  penaltyOn,
  penaltyYards,
  penaltyOutcome: 'accepted',
  ...more,
});

const PENALTIES: readonly (readonly [string, Level, Entry, string])[] = [
  [
    'a false start',
    'ncaa',
    { ...down(1, 10, 75), playKind: 'noPlay', ...foul('false start', 'offense', 5) },
    'Herons 1&15 at 80, 7-3',
  ],
  [
    'a false start at the own 8 whose yards nobody wrote down',
    'ncaa',
    { ...down(2, 10, 92), playKind: 'noPlay', ...foul('false start', 'offense', null) },
    'Herons 2&14 at 96, 7-3',
  ],
  [
    // NCAA statistics rules, read: holding at the own 8 is recorded as 4 yards
    'holding at the own 8',
    'ncaa',
    { ...down(2, 10, 92), playKind: 'pass', result: 'incomplete', ...foul('holding', 'offense', null) },
    'Herons 2&14 at 96, 7-3',
  ],
  [
    'a penalty of more than half the distance',
    'ncaa',
    { ...down(2, 10, 92), playKind: 'noPlay', ...foul('false start', 'offense', 5) },
    'penalty-beyond-half',
  ],
  [
    'offside that makes the distance',
    'ncaa',
    { ...down(2, 4, 40), playKind: 'noPlay', ...foul('offside', 'defense', 5) },
    'Herons 1&10 at 35, 7-3',
  ],
  [
    'offside short of the distance',
    'nfl',
    { ...down(2, 7, 40), playKind: 'noPlay', ...foul('offside', 'defense', 5) },
    'Herons 2&2 at 35, 7-3',
  ],
  [
    'interference in college: fifteen yards and a first down',
    'ncaa',
    { ...down(3, 20, 60), playKind: 'noPlay', ...foul('pass interference', 'defense', 15) },
    'Herons 1&10 at 45, 7-3',
  ],
  [
    'interference in high school: fifteen yards, no first down',
    'nfhs',
    { ...down(3, 20, 60), playKind: 'noPlay', ...foul('pass interference', 'defense', 15) },
    'Herons 3&5 at 45, 7-3',
  ],
  [
    'a declined penalty',
    'ncaa',
    {
      ...down(1, 10, 50),
      playKind: 'run',
      gain: 12,
      penalty: 'holding',
      penaltyOn: 'defense',
      penaltyOutcome: 'declined',
    },
    'Herons 1&10 at 38, 7-3',
  ],
  [
    'offsetting penalties',
    'ncaa',
    {
      ...down(2, 7, 50),
      playKind: 'run',
      gain: 12,
      penalty: 'holding',
      penaltyOn: 'offense',
      penaltyOutcome: 'offset',
    },
    'Herons 2&7 at 50, 7-3',
  ],
  [
    'holding downfield, from its spot',
    'ncaa',
    {
      ...down(1, 10, 75),
      playKind: 'run',
      gain: 17,
      ...foul('holding', 'offense', 10),
      tags: { penaltyAt: 58 },
    },
    'Herons 1&3 at 68, 7-3',
  ],
  [
    'holding on a run whose spot nobody wrote down',
    'ncaa',
    { ...down(1, 10, 75), playKind: 'run', gain: 17, ...foul('holding', 'offense', 10) },
    'penalty-spot-missing',
  ],
  [
    'grounding costs the down',
    'ncaa',
    {
      ...down(3, 8, 60),
      playKind: 'pass',
      result: 'incomplete',
      ...foul('intentional grounding', 'offense', 9),
      tags: { penaltyAt: 60 },
    },
    'Herons 4&17 at 69, 7-3',
  ],
  [
    // NCAA A.R. 5-2-7 I: third and four on the 30, out on the 18, B fouls: first and goal at the nine
    'a late hit after a first down',
    'ncaa',
    {
      ...down(3, 4, 30),
      playKind: 'run',
      gain: 12,
      ...foul('personal foul', 'defense', null),
      tags: { penaltyFrom: 'from end' },
    },
    'Herons 1&9 at 9, 7-3',
  ],
  [
    // NCAA A.R. 5-2-7 II: fourth and four at the A-16, out on the 18, A fouls: B first and goal at the nine
    'a foul of the offense after it failed on fourth down',
    'ncaa',
    {
      ...down(4, 4, 84),
      playKind: 'run',
      gain: 2,
      ...foul('personal foul', 'offense', null),
      tags: { penaltyFrom: 'from end' },
    },
    'Mariners 1&9 at 9, 3-7',
  ],
  [
    // NCAA A.R. 5-2-6 I (a): fourth and two on the A-35, fumbled forward out of bounds from the A-38, A fouls:
    // first and 10 on the A-23
    'a foul of the offense after it made fourth down',
    'ncaa',
    {
      ...down(4, 2, 65),
      playKind: 'run',
      gain: 3,
      ...foul('personal foul', 'offense', 15),
      tags: { penaltyFrom: 'from end' },
    },
    'Herons 1&10 at 77, 7-3',
  ],
  [
    // NCAA A.R. 10-1-5 I: fourth and eight, four yards gained, B piles on: first and 10 for B
    'a foul of the defense after the ball was lost on downs',
    'ncaa',
    {
      ...down(4, 8, 50),
      playKind: 'run',
      gain: 4,
      ...foul('personal foul', 'defense', 15),
      tags: { penaltyFrom: 'from end' },
    },
    'Mariners 1&10 at 69, 3-7',
  ],
  [
    // NCAA A.R. 6-1-2 VI: offside on a kickoff, five yards from the spot where the ball was dead
    'an offside kick marked off after the return',
    'ncaa',
    {
      yardsToGoal: 65,
      playKind: 'kickoff',
      result: 'returned',
      kickYards: 50,
      returnYards: 18,
      ...foul('offside', 'offense', 5, { tags: { penaltyFrom: 'from end' } }),
    },
    'Mariners 1&10 at 62, 3-7',
  ],
  [
    'holding on a punt return, from its spot',
    'nfl',
    {
      ...down(4, 7, 72),
      playKind: 'punt',
      result: 'fairCatch',
      kickYards: 38,
      ...foul('holding', 'defense', 10),
      tags: { penaltyAt: 34 },
    },
    'Mariners 1&10 at 76, 3-7',
  ],
  [
    'a foul on a touchdown, held over for the kickoff',
    'ncaa',
    {
      ...down(1, 4, 4),
      playKind: 'run',
      gain: 4,
      ...foul('personal foul', 'defense', 15),
      tags: { penaltyFrom: 'on kickoff' },
    },
    'Herons try at 3, 13-3',
  ],
  [
    'a foul on a touchdown that may be marked off in two ways',
    'ncaa',
    { ...down(1, 4, 4), playKind: 'run', gain: 4, ...foul('personal foul', 'defense', 15) },
    'carry-missing',
  ],
  [
    'two fouls, the second after the play',
    'nfl',
    // play 1247 of game 2017010800 in the open sheet: first and 25 at the same spot
    {
      ...down(2, 9, 32),
      playKind: 'noPlay',
      ...foul('roughing the passer', 'defense', 15),
      tags: {
        penalty2: 'unsportsmanlike conduct',
        penalty2On: 'offense',
        penalty2Yards: 15,
        penalty2Outcome: 'accepted',
        penalty2From: 'from end',
      },
    },
    'Herons 1&25 at 32, 7-3',
  ],
];

describe('The next situation', () => {
  it.each(CASES)('after %s (%s)', (_name, level, entry, expected) => {
    expect(next(level, entry)).toBe(expected);
  });
});

describe('The next situation after a penalty', () => {
  it.each(PENALTIES)('%s (%s)', (_name, level, entry, expected) => {
    expect(next(level, entry)).toBe(expected);
  });

  it('moves the kickoff by a foul on the touchdown before the try', () => {
    const touchdown = play({
      ...down(1, 4, 4),
      playKind: 'run',
      gain: 4,
      ...foul('personal foul', 'defense', 15),
      tags: { penaltyFrom: 'on kickoff' },
    });
    const kick = play({ yardsToGoal: 3, playKind: 'try', result: 'good', scoreFor: 13 }, 11);
    const prediction = predictNext([OPENING, touchdown, kick], rulesFor('ncaa'), TEAMS);
    expect(prediction.ok && prediction.situation.yardsToGoal).toBe(50);
  });
});

describe('The end of a period', () => {
  const expired = { timeExpired: 1 };
  const after = (level: Level, entry: Entry): unknown => {
    const p = predictNext([OPENING, play(entry)], rulesFor(level), TEAMS);
    return p.ok
      ? {
          quarter: p.situation.quarter,
          clock: p.situation.clock,
          possession: p.situation.possession,
          kind: p.situation.playKind,
          down: p.situation.down,
        }
      : p.code;
  };
  const run: Entry = { ...down(1, 10, 50), playKind: 'run', gain: 3 };

  it('goes on with the next down after the first quarter', () => {
    expect(after('ncaa', { ...run, quarter: 1, tags: expired })).toEqual({
      quarter: 2,
      clock: 900,
      possession: 'Herons',
      kind: null,
      down: 2,
    });
  });
  it('kicks off the second half by the team that received the first kickoff', () => {
    expect(after('ncaa', { ...run, quarter: 2, tags: expired })).toEqual({
      quarter: 3,
      clock: 900,
      possession: 'Herons',
      kind: 'kickoff',
      down: null,
    });
  });
  it('is over after the fourth quarter, unless the score is level', () => {
    expect(after('ncaa', { ...run, quarter: 4, tags: expired })).toBe('game-over');
    expect(after('ncaa', { ...run, quarter: 4, tags: expired, scoreAgainst: 7 })).toBe('overtime-toss');
  });
  it('gives the other team its series in college overtime, and then the next period', () => {
    const series = { quarter: 5, ...down(4, 10, 25), playKind: 'fieldGoal', result: 'good', scoreAgainst: 7 };
    const first = predictNext([OPENING, play(series)], rulesFor('ncaa'), TEAMS);
    expect(first).toMatchObject({
      ok: true,
      situation: { possession: 'Mariners', down: 1, distance: 10, yardsToGoal: 25, quarter: 5 },
    });
    const answer = play({ ...series, possession: 'Mariners', scoreFor: 7, scoreAgainst: 10 }, 11);
    const second = predictNext([OPENING, play(series), answer], rulesFor('ncaa'), TEAMS);
    expect(second).toMatchObject({
      ok: true,
      situation: { down: 1, yardsToGoal: 25, quarter: 6, scoreFor: 10, scoreAgainst: 10 },
    });
    const miss = play(
      { ...series, possession: 'Mariners', result: 'missed', scoreFor: 7, scoreAgainst: 10 },
      11,
    );
    expect(predictNext([OPENING, play(series), miss], rulesFor('ncaa'), TEAMS)).toMatchObject({
      ok: false,
      code: 'game-over',
    });
  });
  it('asks for two points from the second college overtime on', () => {
    const score = play({ quarter: 6, ...down(1, 5, 5), playKind: 'run', gain: 5, scoreAgainst: 7 });
    expect(predictNext([OPENING, score], rulesFor('ncaa'), TEAMS)).toMatchObject({
      ok: true,
      situation: { playKind: 'try', yardsToGoal: 3 },
    });
  });
});

describe('What stays and what is asked', () => {
  it('keeps the hash after an incomplete pass and asks for it after a run', () => {
    const incomplete = predictNext(
      [play({ ...down(1, 10, 50), hash: 'L', playKind: 'pass', result: 'incomplete' })],
      rulesFor('ncaa'),
      TEAMS,
    );
    expect(incomplete.ok && incomplete.situation.hash).toBe('L');
    const run = predictNext(
      [play({ ...down(1, 10, 50), hash: 'L', playKind: 'run', gain: 2 })],
      rulesFor('ncaa'),
      TEAMS,
    );
    expect(run.ok && run.asks).toContain('hash');
  });
  it('adds the score up where nobody typed it', () => {
    const blank = { scoreFor: null, scoreAgainst: null };
    const opening = { ...OPENING, ...blank };
    const touchdown = play(
      { quarter: 1, ...down(1, 10, 75), ...blank, playKind: 'pass', result: 'complete', gain: 75 },
      2,
    );
    const kick = play({ quarter: 1, yardsToGoal: 3, ...blank, playKind: 'try', result: 'good' }, 3);
    const prediction = predictNext([opening, touchdown, kick], rulesFor('ncaa'), TEAMS);
    expect(prediction).toMatchObject({
      ok: true,
      situation: { playKind: 'kickoff', scoreFor: 7, scoreAgainst: 0 },
    });
  });
  it('does not promise kickoffs in a game that is logged without them', () => {
    const kick = play({ yardsToGoal: 3, playKind: 'try', result: 'good' }, 3);
    expect(
      predictNext([play({ ...down(1, 10, 75), playKind: 'run', gain: 3 }, 1), kick], rulesFor('ncaa'), TEAMS),
    ).toMatchObject({
      ok: false,
      code: 'kickoffs-not-logged',
    });
  });
});
