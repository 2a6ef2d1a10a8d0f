import { describe, expect, it } from 'vitest';
import { boxScore } from '../../../football/box/box-score.ts';
import { metricOf, metricValue } from '../../../football/metrics/definitions.ts';
import { COUNTER_INDEX, type Counter, playFacts, sumFacts } from '../../../football/metrics/facts.ts';
import { gameFacts } from '../../../football/metrics/game-facts.ts';
import { DEFAULT_METRIC_SETTINGS, type MetricSettings } from '../../../football/metrics/settings.ts';
import { correlation } from '../../../scripts/expected-points/calibration.ts';
import { openDataPresent, openPostSeason } from './games.ts';

describe.skipIf(!openDataPresent)(
  'complete open games of 2018 (skipped where ../shared/data is absent)',
  () => {
    const games = openDataPresent ? openPostSeason(2018) : [];
    const plays = games.flatMap((game) => game.plays);
    const sums = (more: Partial<MetricSettings>) =>
      sumFacts(plays.map((p) => playFacts(p, { ...DEFAULT_METRIC_SETTINGS, ...more })));
    const of = (counters: Float64Array, counter: Counter) => counters[COUNTER_INDEX[counter]];

    // the check numbers of the data's README, computed there independently from the columns
    it('give the check numbers of success, explosive plays, stuffs, line yards and third downs', () => {
      const college = sums({});
      expect(of(college, 'successKnown')).toBe(1515);
      expect(of(college, 'successes')).toBe(633);
      expect(metricValue(metricOf('successRate')!, college).value).toBeCloseTo(41.78, 2);
      expect(of(sums({ success: '40/60/100' }), 'successes')).toBe(697);
      expect(of(college, 'runs')).toBe(580);
      expect(of(college, 'explosives')).toBe(49 + 127);
      expect(of(sums({ explosiveRunYards: 10, explosivePassYards: 15 }), 'explosives')).toBe(69 + 143);
      expect(of(sums({ explosivePassYards: 20 }), 'explosives')).toBe(49 + 88);
      expect(of(college, 'stuffs')).toBe(110);
      expect(metricValue(metricOf('lineYardsPerRun')!, college).value).toBeCloseTo(2.8109, 4);
      expect(of(college, 'thirdDowns')).toBe(113 + 197);
      expect(of(college, 'thirdDownConversions')).toBe(113);
    });

    it('give every final score, and a drive that ends in every drive', () => {
      for (const game of games) {
        const box = boxScore(game.plays, game, 'nfl');
        const last = game.rows.at(-1)!;
        expect([game.gameId, box.teams.home.points, box.teams.away.points]).toEqual([
          game.gameId,
          Number(last.total_home_score),
          Number(last.total_away_score),
        ]);
        expect(box.drives.filter((drive) => drive.end === 'open')).toEqual([]);
        for (const line of [box.teams.home, box.teams.away]) {
          const rows = game.rows.filter((row) => row.posteam === line.team);
          const counted = (column: string) => rows.filter((row) => row[column] === '1').length;
          const rushes = rows.filter(
            (row) => row.rush_attempt === '1' && row.two_point_attempt !== '1' && row.play_type !== 'no_play',
          ).length;
          const converted = counted('third_down_converted');
          expect([game.gameId, line.team, line.rushes, line.thirdDownConversions, line.thirdDowns]).toEqual([
            game.gameId,
            line.team,
            rushes,
            converted,
            converted + counted('third_down_failed'),
          ]);
        }
        const points = box.drives.reduce((sum, drive) => sum + drive.points, 0);
        expect(points).toBeLessThanOrEqual(box.teams.home.points + box.teams.away.points);
      }
    });

    it('give the official lines of game 2019020300', () => {
      const game = games.find((g) => g.gameId === '2019020300')!;
      const { teams, players } = boxScore(game.plays, game, 'nfl');
      const passing = (team: string) => players.passing.find((line) => line.team === team);
      expect(passing('NE')).toMatchObject({
        attempts: 35,
        completions: 21,
        yards: 262,
        interceptions: 1,
        sacks: 1,
        sackYards: 9,
      });
      expect(passing('LA')).toMatchObject({
        attempts: 38,
        completions: 19,
        yards: 229,
        interceptions: 1,
        sacks: 4,
        sackYards: 31,
      });
      expect(teams.away).toMatchObject({
        rushes: 32,
        rushYards: 154,
        thirdDownConversions: 3,
        thirdDowns: 12,
      });
      expect(teams.home).toMatchObject({
        rushes: 18,
        rushYards: 62,
        thirdDownConversions: 3,
        thirdDowns: 13,
      });
    });

    it('add expected points much as the published model of the time did, play by play', () => {
      const ours: number[] = [];
      const theirs: number[] = [];
      for (const game of games) {
        const facts = gameFacts(game.plays, { ...DEFAULT_METRIC_SETTINGS, level: 'nfl' }, 2018);
        game.plays.forEach((play, i) => {
          const row = facts.get(play.playId)!;
          const published = Number.parseFloat(game.rows[i]!.epa ?? '');
          if (of(row, 'epaKnown') !== 1 || Number.isNaN(published)) return;
          ours.push(of(row, 'epa')!);
          theirs.push(published);
        });
      }
      expect(ours.length).toBeGreaterThan(1450);
      expect(correlation(ours, theirs)).toBeGreaterThan(0.97);
    });

    it('count a team’s takeaways and giveaways in its own games alone', () => {
      const settings = { ...DEFAULT_METRIC_SETTINGS, level: 'nfl' as const, team: 'NE' };
      const margin = (own: boolean) =>
        metricValue(
          metricOf('turnoverMargin')!,
          sumFacts(
            games
              .filter((g) => (g.home === 'NE' || g.away === 'NE') === own)
              .flatMap((g) => [...gameFacts(g.plays, settings).values()]),
          ),
        ).value;
      // turnovers by the source's own columns: interceptions and fumbles lost, by the team that lost the ball
      let expected = 0;
      for (const game of games.filter((g) => g.home === 'NE' || g.away === 'NE'))
        for (const row of game.rows) {
          if (row.play_type === 'no_play') continue;
          if (row.interception === '1') expected += row.posteam === 'NE' ? -1 : 1;
          if (row.fumble_lost === '1') expected += row.fumbled_1_team === 'NE' ? -1 : 1;
        }
      expect(margin(true)).toBe(expected);
      expect(margin(false)).toBeNull();
    });
  },
);
