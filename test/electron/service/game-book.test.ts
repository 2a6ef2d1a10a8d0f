import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createLibrary } from '../../../db/library.ts';
import { table } from '../../../electron/service/actions/answers.ts';
import { addExpectedPoints } from '../../../electron/service/actions/expected-points-sheet.ts';
import { audit, box, situations } from '../../../electron/service/actions/game-book.ts';
import { gameOrProblem } from '../../../electron/service/actions/games.ts';
import { changeSettings, settings } from '../../../electron/service/actions/settings.ts';
import { importOpenNames } from '../../../electron/service/actions/sheets/open-names.ts';
import { openSheet } from '../../../electron/service/actions/sheets/preview.ts';
import { undo } from '../../../electron/service/actions/tags.ts';
import { Station } from '../../../electron/service/station.ts';
import { ProblemError } from '../../../football/result.ts';

/** Complete professional games by the open play-by-play names; see shared/data/README.md for source and check numbers. */
const DATA = '../shared/data/nflscrapr_post_pbp_2018.csv.gz';

describe.skipIf(!existsSync(DATA))(
  'whole games of open play-by-play (skipped where the open data is not beside the project)',
  () => {
    const folder = mkdtempSync(join(tmpdir(), 'tapebook-book-'));
    let station: Station;
    let gameId: string;

    beforeAll(async () => {
      writeFileSync(join(folder, 'plays.csv'), gunzipSync(readFileSync(DATA)));
      station = new Station(
        createLibrary(join(folder, 'open.tapebook'), { team: 'NE', level: 'nfl' }),
        'coach',
      );
      const report = importOpenNames(station, await openSheet(join(folder, 'plays.csv')), null);
      expect(report.refused).toEqual([]);
      expect(report.imported + report.skipped.length).toBe(2126);
      gameId = gameOrProblem(station, '2019020300').id;
    });

    afterAll(async () => {
      await station.close();
      rmSync(folder, { recursive: true, force: true });
    });

    it('makes no doubles when the sheet comes again', async () => {
      const again = importOpenNames(station, await openSheet(join(folder, 'plays.csv')), null);
      expect(again).toMatchObject({ imported: 0, updated: 0 });
    });

    it('has the official lines of game 2019020300 in its box score (shared/data/README.md)', () => {
      const { teams, players } = box(station, gameId);
      const [ne, la] = teams.home.team === 'NE' ? [teams.home, teams.away] : [teams.away, teams.home];
      expect(ne).toMatchObject({
        completions: 21,
        attempts: 35,
        passYards: 262,
        interceptions: 1,
        sacks: 1,
        sackYards: 9,
        rushes: 32,
        rushYards: 154,
        thirdDowns: 12,
        thirdDownConversions: 3,
      });
      expect(la).toMatchObject({
        completions: 19,
        attempts: 38,
        passYards: 229,
        interceptions: 1,
        sacks: 4,
        sackYards: 31,
        rushes: 18,
        rushYards: 62,
        thirdDowns: 13,
        thirdDownConversions: 3,
      });
      expect(players.passing.map((p) => p.attempts).sort()).toEqual([35, 38]);
    });

    it('finds nothing wrong with that game, and says so the moment a down is wrong', () => {
      expect(audit(station, gameId)).toEqual([]);
      const row = station.library.db
        .prepare('SELECT id, down FROM plays WHERE game_id = ? AND down = 2 ORDER BY play_number LIMIT 1')
        .get(gameId) as { id: string };
      station.library.journal.commit({ label: 'a slip' }, [
        { entity: 'play', id: row.id, field: 'down', value: 3 },
      ]);
      const findings = audit(station, gameId);
      expect(findings.some((f) => f.playId === row.id && f.fields.includes('down'))).toBe(true);
      undo(station);
      expect(audit(station, gameId)).toEqual([]);
    });

    it('predicts each situation from the play before, or says why it cannot', () => {
      const rows = situations(station, gameId);
      for (const row of rows)
        expect(row.predicted === null, `play ${row.playNumber}`).toBe(row.reason !== null);
      const told = rows.filter((r) => r.predicted);
      expect(told.length).toBeGreaterThan(rows.length * 0.9);
      const wrong = told.filter(({ recorded, predicted }) =>
        (['down', 'distance', 'yardsToGoal', 'possession'] as const).some(
          (key) => predicted?.[key] !== recorded[key],
        ),
      );
      expect(wrong.map((r) => r.playNumber)).toEqual([]);
    });

    it('counts by the variant and the yards that the staff chose, and takes the choice back', () => {
      const where = 'down BETWEEN 1 AND 4';
      const rates = () =>
        table(station, { where, rows: 'down', metrics: ['successRate', 'explosiveRate'] }).total.metrics;
      const before = rates();
      expect(settings(station)).toMatchObject({
        success: '50/70/100',
        explosiveRunYards: 12,
        explosivePassYards: 16,
      });
      changeSettings(station, { success: '40/60/100', explosiveRunYards: 10, explosivePassYards: 15 });
      const after = rates();
      expect(after.successRate).toBeGreaterThan(before.successRate ?? 0);
      expect(after.explosiveRate).toBeGreaterThan(before.explosiveRate ?? 0);
      undo(station);
      expect(rates()).toEqual(before);
      expect(() => changeSettings(station, { success: '45/60/100' as never })).toThrow(ProblemError);
      expect(() => changeSettings(station, { explosiveRunYards: 0 })).toThrow(ProblemError);
    });

    it('adds expected points and the seven probabilities to a sheet of situations', async () => {
      const to = join(folder, 'ep.csv');
      writeFileSync(
        join(folder, 'situations.csv'),
        'down,ydstogo,yardline_100,half_seconds_remaining\n1,10,75,1800\n1,5,5,900\n,,,\n',
      );
      const report = await addExpectedPoints(join(folder, 'situations.csv'), to);
      expect(report).toMatchObject({ rows: 2, refused: [] });
      const { columns, rows } = await openSheet(to).then((s) => s);
      const at = (name: string, row: number) => Number(rows[row]?.[columns.indexOf(name)]);
      expect(at('ep', 0)).toBeGreaterThan(0);
      expect(at('ep', 1)).toBeGreaterThan(4);
      const probabilities = columns.filter((c) => c.startsWith('p_'));
      expect(probabilities).toHaveLength(7);
      for (const row of [0, 1])
        expect(probabilities.reduce((sum, c) => sum + at(c, row), 0)).toBeCloseTo(1, 6);
    });
  },
);
