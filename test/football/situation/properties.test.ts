import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { auditGame } from '../../../football/audit/audit.ts';
import { drivesOf } from '../../../football/drives/drives.ts';
import { blankPlay, type Level, type PlayRecord } from '../../../football/play.ts';
import { penaltyYards } from '../../../football/rules/fouls.ts';
import { rulesFor } from '../../../football/rules/index.ts';
import { predictNext, type Situation } from '../../../football/situation/predict.ts';
import { BUILT_IN_TERMS } from '../../../football/vocabulary/terms.ts';

const SEED = 20251;
const TEAMS = { home: 'Herons', away: 'Mariners' };
const LEVELS: readonly Level[] = ['ncaa', 'nfhs', 'nfl'];

const terms = (field: string): fc.Arbitrary<string> =>
  fc.constantFrom(
    ...BUILT_IN_TERMS.filter((term) => term.field === field).map((term) => term.name),
    'a word of the staff',
  );
const maybe = <T>(arbitrary: fc.Arbitrary<T>): fc.Arbitrary<T | null> =>
  fc.option(arbitrary, { nil: null, freq: 3 });
const yards = fc.oneof(fc.integer({ min: -120, max: 120 }), fc.double({ min: -20, max: 20, noNaN: true }));

/** Any record at all, sensible or not. */
const anyPlay: fc.Arbitrary<PlayRecord> = fc.record({
  playId: fc.constantFrom('a', 'b', 'c', 'd', 'e'),
  gameId: fc.constant('g'),
  playNumber: maybe(fc.integer({ min: 0, max: 9 })),
  drive: maybe(fc.integer({ min: 0, max: 9 })),
  quarter: maybe(fc.integer({ min: 0, max: 8 })),
  clock: maybe(fc.integer({ min: -5, max: 999 })),
  possession: maybe(fc.constantFrom('Herons', 'Mariners', 'Stags', '')),
  down: maybe(fc.integer({ min: -1, max: 6 })),
  distance: maybe(fc.integer({ min: -5, max: 120 })),
  yardsToGoal: maybe(fc.integer({ min: -5, max: 105 })),
  hash: maybe(terms('hash')),
  scoreFor: maybe(fc.integer({ min: -3, max: 80 })),
  scoreAgainst: maybe(fc.integer({ min: -3, max: 80 })),
  playKind: maybe(terms('playKind')),
  result: maybe(terms('result')),
  gain: maybe(yards),
  airYards: maybe(yards),
  yardsAfterCatch: maybe(yards),
  firstDown: maybe(fc.boolean()),
  touchdown: maybe(fc.boolean()),
  turnover: maybe(fc.boolean()),
  safety: maybe(fc.boolean()),
  fumble: maybe(terms('fumble')),
  kickYards: maybe(yards),
  returnYards: maybe(yards),
  penalty: maybe(terms('penalty')),
  penaltyOn: maybe(terms('penaltyOn')),
  penaltyYards: maybe(yards),
  penaltyOutcome: maybe(terms('penaltyOutcome')),
  note: fc.constant(null),
  moments: fc.constant({}),
  tags: fc.dictionary(
    fc.constantFrom(
      'endYardsToGoal',
      'endPossession',
      'touchbackRuling',
      'tryKind',
      'timeExpired',
      'penaltyFrom',
      'penaltyAt',
      'penaltyDown',
      'penalty2',
      'penalty2On',
      'penalty2Yards',
      'penalty2Outcome',
      'penalty2At',
      'penalty2From',
    ),
    fc.oneof(
      fc.integer({ min: -5, max: 105 }),
      terms('endPossession'),
      terms('tryKind'),
      terms('penaltyFrom'),
      terms('penaltyDown'),
      terms('penaltyOn'),
      terms('penaltyOutcome'),
      terms('penalty'),
    ),
  ),
});

describe('The engine', () => {
  it('answers every combination with a situation on the field or a reason', () => {
    fc.assert(
      fc.property(
        fc.array(anyPlay, { minLength: 0, maxLength: 5 }),
        fc.constantFrom(...LEVELS),
        (plays, level) => {
          const prediction = predictNext(plays, rulesFor(level), TEAMS);
          if (!prediction.ok) {
            expect(prediction.code).toMatch(/^[a-z-]+$/);
            expect(prediction.reason.length).toBeGreaterThan(10);
            return;
          }
          checkSituation(prediction.situation);
        },
      ),
      { seed: SEED, numRuns: 20_000 },
    );
  });

  it('lets every combination be audited and put into drives', () => {
    fc.assert(
      fc.property(fc.array(anyPlay, { maxLength: 5 }), fc.constantFrom(...LEVELS), (plays, level) => {
        for (const finding of auditGame(plays, rulesFor(level), TEAMS)) {
          expect(finding.message).not.toMatch(/undefined|NaN|null/);
          expect(finding.settle.length).toBeGreaterThan(10);
        }
        expect(drivesOf(plays).size).toBe(new Set(plays.map((play) => play.playId)).size);
      }),
      { seed: SEED, numRuns: 5_000 },
    );
  });

  it('never takes more than half the distance to the goal', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 15 }),
        fc.constantFrom('offense' as const, 'defense' as const),
        fc.integer({ min: 1, max: 99 }),
        (full, by, yardsToGoal) => {
          const marked = penaltyYards(full, by, yardsToGoal);
          const toGoal = by === 'offense' ? 100 - yardsToGoal : yardsToGoal;
          expect(marked).toBeLessThanOrEqual(full);
          expect(marked).toBeLessThanOrEqual(Math.ceil(toGoal / 2));
          expect(marked).toBeGreaterThanOrEqual(0);
          if (toGoal > 1) expect(marked).toBeLessThan(toGoal);
        },
      ),
      { seed: SEED, numRuns: 2_000 },
    );
  });

  it('keeps any legal sequence of plays legal: downs, spots, scores, quarters, and a silent audit', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...LEVELS),
        fc.array(fc.nat({ max: 1_000_000 }), { minLength: 20, maxLength: 90 }),
        (level, dice) => {
          const rules = rulesFor(level);
          const plays: PlayRecord[] = [];
          let situation: Situation = opening(level);
          for (const die of dice) {
            const play = outcome(situation, die, plays.length + 1);
            plays.push(play);
            const prediction = predictNext(plays, rules, TEAMS);
            if (!prediction.ok) {
              expect(['game-over', 'overtime-toss']).toContain(prediction.code);
              break;
            }
            checkSituation(prediction.situation);
            checkScores(situation, prediction.situation);
            expect(prediction.situation.quarter).toBeGreaterThanOrEqual(situation.quarter ?? 1);
            situation = prediction.situation;
          }
          expect(auditGame(plays, rules, TEAMS)).toEqual([]);
        },
      ),
      { seed: SEED, numRuns: 400 },
    );
  }, 60_000);
});

function checkSituation({ down, distance, yardsToGoal, playKind, possession }: Situation): void {
  expect(possession).not.toBeNull();
  expect(Number.isInteger(yardsToGoal)).toBe(true);
  expect(yardsToGoal).toBeGreaterThanOrEqual(1);
  expect(yardsToGoal).toBeLessThanOrEqual(99);
  if (playKind === 'kickoff' || playKind === 'try') {
    expect([down, distance]).toEqual([null, null]);
    return;
  }
  expect([1, 2, 3, 4]).toContain(down);
  expect(distance).toBeGreaterThanOrEqual(1);
  expect(distance).toBeLessThanOrEqual(yardsToGoal ?? 0);
}

function checkScores(before: Situation, after: Situation): void {
  const same = before.possession === after.possession;
  const [own, other] = same ? [after.scoreFor, after.scoreAgainst] : [after.scoreAgainst, after.scoreFor];
  expect(own).toBeGreaterThanOrEqual(before.scoreFor ?? 0);
  expect(other).toBeGreaterThanOrEqual(before.scoreAgainst ?? 0);
  // one play scores for one team at most
  expect([before.scoreFor, before.scoreAgainst]).toSatisfy(
    ([f, a]: (number | null)[]) => own === f || other === a,
  );
}

function opening(level: Level): Situation {
  return {
    quarter: 1,
    clock: 900,
    possession: 'Mariners',
    down: null,
    distance: null,
    yardsToGoal: level === 'nfhs' ? 60 : 65,
    hash: 'M',
    playKind: 'kickoff',
    scoreFor: 0,
    scoreAgainst: 0,
    drive: null,
  };
}

/** A fully recorded play that the rules allow, chosen by a number. */
function outcome(situation: Situation, die: number, playNumber: number): PlayRecord {
  const { yardsToGoal: to = 50, down, playKind } = situation;
  const toGoal = to ?? 50;
  const pick = <T>(list: readonly T[], salt: number): T => list[Math.floor(die / salt) % list.length]!;
  const within = (low: number, high: number, salt: number): number =>
    low + (Math.floor(die / salt) % (high - low + 1));
  const base: PlayRecord = {
    ...blankPlay(`p${playNumber}`, 'g'),
    ...situation,
    clock: null,
    drive: null,
    playNumber,
    tags: die % 41 === 0 ? { timeExpired: 1 } : {},
  };
  if (playKind === 'kickoff') {
    const kickYards = within(10, Math.max(10, toGoal - 1), 3);
    return pick<PlayRecord>(
      [
        { ...base, playKind, result: 'touchback' },
        {
          ...base,
          playKind,
          result: 'returned',
          kickYards,
          returnYards: within(0, Math.max(0, 99 - (toGoal - kickYards)), 7) % 30,
        },
        { ...base, playKind, result: 'onsideRecovered', kickYards: Math.min(12, toGoal - 1) },
        { ...base, playKind, result: 'returned', touchdown: true },
      ],
      11,
    );
  }
  if (playKind === 'try')
    return {
      ...base,
      playKind,
      ...pick(
        [
          { result: 'good' },
          { result: 'missed' },
          { result: 'rush', touchdown: true },
          { result: 'incomplete' },
        ],
        11,
      ),
    };
  if (down === 4 && die % 3 > 0) {
    if (toGoal < 35)
      return {
        ...base,
        playKind: 'fieldGoal',
        result: pick(['good', 'touchback'], 11),
        kickYards: toGoal + 17,
      };
    return { ...base, playKind: 'punt', result: 'fairCatch', kickYards: within(1, toGoal - 1, 7) };
  }
  const gain = Math.min(toGoal, Math.max(toGoal - 99, within(-8, 40, 13)));
  const end = within(1, 99, 17);
  return pick<PlayRecord>(
    [
      { ...base, playKind: 'run', result: 'rush', gain },
      { ...base, playKind: 'pass', result: 'complete', gain },
      { ...base, playKind: 'pass', result: 'incomplete' },
      { ...base, playKind: 'pass', result: 'sack', gain: Math.min(0, Math.max(toGoal - 99, -6)) },
      { ...base, playKind: 'pass', result: 'interception', tags: { ...base.tags, endYardsToGoal: end } },
      { ...base, playKind: 'run', gain: 0, fumble: 'lost', tags: { ...base.tags, endYardsToGoal: end } },
      { ...base, playKind: 'run', gain: 0, safety: true },
      {
        ...base,
        playKind: 'noPlay',
        penalty: 'false start',
        penaltyOn: 'offense',
        penaltyOutcome: 'accepted',
      },
      { ...base, playKind: 'noPlay', penalty: 'offside', penaltyOn: 'defense', penaltyOutcome: 'accepted' },
    ],
    19,
  );
}
