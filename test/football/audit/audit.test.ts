import { describe, expect, it } from 'vitest';
import { auditGame, makeAuditor } from '../../../football/audit/audit.ts';
import { blankPlay, type PlayRecord } from '../../../football/play.ts';
import { rulesFor } from '../../../football/rules/index.ts';

const TEAMS = { home: 'Herons', away: 'Mariners' };
const RULES = rulesFor('ncaa', 2025);

/** The first series of an invented game, as it should be logged. */
const SERIES: readonly Partial<PlayRecord>[] = [
  { possession: 'Mariners', playKind: 'kickoff', yardsToGoal: 65, result: 'touchback' },
  {
    possession: 'Herons',
    down: 1,
    distance: 10,
    yardsToGoal: 75,
    playKind: 'run',
    result: 'rush',
    gain: 4,
    drive: 1,
  },
  {
    possession: 'Herons',
    down: 2,
    distance: 6,
    yardsToGoal: 71,
    playKind: 'pass',
    result: 'complete',
    gain: 11,
    airYards: 5,
    yardsAfterCatch: 6,
    firstDown: true,
    drive: 1,
  },
  {
    possession: 'Herons',
    down: 1,
    distance: 10,
    yardsToGoal: 60,
    playKind: 'pass',
    result: 'incomplete',
    drive: 1,
  },
  {
    possession: 'Herons',
    down: 2,
    distance: 10,
    yardsToGoal: 60,
    playKind: 'pass',
    result: 'sack',
    gain: -6,
    drive: 1,
  },
  {
    possession: 'Herons',
    down: 3,
    distance: 16,
    yardsToGoal: 66,
    playKind: 'run',
    result: 'rush',
    gain: 5,
    drive: 1,
  },
  {
    possession: 'Herons',
    down: 4,
    distance: 11,
    yardsToGoal: 61,
    playKind: 'punt',
    result: 'fairCatch',
    kickYards: 41,
    drive: 1,
  },
  {
    possession: 'Mariners',
    down: 1,
    distance: 10,
    yardsToGoal: 80,
    playKind: 'run',
    result: 'rush',
    gain: 3,
    drive: 2,
  },
];

function game(slips: Readonly<Record<number, Partial<PlayRecord>>> = {}): PlayRecord[] {
  return SERIES.map((entry, i) => ({
    ...blankPlay(`p${i + 1}`, 'g'),
    playNumber: i + 1,
    quarter: 1,
    clock: 900 - i * 30,
    scoreFor: 0,
    scoreAgainst: 0,
    ...entry,
    ...slips[i + 1],
  }));
}

/** slip, code, the play it is shown at, the one-key fix if there is one */
const CASES: readonly (readonly [
  string,
  Readonly<Record<number, Partial<PlayRecord>>>,
  string,
  string,
  string | null,
])[] = [
  ['a wrong down', { 3: { down: 3 } }, 'down-cannot-follow', 'p3', 'p3 down=2'],
  ['a wrong distance', { 3: { distance: 7 } }, 'distance-cannot-follow', 'p3', 'p3 distance=6'],
  [
    'a gain that does not lead to the next spot',
    { 2: { gain: 7 } },
    'distance-cannot-follow',
    'p3',
    'p2 gain=4',
  ],
  ['a sack that gains', { 5: { gain: 6 } }, 'result-contradicts-gain', 'p5', 'p5 gain=-6'],
  ['an incomplete pass that gains', { 4: { gain: 3 } }, 'result-contradicts-gain', 'p4', 'p4 gain=0'],
  [
    'the parts of a completion that do not add up',
    { 3: { yardsAfterCatch: 2 } },
    'parts-contradict-gain',
    'p3',
    'p3 gain=7',
  ],
  [
    'a first down that is missing',
    { 3: { firstDown: false } },
    'first-down-missing',
    'p3',
    'p3 firstDown=true',
  ],
  [
    'a missed change of possession',
    { 8: { possession: 'Herons' } },
    'possession-cannot-follow',
    'p8',
    'p8 possession=Mariners',
  ],
  ['a score that does not add up', { 4: { scoreFor: 7 } }, 'score-does-not-add-up', 'p4', 'p4 scoreFor=0'],
  ['a number given twice', { 5: { playNumber: 4 } }, 'number-doubled', 'p5', null],
  [
    'a drive without an end',
    { 5: { drive: 2 }, 6: { drive: 2 }, 7: { drive: 2 } },
    'drive-without-end',
    'p5',
    'p5 drive=1',
  ],
  ['a drive that goes on after a punt', { 8: { drive: 1 } }, 'drive-not-ended', 'p8', 'p8 drive=2'],
  ['a clock that runs backward', { 6: { clock: 850 } }, 'clock-backward', 'p6', null],
  ['a quarter that goes back', { 5: { quarter: 2 } }, 'quarter-backward', 'p6', null],
  ['a team that does not play', { 4: { possession: 'Stags' } }, 'team-unknown', 'p4', null],
  ['more yards to go than field', { 8: { distance: 85 } }, 'distance-impossible', 'p8', 'p8 distance=80'],
  ['a fifth down', { 3: { down: 5 } }, 'down-impossible', 'p3', null],
  [
    'roughing by the offense',
    { 3: { penalty: 'roughing the passer', penaltyOn: 'offense', penaltyOutcome: 'declined' } },
    'foul-side',
    'p3',
    null,
  ],
];

describe('The audit', () => {
  it('is silent over a series that follows', () => {
    expect(auditGame(game(), RULES, TEAMS)).toEqual([]);
  });

  it.each(CASES)('shows %s', (_name, slips, code, playId, fix) => {
    const findings = auditGame(game(slips), RULES, TEAMS);
    const finding = findings.find((f) => f.code === code);
    expect(findings.map((f) => f.code)).toContain(code);
    expect(finding?.playId).toBe(playId);
    expect(finding?.fix ? `${finding.fix.playId} ${finding.fix.field}=${finding.fix.value}` : null).toBe(fix);
    expect(finding?.settle).not.toBe('');
  });

  it('speaks in a coach’s words', () => {
    const [finding] = auditGame(game({ 3: { down: 3 } }), RULES, TEAMS);
    expect(finding?.message).toBe(
      'After play 2 (Herons 1st and 10 on -25: run for 4 yards) comes Herons 2nd and 6 on -29, but play 3 says Herons 3rd and 6 on -29.',
    );
  });

  it('says nothing of what is not logged yet', () => {
    const half = game({
      4: { result: null, playKind: null },
      6: { down: null, distance: null, yardsToGoal: null, gain: null },
    });
    expect(auditGame(half, RULES, TEAMS)).toEqual([]);
  });

  it('gives the same from memory as from scratch, after every change', () => {
    const audit = makeAuditor(RULES, TEAMS);
    for (const [, slips] of CASES) {
      const clean = game();
      const typed = clean.map((play, i) => (slips[i + 1] ? { ...play, ...slips[i + 1] } : play));
      audit(clean);
      expect(audit(typed)).toEqual(auditGame(typed, RULES, TEAMS));
    }
  });
});
