import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import fc from 'fast-check';
import Papa from 'papaparse';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createLibrary } from '../../../db/library.ts';
import { findPlayIds } from '../../../db/question/sql.ts';
import { table } from '../../../electron/service/actions/answers.ts';
import { importSheet } from '../../../electron/service/actions/sheets/import.ts';
import type { SheetMap } from '../../../electron/service/actions/sheets/mapping.ts';
import { openSheet } from '../../../electron/service/actions/sheets/preview.ts';
import { Station } from '../../../electron/service/station.ts';
import type { QuestionValue } from '../../../football/question/ast.ts';
import { printQuestion } from '../../../football/question/print.ts';
import type { FieldDefinition } from '../../../football/vocabulary/fields.ts';
import { anyQuestion } from '../../football/question/any-question.ts';

/** 16,124 run and pass plays of a professional season's first nine weeks; see shared/data/README.md for its source. */
const DATA = '../shared/data/bdb2025_2022_plays.csv.gz';
const map = JSON.parse(readFileSync('test/fixtures/open-plays-map.json', 'utf8')) as SheetMap;

type Row = Record<string, string>;
interface Recount {
  plays: number;
  calls: number;
  dropbacks: number;
  attempts: number;
  completions: number;
  yards: number;
  passYards: number;
  yardsAfterCatch: number;
  interceptions: number;
  sacks: number;
  successes: number;
  explosives: number;
  firstDowns: number;
}

/** How the terms of the sheet are called in a new playbook. */
const OUR_COVERAGE: Row = {
  'Cover-0': 'Cover 0',
  'Cover-1': 'Cover 1',
  'Cover-2': 'Cover 2',
  'Cover-3': 'Cover 3',
  Quarters: 'Cover 4',
  '2-Man': '2-man',
  Bracket: 'bracket',
  Prevent: 'prevent',
};
const OUR_FORMATION: Row = {
  EMPTY: 'empty',
  PISTOL: 'pistol',
  SINGLEBACK: 'singleback',
  I_FORM: 'I',
  JUMBO: 'jumbo',
  WILDCAT: 'wildcat',
};
const OUR_CONCEPT: Row = {
  'OUTSIDE ZONE': 'outside zone',
  'INSIDE ZONE': 'inside zone',
  POWER: 'power',
  COUNTER: 'counter',
  DRAW: 'draw',
  SNEAK: 'sneak',
  TRAP: 'trap',
};
const named = (names: Row, text: string): string | null => (text === 'NA' ? null : (names[text] ?? text));

/** Counted from the sheet's own columns, without a line of the program's. */
function recount(rows: readonly Row[]): Recount {
  const sum = (of: (row: Row) => number | boolean) => rows.reduce((n, row) => n + Number(of(row)), 0);
  const gain = (row: Row) => Number(row.yardsGained);
  const thrown = (row: Row) => ['C', 'I', 'IN'].includes(row.passResult ?? '');
  const isRun = (row: Row) => row.isDropback === 'FALSE' || row.passResult === 'R';

  const share: Row = { 1: '50', 2: '70', 3: '100', 4: '100' };
  return {
    plays: rows.length,
    calls: rows.length,
    dropbacks: sum((r) => r.isDropback === 'TRUE'),
    attempts: sum(thrown),
    completions: sum((r) => r.passResult === 'C'),
    yards: sum(gain),
    passYards: sum((r) => (r.passResult === 'C' ? gain(r) : 0)),
    yardsAfterCatch: sum((r) =>
      r.passResult === 'C' && r.passLength !== 'NA' ? gain(r) - Number(r.passLength) : 0,
    ),
    interceptions: sum((r) => r.passResult === 'IN'),
    sacks: sum((r) => r.passResult === 'S'),
    successes: sum((r) => gain(r) * 100 >= Number(share[r.down ?? '']) * Number(r.yardsToGo)),
    explosives: sum((r) => gain(r) >= (isRun(r) ? 12 : 16)),
    firstDowns: sum((r) => gain(r) >= Number(r.yardsToGo) && r.passResult !== 'IN'),
  };
}

function ratio(part: number, whole: number, factor = 1): number | null {
  return whole === 0 ? null : (part / whole) * factor;
}

const here = existsSync(DATA);
describe.skipIf(!here)(
  'the efficiency table over 16,124 real plays (skipped where the open data is not beside the project)',
  () => {
    const folder = mkdtempSync(join(tmpdir(), 'tapebook-real-'));
    let station: Station;
    let rows: Row[];

    beforeAll(async () => {
      const text = gunzipSync(readFileSync(DATA)).toString('utf8');
      writeFileSync(join(folder, 'plays.csv'), text);
      rows = Papa.parse<Row>(text, { header: true, skipEmptyLines: true }).data;
      station = new Station(
        createLibrary(join(folder, 'real.tapebook'), { team: 'NE', level: 'nfl' }),
        'coach',
      );
      const report = importSheet(station, await openSheet(join(folder, 'plays.csv')), {
        map,
        gameTitle: null,
      });
      expect(report).toMatchObject({ imported: 16_124, updated: 0, refused: [] });
    });

    afterAll(async () => {
      await station.close();
      rmSync(folder, { recursive: true, force: true });
    });

    const keys: Record<string, (row: Row) => string | number | null> = {
      concept: (r) => named(OUR_CONCEPT, r.pff_runConceptPrimary ?? 'NA'),
      coverage: (r) => named(OUR_COVERAGE, r.pff_passCoverage ?? 'NA'),
      formation: (r) => named(OUR_FORMATION, r.offenseFormation ?? 'NA'),
      receivers: (r) => named({}, r.receiverAlignment ?? 'NA'),
      down: (r) => Number(r.down),
      quarter: (r) => Number(r.quarter),
      possession: (r) => r.possessionTeam ?? null,
    };

    it.each([
      ['coverage', null, ''],
      ['concept', 'down', ''],
      ['concept', 'coverage', ''],
      ['formation', null, ''],
      ['coverage', 'down', ''],
      ['formation', 'coverage', ''],
      ['possession', 'coverage', ''],
      ['receivers', 'quarter', ''],
      ['coverage', 'formation', 'down = 3 AND distance >= 7'],
    ] as const)(
      'equals a recount of the sheet in every cell: %s by %s where %s',
      (rowField, colField, where) => {
        const asked = where === '' ? rows : rows.filter((r) => r.down === '3' && Number(r.yardsToGo) >= 7);
        const cells = new Map<string, Row[]>();
        for (const row of asked) {
          const key = JSON.stringify([keys[rowField]?.(row), ...(colField ? [keys[colField]?.(row)] : [])]);
          cells.set(key, [...(cells.get(key) ?? []), row]);
        }
        const answer = table(station, { where, rows: rowField, cols: colField });
        expect(answer.rows).toHaveLength(cells.size);
        for (const cell of answer.rows) {
          const key = JSON.stringify([cell.key, ...(colField ? [cell.col] : [])]);
          const c = recount(cells.get(key) ?? []);
          expect(cell.playIds, key).toHaveLength(c.plays);
          expect(new Set(cell.playIds).size).toBe(c.plays);
          const expected: Record<string, number | null> = {
            calls: c.calls,
            dropbacks: c.dropbacks,
            attempts: c.attempts,
            completions: c.completions,
            completionPct: ratio(c.completions, c.attempts, 100),
            yards: c.yards,
            passYards: c.passYards,
            yardsPerAttempt: ratio(c.passYards, c.attempts),
            yardsPerCompletion: ratio(c.passYards, c.completions),
            yardsAfterCatch: c.yardsAfterCatch,
            successRate: ratio(c.successes, c.calls, 100),
            explosiveRate: ratio(c.explosives, c.calls, 100),
            firstDowns: c.firstDowns,
            interceptions: c.interceptions,
            sacks: c.sacks,
          };
          for (const [metric, value] of Object.entries(expected)) {
            const got = cell.metrics[metric] ?? null;
            if (value === null || got === null)
              expect({ key, metric, got }).toEqual({ key, metric, got: value });
            else
              expect(Math.abs(got - value), `${key} ${metric}: ${got}, recounted ${value}`).toBeLessThan(
                1e-9,
              );
          }
        }
      },
    );

    it('finds the same plays in SQLite as in the columns, drives included, whatever the question', () => {
      const { fields, terms } = station.vocabulary();
      const asked =
        'game,drive,playNumber,quarter,possession,down,distance,formation,receivers,concept,coverage,playKind,result,gain,airYards';
      const chosen = asked.split(',').map((key) => fields.get(key)!);
      const columns = station.columns();
      const all = columns.playIds({ kind: 'group', combinator: 'and', rules: [] });
      const values = (field: FieldDefinition): fc.Arbitrary<QuestionValue> =>
        fc.nat(all.length - 1).map((i) => {
          const value = columns.valueOf(all[i]!, field.key);
          return value ?? (field.kind === 'number' ? 0 : 'nothing like it');
        });
      let told = 0;
      for (const question of fc.sample(anyQuestion(chosen, values), { seed: 20250920, numRuns: 100 })) {
        const found = columns.playIds(question);
        expect(
          findPlayIds(station.library.db, question, { fields: fields.all, terms }),
          printQuestion(question),
        ).toEqual(found);
        if (found.length > 0 && found.length < all.length) told += 1;
      }
      expect(told).toBeGreaterThan(40);
    }, 120_000);

    it('changes nothing when the same sheet comes again', async () => {
      const before = station.library.journal.nextUndo()?.label;
      const report = importSheet(station, await openSheet(join(folder, 'plays.csv')), {
        map,
        gameTitle: null,
      });
      expect(report).toMatchObject({ imported: 0, updated: 0, unchanged: 16_124 });
      expect(station.library.journal.nextUndo()?.label).toBe(before);
    });
  },
);
