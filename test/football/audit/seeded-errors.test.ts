import { describe, expect, it } from 'vitest';
import { auditGame } from '../../../football/audit/audit.ts';
import type { PlayRecord } from '../../../football/play.ts';
import { haveRealGames, type RealGame, realGames } from '../../support/real-games.ts';
import { seeded } from '../../support/seeded.ts';

type Random = () => number;
/** A game with one slip of the finger at a place; null where the play does not lend itself to it. */
type Slip = (plays: readonly PlayRecord[], at: number, random: Random) => PlayRecord[] | null;

const isScrimmage = (play: PlayRecord): boolean => play.playKind === 'run' || play.playKind === 'pass';

function change(fields: (play: PlayRecord, random: Random) => Partial<PlayRecord> | null): Slip {
  return (plays, at, random) => {
    const play = plays[at]!;
    const changed = fields(play, random);
    return changed && plays.map((p, i) => (i === at ? { ...p, ...changed } : p));
  };
}

const renumber = (plays: readonly PlayRecord[]): PlayRecord[] =>
  plays.map((play, i) => ({ ...play, playNumber: i + 1 }));

const SLIPS: Readonly<Record<string, Slip>> = {
  'a wrong down': change((play, random) =>
    play.down === null ? null : { down: ((play.down + Math.floor(random() * 3)) % 4) + 1 },
  ),
  'a wrong distance': change((play, random) =>
    play.distance === null ? null : { distance: play.distance + 1 + Math.floor(random() * 4) },
  ),
  'a spot on the wrong side of midfield': change((play) =>
    play.yardsToGoal === null || Math.abs(play.yardsToGoal - 50) < 3
      ? null
      : { yardsToGoal: 100 - play.yardsToGoal },
  ),
  'a spot ten yards off': change((play) =>
    play.yardsToGoal === null || play.down === null
      ? null
      : { yardsToGoal: play.yardsToGoal > 50 ? play.yardsToGoal - 10 : play.yardsToGoal + 10 },
  ),
  'a play logged twice': (plays, at) => {
    const twin = { ...plays[at]!, playId: `${plays[at]!.playId} again` };
    return renumber([...plays.slice(0, at + 1), twin, ...plays.slice(at + 1)]);
  },
  'a play left out': (plays, at) => renumber(plays.filter((_, i) => i !== at)),
  'a wrong sign of the gain': change((play) =>
    isScrimmage(play) && play.gain ? { gain: -play.gain } : null,
  ),
  'a wrong gain': change((play, random) =>
    isScrimmage(play) && play.gain !== null ? { gain: play.gain + 1 + Math.floor(random() * 9) } : null,
  ),
  'a missed change of possession': (plays, at) => {
    const before = plays[at - 1];
    const play = plays[at]!;
    if (!before || before.possession === play.possession || play.possession === null) return null;
    return plays.map((p, i) => (i === at ? { ...p, possession: before.possession } : p));
  },
  'a wrong score': change((play, random) =>
    play.scoreFor === null ? null : { scoreFor: play.scoreFor + (random() < 0.5 ? 1 : 3) },
  ),
  'a result that contradicts the gain': change((play) => {
    if (play.playKind !== 'pass' || !play.gain) return null;
    return play.result === 'complete'
      ? { result: 'incomplete' }
      : play.result === 'sack'
        ? { gain: -play.gain }
        : null;
  }),
  'a first down that is missing': change((play) =>
    isScrimmage(play) && play.firstDown === true && play.penalty === null && play.fumble === null
      ? { firstDown: false }
      : null,
  ),
  'a play number given twice': change((play) =>
    play.playNumber === null || play.playNumber < 2 ? null : { playNumber: play.playNumber - 1 },
  ),
  'two plays in the wrong order': (plays, at) => {
    const [first, second] = [plays[at]!, plays[at + 1]!];
    return renumber(plays.map((play, i) => (i === at ? second : i === at + 1 ? first : play)));
  },
  'a touchdown that is not marked': change((play) => (play.touchdown ? { touchdown: false } : null)),
  'a penalty on the wrong side': change((play) =>
    play.penaltyOutcome === 'accepted' && play.penaltyOn !== null && play.penaltyYards
      ? { penaltyOn: play.penaltyOn === 'offense' ? 'defense' : 'offense' }
      : null,
  ),
  'a wrong quarter': change((play) => (play.quarter === null ? null : { quarter: (play.quarter % 4) + 1 })),
};

function spoil(
  games: readonly RealGame[],
  kind: string,
  random: Random,
): { game: RealGame; plays: PlayRecord[]; at: number } {
  const slip = SLIPS[kind]!;
  for (;;) {
    const game = games[Math.floor(random() * games.length)]!;
    // the last play of a game has nothing after it that could speak against it
    const at = Math.floor(random() * (game.plays.length - 1));
    const plays = slip(game.plays, at, random);
    if (plays) return { game, plays, at };
  }
}

describe('The audit of a game', () => {
  it.skipIf(!haveRealGames)(
    'catches at least 95 % of 200 single errors in real games within two plays',
    () => {
      const games = realGames();
      const clean = new Map(
        games.map((g) => [
          g.name,
          new Set(auditGame(g.plays, g.rules, g.teams).map((f) => `${f.code} ${f.playId}`)),
        ]),
      );
      const random = seeded(2025);
      const kinds = Object.keys(SLIPS);
      expect(kinds.length).toBeGreaterThanOrEqual(12);
      const missed: string[] = [];
      const total = 200;
      for (let i = 0; i < total; i += 1) {
        const kind = kinds[i % kinds.length]!;
        const { game, plays, at } = spoil(games, kind, random);
        const place = new Map(plays.map((play, index) => [play.playId, index]));
        const found = auditGame(plays, game.rules, game.teams).filter(
          (finding) =>
            !clean.get(game.name)?.has(`${finding.code} ${finding.playId}`) &&
            Math.abs((place.get(finding.playId) ?? -99) - at) <= 2,
        );
        if (found.length === 0) missed.push(`${kind}: ${game.name} ${game.plays[at]!.note ?? ''}`);
      }
      console.log(`caught ${total - missed.length} of ${total}\n${missed.join('\n')}`);
      expect(missed.length / total).toBeLessThanOrEqual(0.05);
    },
  );

  it.skipIf(!haveRealGames)('raises no alarm on at least 99 % of the plays as they were recorded', () => {
    let plays = 0;
    const alarms: string[] = [];
    for (const game of realGames()) {
      plays += game.plays.length;
      const findings = auditGame(game.plays, game.rules, game.teams);
      for (const playId of new Set(findings.map((f) => f.playId)))
        alarms.push(
          findings
            .filter((f) => f.playId === playId)
            .map((f) => f.message)
            .join(' '),
        );
    }
    console.log(`${alarms.length} of ${plays} plays with an alarm\n${alarms.join('\n')}`);
    expect(plays).toBeGreaterThan(6900);
    expect(alarms.length / plays).toBeLessThanOrEqual(0.01);
  });

  it.skipIf(!haveRealGames)('offers fixes that make the game follow again, for most wrong situations', () => {
    const games = realGames();
    const random = seeded(7);
    let right = 0;
    const total = 60;
    for (let i = 0; i < total; i += 1) {
      const kind = ['a wrong down', 'a wrong gain', 'a first down that is missing'][i % 3]!;
      const { game, plays, at } = spoil(games, kind, random);
      const fixes = auditGame(plays, game.rules, game.teams).flatMap((f) => (f.fix ? [f.fix] : []));
      const original = game.plays[at]!;
      if (
        fixes.some(
          (fix) => fix.playId === original.playId && original[fix.field as keyof PlayRecord] === fix.value,
        )
      )
        right += 1;
    }
    console.log(`the first right fix was offered in ${right} of ${total}`);
    expect(right / total).toBeGreaterThan(0.7);
  });
});
