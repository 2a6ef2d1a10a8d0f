import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openGames, recordsOf } from '../../../football/open-names/nflverse.ts';
import { rulesFor } from '../../../football/rules/index.ts';
import { COLLEGE_GAMES, collegePlays } from '../../support/college.ts';
import { followGame, type Pair, pairLine } from '../../support/follow.ts';
import { gamecenterRows } from '../../support/gamecenter.ts';
import { dataPath, hasData, readRows } from '../../support/open-data.ts';

/**
 * Pairs of consecutive plays in complete real games. A pair is predicted, or refused with a reason, or left
 * to the teams (a professional try is snapped where they choose, and so is the side that kicks off a half).
 * Every prediction that differs from the record is listed here, with what reading the record showed.
 */
const STRIPES =
  'lost on downs between two stripes: each offense counts the one ahead of it, and whole yards do not say';
const NO_TRY = 'the source has no row for the try after a touchdown by the defense';
const REASONS: Readonly<Record<string, string>> = {
  '2019010500/3943': STRIPES,
  '2013090803/4501': STRIPES,
  '2013090808/576': STRIPES,
  'fsu_florida22/24': STRIPES,
  '2019011200/1559': NO_TRY,
  '2017020500/1587': NO_TRY,
  '2013090800/1903': NO_TRY,
  '2013090806/3302': NO_TRY,
  '2013090810/2402': NO_TRY,
  '2013090812/2410': NO_TRY,
  '2013090812/4194': NO_TRY,
  '2013090900/273': NO_TRY,
  '2013090901/3492': NO_TRY,
  '2017010700/1688': 'the source gives the next play neither team nor spot',
  '2017012900/1194': 'the source lists one foul as two plays, the second with the down already counted',
  '2013090500/1509': 'the sentence puts the recovery at the 2, the next row at the 1',
  '2013090900/4927': 'five yards from the 47 are written as the 48 on the other side of midfield',
  'fsu_duquesne22/89': 'the text prints the kickoff of the second half among plays of the first',
};

/** Reasons for which nothing is predicted, and may not be: they are no gaps that the outcome could fill. */
const REFUSALS = new Set([
  'overtime-toss',
  'kickoffs-not-logged',
  'half-open',
  'game-over',
  'possession-missing',
  'teams-unknown',
]);

interface Source {
  readonly name: string;
  readonly present: boolean;
  pairs(): Pair[];
}

const sheets = ['nflscrapr_post_pbp_2016.csv.gz', 'nflscrapr_post_pbp_2018.csv.gz'].map(
  (file): Source => ({
    name: file,
    present: hasData(file),
    pairs: () =>
      openGames(readRows(file)).flatMap((game) =>
        followGame(recordsOf(game), rulesFor('nfl', game.season ?? undefined), game),
      ),
  }),
);

const SOURCES: readonly Source[] = [
  ...sheets,
  {
    name: 'nfl-gamecenter',
    present: hasData('nfl-gamecenter'),
    pairs: () =>
      readdirSync(dataPath('nfl-gamecenter'))
        .flatMap((file) => openGames(gamecenterRows(file.slice(0, 10))))
        .flatMap((game) => followGame(recordsOf(game), rulesFor('nfl', game.season ?? undefined), game)),
  },
  {
    name: 'college',
    present: COLLEGE_GAMES.every((game) => hasData(`college/${game.name}.txt`)),
    pairs: () => COLLEGE_GAMES.flatMap((game) => followGame(collegePlays(game), rulesFor('ncaa', 2022), {})),
  },
];

describe('The situation engine on real games', () => {
  const all: Pair[] = [];
  for (const source of SOURCES) {
    it.skipIf(!source.present)(`follows ${source.name} and accounts for every difference`, () => {
      const pairs = source.pairs();
      all.push(...pairs);
      const predicted = pairs.filter((pair) => pair.prediction.ok && !pair.chosen);
      const misses = predicted.filter((pair) => pair.wrong.length > 0);
      const refused = pairs.filter((pair) => !pair.prediction.ok);
      const chosen = pairs.filter((pair) => pair.chosen);
      console.log(
        [
          `${source.name}: ${pairs.length} pairs, ${predicted.length} predicted, ${misses.length} differ, ` +
            `${chosen.length} left to the teams (${chosen.filter((p) => p.wrong.length === 0).length} as expected), ` +
            `${refused.length} refused`,
          ...misses.map(
            (pair) => `  differs: ${REASONS[pair.before.playId] ?? 'NO REASON'}\n    ${pairLine(pair)}`,
          ),
          ...refused.map((pair) => `  refused: ${pairLine(pair)}`),
        ].join('\n'),
      );
      expect(pairs.length).toBeGreaterThan(300);
      expect(misses.filter((pair) => !REASONS[pair.before.playId]).map(pairLine)).toEqual([]);
      expect(
        refused.filter((p) => !p.prediction.ok && !REFUSALS.has(p.prediction.code)).map(pairLine),
      ).toEqual([]);
    });
  }

  it.skipIf(SOURCES.some((source) => !source.present))(
    'predicts down, distance, spot and possession of at least 99.5 % of all pairs exactly',
    () => {
      const predicted = all.filter((pair) => pair.prediction.ok && !pair.chosen);
      const exact = predicted.filter((pair) => pair.wrong.length === 0);
      const refused = all.filter((pair) => !pair.prediction.ok);
      expect(predicted.length).toBeGreaterThan(6500);
      expect(exact.length / predicted.length).toBeGreaterThanOrEqual(0.995);
      // nothing is gained by refusing: refusals are rare and of the listed kinds
      expect(refused.length / all.length).toBeLessThan(0.005);
    },
  );
});
