import { describe, expect, it, vi } from 'vitest';
import { fitStrengths, growTree, nodesOf, sharesAlong } from '../../../football/tendencies/backoff.ts';
import { codePlays, type TendencyRow } from '../../../football/tendencies/coded.ts';
import { seeded } from '../../../football/tendencies/seeded.ts';
import { type Scored, scoreOn, trialOf, tryGameByGame } from '../../../football/tendencies/trial.ts';
import { beats, trialInWords } from '../../../football/tendencies/words.ts';
import { coverageFamily, REAL_PLAYS_THERE, said, sourceRows } from '../../db/columns/real-plays.ts';
import { hasData, readRows } from '../../support/open-data.ts';

// a season of plays on a machine that may be busy
vi.setConfig({ testTimeout: 120_000 });

/** Plays of invented games, on which the call depends on the down by `lean`, or not at all where it is 0. */
function invented(games: number, perGame: number, lean: number, seed: number): TendencyRow[] {
  const random = seeded(seed);
  return Array.from({ length: games * perGame }, (_, i) => {
    const down = String(1 + Math.floor(random() * 3));
    const pass = 0.5 + (down === '3' ? lean : down === '1' ? -lean : 0);
    return {
      playId: `p${i}`,
      gameId: `g${Math.floor(i / perGame)}`,
      call: random() < pass ? 'pass' : 'run',
      context: [down, random() < 0.5 ? 'L' : 'R'],
    };
  });
}

describe('shares smoothed toward the shorter context', () => {
  it('are those of MacKay and Peto: counts plus strength times the share above, over plays plus strength', () => {
    const rows: TendencyRow[] = ['pass', 'pass', 'run', 'run', 'run'].map((call, i) => ({
      playId: String(i),
      gameId: 'g',
      call,
      context: [i < 2 ? '3' : '1'],
    }));
    const plays = codePlays(rows, 1);
    const tree = growTree(plays);
    const third = nodesOf(tree, [plays.values[0]!.indexOf('3')]);
    const shares = sharesAlong(tree, third, [1, 4]);
    // all plays: (2 + 1 × 1/2) / (5 + 1); third down: (2 + 4 × that) / (2 + 4)
    const all = 2.5 / 6;
    expect(shares[plays.callNames.indexOf('pass')]).toBeCloseTo((2 + 4 * all) / 6, 12);
    expect(shares.reduce((a, b) => a + b)).toBeCloseTo(1, 12);
  });

  it('stop where a field is not known, and lean on the context above for what was never seen', () => {
    const plays = codePlays(
      [
        { playId: 'a', gameId: 'g', call: 'run', context: ['1', null] },
        { playId: 'b', gameId: 'h', call: 'pass', context: ['1', 'L'] },
      ],
      2,
    );
    const tree = growTree(plays);
    expect(tree.paths.map((path) => path.length)).toEqual([2, 3]);
    expect(nodesOf(tree, [0, 7])).toHaveLength(2);
  });

  it('pass over a field that says nothing about the call, and keep one that does', () => {
    const plays = codePlays(invented(8, 60, 0.35, 4), 2);
    const [, down, hash] = fitStrengths(growTree(plays), plays);
    expect(down).toBeLessThan(64);
    expect(hash).toBeGreaterThanOrEqual(64);
  });
});

describe('a trial on games not used', () => {
  it('says so where the down changes the call', () => {
    const trial = tryGameByGame(codePlays(invented(8, 60, 0.35, 7), 2))!;
    expect(trial).toMatchObject({ plays: 480, games: 8 });
    expect(beats(trial)).toBe('better');
    expect(trialInWords(trial)).toMatch(/better than the plain frequency, over 480 plays of 8 games/);
  });

  it('claims nothing where the call is thrown by a coin, in 40 leagues of coins', () => {
    const verdicts = Array.from({ length: 40 }, (_, seed) =>
      beats(tryGameByGame(codePlays(invented(6, 40, 0, 100 + seed), 2), seed)!),
    );
    // both lower bounds above 0 is rarer than one in forty
    expect(verdicts.filter((v) => v === 'better').length).toBeLessThanOrEqual(2);
  });

  it('is not made of a single game, and says so', () => {
    expect(tryGameByGame(codePlays(invented(1, 50, 0.4, 3), 2))).toBeNull();
    expect(trialInWords(null)).toMatch(/one game/);
  });
});

const GAMES = 'bdb2025_2022_games.csv';

describe.skipIf(!REAL_PLAYS_THERE || !hasData(GAMES))(
  'coverage of 2022, trained on weeks 1 to 6 and tried on 7 to 9 (shared/data; skipped where it is absent)',
  () => {
    it('is foretold better than by each team’s plain frequency, by log loss and by Brier score', () => {
      const weeks = new Map(readRows(GAMES).map((row) => [row.gameId, Number(row.week)]));
      const rows = sourceRows().filter((row) => said(row, 'pff_passCoverage') !== null);
      const distance = (yards: number) => (yards <= 2 ? 's' : yards <= 6 ? 'm' : yards <= 10 ? 'l' : 'xl');
      const zone = (row: (typeof rows)[number]) => {
        const line = Number(row.yardlineNumber);
        const yards = row.yardlineSide === row.possessionTeam ? 100 - line : line;
        return [5, 20, 40, 59, 89, 99].find((limit) => yards <= limit) ?? 99;
      };
      const scored: Scored[] = [];
      const games = [...weeks.keys()];
      for (const team of new Set(rows.map((row) => row.defensiveTeam))) {
        const own = rows.filter((row) => row.defensiveTeam === team);
        const coded = codePlays(
          own.map((row) => ({
            playId: row.id!,
            gameId: row.gameId!,
            call: coverageFamily(row.pff_passCoverage!),
            context: [String(zone(row)), row.down!, distance(Number(row.yardsToGo))],
          })),
          3,
        );
        const isTried = (i: number) => weeks.get(own[i]!.gameId)! >= 7;
        for (const one of scoreOn(coded, isTried))
          scored.push({ ...one, game: games.indexOf(own[one.row]!.gameId!) });
      }
      const trial = trialOf(scored);
      expect(trial).toMatchObject({ plays: 4921, games: 42 });
      expect(beats(trial)).toBe('better');
      expect(trial.logLossMargin.low).toBeGreaterThan(0.1);
      expect(trial.brierMargin.low).toBeGreaterThan(0.01);
      process.stdout.write(`${trialInWords(trial)}\n`);
    });
  },
);
