import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ColumnStore } from '../../../db/columns/column-store.ts';
import type { GroupValue } from '../../../db/columns/group.ts';
import { withDrives } from '../../../db/question/drives.ts';
import { COUNTERS, playFacts } from '../../../football/metrics/facts.ts';
import { EVERY_PLAY, type Question, type QuestionValue } from '../../../football/question/ast.ts';
import { parseQuestion } from '../../../football/question/parse.ts';
import { printQuestion } from '../../../football/question/print.ts';
import { BUILT_IN_FIELDS, type FieldDefinition } from '../../../football/vocabulary/fields.ts';
import { anyQuestion } from '../../football/question/any-question.ts';
import { answer } from '../question/row-by-row.ts';
import {
  counted,
  coverageFamily,
  REAL_PLAYS_THERE,
  REAL_TERMS,
  type SourceRow,
  said,
  sourceRows,
  toPlay,
} from './real-plays.ts';

/** What a row of the source says of a field, read without a play record. */
const SOURCE: Readonly<Record<string, (row: SourceRow) => string | number | null>> = {
  personnel: (row) => said(row, 'personnelCode_byRosterPosition'),
  formation: (row) => said(row, 'offenseFormation'),
  receivers: (row) => said(row, 'receiverAlignment'),
  concept: (row) => said(row, 'pff_runConceptPrimary'),
  coverage: (row) => said(row, 'pff_passCoverage'),
  route: (row) => said(row, 'targetRoute'),
  rushers: (row) => counted(row, 'nInitialPassRushers'),
  possession: (row) => said(row, 'possessionTeam'),
  quarter: (row) => counted(row, 'quarter'),
  down: (row) => counted(row, 'down'),
  distance: (row) => counted(row, 'yardsToGo'),
  gain: (row) => counted(row, 'yardsGained'),
  clock: (row) => Number(row.gameClock!.split(':')[0]) * 60 + Number(row.gameClock!.split(':')[1]),
};
const FIELDS = BUILT_IN_FIELDS.filter((field) => field.key in SOURCE);

/** Counted from the codes of the source (pass results C, I, IN, S, R), not from our results. */
const COUNTED: readonly [counter: string, of: (row: SourceRow) => number][] = [
  ['calls', () => 1],
  ['attempts', (row) => Number(['C', 'I', 'IN'].includes(row.passResult!))],
  ['completions', (row) => Number(row.passResult === 'C')],
  ['interceptions', (row) => Number(row.passResult === 'IN')],
  ['sacks', (row) => Number(row.passResult === 'S')],
  ['scrambles', (row) => Number(row.passResult === 'R')],
  ['dropbacks', (row) => Number(row.isDropback === 'TRUE' && row.qbSpike !== 'TRUE')],
  ['yards', (row) => counted(row, 'yardsGained')!],
  ['passYards', (row) => (row.passResult === 'C' ? counted(row, 'yardsGained')! : 0)],
  ['yardsAfterCatch', (row) => (row.passResult === 'C' ? counted(row, 'targetYAC')! : 0)],
  ['thirdDowns', (row) => Number(row.down === '3')],
];
const NAMES = COUNTED.map(([name]) => name);

function asked(text: string): Question {
  const parsed = parseQuestion(text, BUILT_IN_FIELDS);
  if (!parsed.ok) throw new Error(`${text}: ${parsed.problem.message}`);
  return parsed.value;
}

describe.skipIf(!REAL_PLAYS_THERE)(
  'over the 16,124 real plays of the open 2022 data (skipped where ../shared/data is absent)',
  () => {
    const rows = REAL_PLAYS_THERE ? sourceRows() : [];
    const rowOf = new Map(rows.map((row) => [row.id!, row]));
    const store = new ColumnStore({
      fields: BUILT_IN_FIELDS,
      terms: REAL_TERMS,
      counters: { names: COUNTERS, facts: (play) => playFacts(play) },
    });
    for (const gameId of new Set(rows.map((row) => row.gameId!))) {
      store.setGame({ gameId, title: gameId, season: 2022, date: null });
    }
    // from the last to the first, so that the order of the answers is the store's own doing
    for (const play of withDrives(rows.map(toPlay)).reverse()) store.set(play);

    // the plays of a drive follow one another in the source with the same team in possession, within a half
    const holder = (row: SourceRow) =>
      `${row.gameId} ${row.possessionTeam} ${Math.min(Number(row.quarter) + 1, 6) >> 1}`;
    const plainOf = (at: number) => (key: string) => {
      const stepped = /^(previous|next)\.(.*)$/.exec(key);
      if (!stepped) return SOURCE[key]!(rows[at]!);
      const other = rows[at + (stepped[1] === 'next' ? 1 : -1)];
      return other && holder(other) === holder(rows[at]!) ? SOURCE[stepped[2]!]!(other) : null;
    };
    const matching = (question: Question) =>
      rows.filter((_, at) => answer(question, plainOf(at), FIELDS, REAL_TERMS) === true);

    function expectTable(question: Question, rowField: string, colField: string, families: boolean): number {
      const keyOf = (field: string, row: SourceRow): GroupValue => {
        const value = SOURCE[field]!(row);
        return families && field === 'coverage' && value !== null ? coverageFamily(String(value)) : value;
      };
      const cells = new Map<string, SourceRow[]>();
      for (const row of matching(question)) {
        const key = JSON.stringify([[keyOf(rowField, row)], [keyOf(colField, row)]]);
        cells.set(key, [...(cells.get(key) ?? []), row]);
      }
      const table = store.table(question, {
        rows: [{ field: rowField, families }],
        cols: [{ field: colField, families }],
        counters: NAMES,
      });
      expect(table.cells.length).toBe(cells.size);
      for (const cell of table.cells) {
        const members = cells.get(JSON.stringify([cell.row, cell.col])) ?? [];
        expect(cell.playIds).toEqual(members.map((row) => row.id));
        expect(cell.plays).toBe(members.length);
        const sums = COUNTED.map(([, of]) => members.reduce((sum, row) => sum + of(row), 0));
        expect([...cell.sums], `${cell.row} x ${cell.col}`).toEqual(sums);
      }
      for (const [side, groups] of [
        ['row', table.rows],
        ['col', table.cols],
      ] as const) {
        for (const group of groups) {
          const inside = table.cells.filter(
            (cell) => JSON.stringify(cell[side]) === JSON.stringify(group.key),
          );
          expect(group.playIds).toEqual(inside.flatMap((cell) => cell.playIds).sort());
          const members = group.playIds.map((id) => rowOf.get(id)!);
          expect([...group.sums]).toEqual(
            COUNTED.map(([, of]) => members.reduce((sum, row) => sum + of(row), 0)),
          );
        }
      }
      expect(table.total.plays).toBe(store.count(question));
      return cells.size;
    }

    it('holds them all', () => {
      expect(rows.length).toBe(16_124);
      expect(store.playIds(EVERY_PLAY)).toEqual(rows.map((row) => row.id));
    });

    it.each([
      ['', 'concept', 'coverage', false],
      ['', 'concept', 'coverage', true],
      ['', 'formation', 'receivers', false],
      ['', 'down', 'distance', false],
      ['', 'gain', 'quarter', false],
      ['', 'possession', 'coverage', true],
      ['down = 3', 'route', 'coverage', true],
      ["coverage = 'Cover-3' AND rushers >= 5", 'route', 'receivers', false],
      ["EXACTLY(coverage) = 'Cover-3' OR coverage IS NULL", 'personnel', 'coverage', false],
      ["NOT (coverage IN ('Cover-1', 'Cover-2')) AND distance BETWEEN 7 AND 10", 'formation', 'down', false],
      ["clock < '2:00' AND quarter IN (2, 4)", 'personnel', 'rushers', false],
    ])('every cell is as counted from the source: plays where %s, %s by %s', (where, row, col, families) => {
      expect(expectTable(asked(where), row, col, families)).toBeGreaterThan(10);
    });

    it('finds the plays of any question, and counts any table over them', { timeout: 120_000 }, () => {
      const known = new Map(
        FIELDS.map((field) => {
          const all = new Set(rows.map((row) => SOURCE[field.key]!(row)));
          return [field.key, fc.constantFrom<QuestionValue>(...[...all].filter((value) => value !== null))];
        }),
      );
      const values = (field: FieldDefinition) => known.get(field.key)!;
      const key = fc.constantFrom(...FIELDS.map((field) => field.key));
      let compared = 0;
      fc.assert(
        fc.property(anyQuestion(FIELDS, values), key, key, fc.boolean(), (question, row, col, families) => {
          // one text, because comparing arrays of thousands one by one takes longer than the answer
          const expected = matching(question).map((match) => match.id);
          const ids = expected.join(' ');
          expect(store.playIds(question).join(' ') === ids, printQuestion(question)).toBe(true);
          const table = store.table(question, {
            rows: [{ field: row, families }],
            cols: [{ field: col, families }],
            counters: ['calls'],
          });
          expect(table.total.playIds.join(' ') === ids).toBe(true);
          const inCells = table.cells.flatMap((cell) => cell.playIds).sort();
          expect(inCells.join(' ') === ids).toBe(true);
          compared += expected.length;
        }),
        { seed: 20250911, numRuns: 100 },
      );
      expect(compared).toBeGreaterThan(10_000);
    });

    it('groups by several fields a side, and by fields of which nearly every play has its own value', () => {
      const deep = store.table(asked('down = 3'), {
        rows: [{ field: 'formation' }, { field: 'receivers' }],
        cols: [{ field: 'coverage', families: true }, { field: 'rushers' }],
        counters: ['attempts'],
      });
      const seen = new Set<string>();
      for (const cell of deep.cells) {
        seen.add(JSON.stringify([cell.row, cell.col]));
        for (const id of cell.playIds) {
          const row = rowOf.get(id)!;
          const coverage = said(row, 'pff_passCoverage');
          expect(cell.row).toEqual([said(row, 'offenseFormation'), said(row, 'receiverAlignment')]);
          expect(cell.col).toEqual([
            coverage === null ? null : coverageFamily(coverage),
            counted(row, 'nInitialPassRushers'),
          ]);
        }
      }
      expect(seen.size).toBe(deep.cells.length);
      expect(deep.cells.reduce((sum, cell) => sum + cell.plays, 0)).toBe(3_279);

      const wide = store.table(EVERY_PLAY, {
        rows: [{ field: 'note' }],
        cols: [{ field: 'playNumber' }],
        counters: ['yards'],
      });
      const pairs = new Set(rows.map((row) => `${row.playId} ${row.playDescription}`));
      expect(wide.cells.length).toBe(pairs.size);
      expect(
        wide.cells.every((cell) =>
          cell.playIds.every((id) => rowOf.get(id)!.playDescription === cell.row[0]),
        ),
      ).toBe(true);
    });

    it('counts every value of every field', () => {
      const question = asked('down = 3');
      const facets = store.facets(
        question,
        FIELDS.map((field) => field.key),
      );
      const third = rows.filter((row) => row.down === '3');
      for (const { field, values } of facets) {
        const expected = new Map<GroupValue, number>();
        for (const row of third) {
          const value = SOURCE[field]!(row);
          expected.set(value, (expected.get(value) ?? 0) + 1);
        }
        expect(new Map(values.map(({ value, plays }) => [value, plays])), field).toEqual(expected);
      }
    });
  },
);
