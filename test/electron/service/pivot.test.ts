import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import ExcelJS from 'exceljs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pivot, pivotPlays } from '../../../electron/service/actions/pivot.ts';
import { writePivot } from '../../../electron/service/actions/pivot-sheets.ts';
import { importSheet } from '../../../electron/service/actions/sheets/import.ts';
import { openSheet } from '../../../electron/service/actions/sheets/preview.ts';
import type { KeyValue, PivotRequest } from '../../../electron/service/pivot-views.ts';
import { seeded } from '../../support/seeded.ts';
import { problemOf, type TestStation, testStation } from '../../support/station.ts';

interface Made {
  readonly down: number;
  readonly distance: number;
  readonly quarter: number;
  readonly hash: string | null;
  readonly coverage: string | null;
  readonly result: 'complete' | 'incomplete' | 'rush';
  readonly gain: number;
}

type Column = 'down' | 'quarter' | 'hash' | 'coverage' | 'result';

const FIELDS: readonly Column[] = ['down', 'quarter', 'hash', 'coverage', 'result'];
const SEED = 20_251_125;

function madePlays(count: number): Made[] {
  const next = seeded(SEED);
  const of = <T>(values: readonly T[]): T => values[Math.floor(next() * values.length)]!;
  return Array.from({ length: count }, () => {
    const result = of(['complete', 'incomplete', 'rush'] as const);
    return {
      down: of([1, 2, 3, 4]),
      distance: of([1, 5, 10]),
      quarter: of([1, 2, 3, 4]),
      hash: of(['L', 'M', 'R', null]),
      coverage: of(['Cover 1', 'Cover 3', 'Cover 3 sky', null]),
      result,
      gain: result === 'incomplete' ? 0 : Math.floor(next() * 20) - 3,
    };
  });
}

/** Counted from the plays alone: completion % and its attempts, yards, calls. */
function recount(plays: readonly Made[]) {
  const attempts = plays.filter((p) => p.result !== 'rush');
  const completions = attempts.filter((p) => p.result === 'complete').length;
  return {
    calls: plays.length,
    attempts: attempts.length,
    completionPct: attempts.length === 0 ? null : (100 * completions) / attempts.length,
    yards: plays.reduce((sum, p) => sum + p.gain, 0),
  };
}

describe('a table of several fields a side', () => {
  let made: TestStation;
  const plays = madePlays(600);

  beforeAll(async () => {
    made = testStation();
    const file = join(made.folder, 'plays.csv');
    const heads = ['game', 'playNumber', 'possession', 'playKind', 'distance', 'gain', ...FIELDS];
    const lines = plays.map((p, i) =>
      [
        'Herons v Mariners',
        i + 1,
        'Herons',
        p.result === 'rush' ? 'run' : 'pass',
        p.distance,
        p.gain,
        ...FIELDS.map((field) => p[field] ?? ''),
      ].join(','),
    );
    writeFileSync(file, [heads.join(','), ...lines].join('\r\n'));
    const columns = Object.fromEntries(heads.map((head) => [head, head]));
    const report = importSheet(made.station, await openSheet(file), {
      map: { columns, values: {} },
      gameTitle: null,
    });
    expect(report).toMatchObject({ imported: 600, refused: [] });
  });

  afterAll(() => made.remove());

  const ask = (request: Partial<PivotRequest>): PivotRequest => ({
    where: '',
    rows: ['down'],
    cols: [],
    metrics: ['calls', 'completionPct', 'yards'],
    families: false,
    baseline: null,
    ...request,
  });
  const within = (fields: readonly string[], key: readonly KeyValue[]) => (p: Made) =>
    key.every((value, at) => p[fields[at] as Column] === value);

  it(`counts every cell, subtotal and total of 30 random tables from its own plays (seed ${SEED})`, () => {
    const next = seeded(SEED + 1);
    for (let table = 0; table < 30; table++) {
      const order = [...FIELDS].map((field) => ({ field, at: next() })).sort((a, b) => a.at - b.at);
      const down = 1 + Math.floor(next() * 3);
      const across = Math.floor(next() * 3);
      const rows = order.slice(0, down).map(({ field }) => field);
      const cols = order.slice(down, down + across).map(({ field }) => field);
      const request = ask({ rows, cols, baseline: { kind: 'rest' } });
      const view = pivot(made.station, request);
      const depths = new Set<string>();
      for (const cell of view.cells) {
        const row = view.rows[cell.row]!.key;
        const col = view.cols[cell.col]!.key;
        const inside = (p: Made) => within(rows, row)(p) && within(cols, col)(p);
        const own = recount(plays.filter(inside));
        const others = recount(plays.filter((p) => !inside(p)));
        const [calls, completion, yards] = cell.numbers;
        expect([cell.plays, calls!.value, yards!.value]).toEqual([own.calls, own.calls, own.yards]);
        expect(completion!.value).toBe(own.completionPct);
        expect(completion!.base).toBe(own.attempts);
        if (others.completionPct === null) expect(completion!.against).toBeNull();
        else expect(completion!.against).toBeCloseTo(others.completionPct, 9);
        depths.add(`${row.length} ${col.length}`);
      }
      expect(depths.size).toBe((down + 1) * (across + 1));
      const leaves = view.cells.filter(
        (cell) => view.rows[cell.row]!.key.length === down && view.cols[cell.col]!.key.length === across,
      );
      expect(leaves.reduce((sum, cell) => sum + cell.plays, 0)).toBe(plays.length);
      const some = view.cells[Math.floor(next() * view.cells.length)]!;
      const place = { row: view.rows[some.row]!.key, col: view.cols[some.col]!.key };
      expect(pivotPlays(made.station, request, place)).toHaveLength(some.plays);
    }
  });

  it('counts a member with its family, and opens its plays', () => {
    const request = ask({ rows: ['coverage'], families: true });
    const { rows } = pivot(made.station, request);
    const threes = plays.filter((p) => p.coverage?.startsWith('Cover 3')).length;
    expect(rows.find((row) => row.key[0] === 'Cover 3')?.plays).toBe(threes);
    expect(pivotPlays(made.station, request, { row: ['Cover 3'], col: [] })).toHaveLength(threes);
  });

  it('holds cells against the same cells of another question', () => {
    const view = pivot(
      made.station,
      ask({ where: 'quarter <= 2', baseline: { kind: 'question', where: 'quarter > 2' } }),
    );
    for (const cell of view.cells) {
      const later = plays.filter((p) => p.quarter > 2 && within(['down'], view.rows[cell.row]!.key)(p));
      expect(cell.numbers[1]!.against).toBe(recount(later).completionPct);
    }
  });

  it('writes a spreadsheet whose formulas, worked out by hand, give the numbers on the screen', async () => {
    const request = ask({ rows: ['down', 'hash'] });
    const to = join(made.folder, 'table.xlsx');
    await writePivot(made.station, request, to);
    const book = new ExcelJS.Workbook();
    await book.xlsx.readFile(to);
    const sheet = book.getWorksheet('Table')!;
    const worth = (address: string): number | string => {
      const { value, formula } = sheet.getCell(address);
      if (!formula) return (value ?? 0) as number;
      const sum = /^SUM\((.*)\)$/.exec(formula);
      if (sum) return cellsOf(sum[1]!).reduce((total, each) => total + Number(worth(each)), 0);
      const quotient = /^IF\((\w+)=0,"",(\w+)\/(\w+)\)$/.exec(formula);
      if (!quotient) throw new Error(`Not a formula of ours: ${formula}`);
      return Number(worth(quotient[3]!)) === 0
        ? ''
        : Number(worth(quotient[2]!)) / Number(worth(quotient[3]!));
    };
    const whole = sheet.rowCount;
    const all = recount(plays);
    // columns: down, hash, plays, calls, completions, attempts, completion %, yards
    expect(worth(`C${whole}`)).toBe(plays.length);
    expect(worth(`D${whole}`)).toBe(all.calls);
    expect(Number(worth(`G${whole}`)) * 100).toBeCloseTo(all.completionPct!, 9);
    expect(worth(`H${whole}`)).toBe(all.yards);
    expect(sheet.getCell(`D${whole}`).formula).toMatch(/^SUM/);
  });

  it('writes CSV and a PDF, whole', async () => {
    for (const ending of ['.csv', '.pdf']) {
      const to = join(made.folder, `table${ending}`);
      await writePivot(made.station, ask({ rows: ['down', 'hash'], cols: ['quarter'] }), to);
      expect(existsSync(`${to}.part`)).toBe(false);
      const text = readFileSync(to, 'utf8');
      if (ending === '.pdf') expect(text.startsWith('%PDF-')).toBe(true);
      else expect(text.split('\r\n')[0]).toContain('1 · Completion %: of');
    }
  });

  it.each<[string, Partial<PivotRequest>, string]>([
    ['no rows', { rows: [] }, 'table-unfit'],
    ['four fields down', { rows: ['down', 'hash', 'quarter', 'result'] }, 'table-unfit'],
    ['a field twice', { rows: ['down'], cols: ['down'] }, 'table-unfit'],
    ['a field that is not there', { rows: ['dwon'] }, 'field-unknown'],
    ['a team never played', { baseline: { kind: 'opponent', opponent: 'Nobody' } }, 'baseline-unfit'],
    ['a season before none', { baseline: { kind: 'lastSeason' } }, 'baseline-unfit'],
  ])('refuses %s in words', async (_, change, code) => {
    expect((await problemOf(() => pivot(made.station, ask(change)))).code).toBe(code);
  });

  it('answers for a question that finds nothing', () => {
    const view = pivot(made.station, ask({ where: 'quarter = 9' }));
    expect(view.rows.map((row) => row.plays)).toEqual([0]);
  });
});

/** The cells of `D3:D6,D9`. */
function cellsOf(ranges: string): string[] {
  return ranges.split(',').flatMap((range) => {
    const [from, to = from] = range.split(':') as [string, string?];
    const letter = from.replace(/\d+/, '');
    const first = Number(from.replace(/\D+/, ''));
    const last = Number(to.replace(/\D+/, ''));
    return Array.from({ length: last - first + 1 }, (_, i) => `${letter}${first + i}`);
  });
}
