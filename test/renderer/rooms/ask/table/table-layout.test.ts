import { describe, expect, it } from 'vitest';
import type { PivotCell, PivotNumber, PivotView } from '../../../../../electron/service/pivot-views.ts';
import { metricOf } from '../../../../../football/metrics/definitions.ts';
import {
  type LayoutOptions,
  layTable,
  nextSort,
  type TableSort,
} from '../../../../../renderer/rooms/ask/table/table-layout.ts';
import { pickAt, placeInWords } from '../../../../../renderer/rooms/ask/table/table-pick.ts';

function numbers(calls: number, successes: number): PivotNumber[] {
  const number = (value: number | null, base: number | null): PivotNumber => ({
    value,
    base,
    numerator: successes,
    interval: base === null ? null : [10, 90],
    against: base === null ? null : 50,
  });
  return [number(calls, null), number(calls === 0 ? null : (100 * successes) / calls, calls)];
}

const cell = (row: number, col: number, calls: number, successes: number): PivotCell => ({
  row,
  col,
  plays: calls,
  numbers: numbers(calls, successes),
});

const CONCEPTS: PivotView = {
  rows: [
    { key: [], plays: 73 },
    { key: ['mesh'], plays: 3 },
    { key: ['stick'], plays: 30 },
    { key: [null], plays: 40 },
  ],
  cols: [
    { key: [], plays: 73 },
    { key: [1], plays: 58 },
    { key: [2], plays: 15 },
  ],
  cells: [
    cell(0, 0, 73, 57),
    cell(0, 1, 58, 48),
    cell(0, 2, 15, 9),
    cell(1, 0, 3, 3),
    cell(1, 1, 3, 3),
    cell(2, 0, 30, 15),
    cell(2, 1, 15, 6),
    cell(2, 2, 15, 9),
    cell(3, 0, 40, 39),
    cell(3, 1, 40, 39),
  ],
  metrics: ['calls', 'successRate'],
  baseline: { label: 'last season', plays: 100 },
};
const WITHOUT_COLUMNS: PivotView = {
  ...CONCEPTS,
  cols: CONCEPTS.cols.slice(0, 1),
  cells: CONCEPTS.cells.filter((each) => each.col === 0),
};

function lay(sort: TableSort, view = CONCEPTS, more: Partial<LayoutOptions> = {}) {
  return layTable(view, {
    metrics: [metricOf('calls')!, metricOf('successRate')!],
    across: view.cols.length > 1 ? 1 : 0,
    rowLabel: (key) => String(key ?? 'not tagged'),
    colLabel: (key) => `down ${key}`,
    sort,
    ...more,
  });
}

describe('the efficiency table as laid out', () => {
  it('gives each value of the column field its metrics, in order, and the totals last', () => {
    const layout = lay({ by: 'key', down: false });
    expect(layout.groups.map((group) => group.label)).toEqual(['down 1', 'down 2', 'All']);
    expect(layout.columns).toHaveLength(6);
    const stick = layout.rows.find((row) => row.key[0] === 'stick')!;
    expect(stick.cells.map((c) => c.text)).toEqual(['15', '40.0 %', '15', '60.0 %', '30', '50.0 %']);
  });

  it('leaves a cell without plays blank and unmarked', () => {
    const mesh = lay({ by: 'key', down: false }).rows.find((row) => row.key[0] === 'mesh')!;
    expect(mesh.cells[2]).toMatchObject({ text: '', small: false, plays: 0 });
  });

  it('marks rates on few plays, not counts', () => {
    const mesh = lay({ by: 'key', down: false }).rows.find((row) => row.key[0] === 'mesh')!;
    expect(mesh.cells.map((c) => c.small)).toEqual([false, true, false, false, false, true]);
  });

  it.each([
    ['names in order', { by: 'key', down: false }, ['mesh', 'stick', null]],
    ['most plays first', { by: 'plays', down: true }, ['stick', 'mesh', null]],
    [
      'a rate over enough plays before a better one over three',
      { by: '[] successRate', down: true },
      ['stick', 'mesh', null],
    ],
    ['fewest calls first', { by: '[] calls', down: false }, ['mesh', 'stick', null]],
  ])('sorts by %s, what is not tagged last', (_, sort, expected) => {
    expect(lay(sort).rows.map((row) => row.key[0])).toEqual(expected);
  });

  it('turns a head from most first to least first to the rows’ own order', () => {
    const most = nextSort({ by: 'key', down: false }, '[] calls');
    const least = nextSort(most, '[] calls');
    expect([most, least, nextSort(least, '[] calls')]).toEqual([
      { by: '[] calls', down: true },
      { by: '[] calls', down: false },
      { by: 'key', down: false },
    ]);
  });

  it('stands a pinned row first, and leaves out a hidden row and a hidden column', () => {
    const layout = lay({ by: 'plays', down: true }, CONCEPTS, {
      pinned: ['["mesh"]'],
      hidden: ['["stick"]', 'col [2]'],
    });
    expect(layout.rows.map((row) => row.key[0])).toEqual(['mesh', null]);
    expect(layout.groups.map((group) => group.label)).toEqual(['down 1', 'All']);
    expect(layout.hidden).toBe(2);
  });

  it('has only totals where there is no column field', () => {
    const layout = lay({ by: 'key', down: false }, WITHOUT_COLUMNS);
    expect(layout.groups).toEqual([]);
    expect(layout.total.cells.map((c) => c.text)).toEqual(['73', '78.1 %']);
  });
});

describe('what a place in the table opens', () => {
  const layout = lay({ by: 'key', down: false });
  const rows = [...layout.rows, layout.total];
  const stick = rows.findIndex((row) => row.key[0] === 'stick');

  it.each([
    ['a cell', { row: stick, column: 3 }, 15, 'Concept: stick · down 2 · Success rate'],
    ['a row’s name', { row: stick, column: -1 }, 30, 'Concept: stick'],
    ['a row’s total', { row: stick, column: 4 }, 30, 'Concept: stick · Calls'],
    ['a column’s head', { row: -2, column: 2 }, 15, 'down 2'],
    ['the corner of totals', { row: rows.length - 1, column: 5 }, 73, 'All plays · Success rate'],
  ])('%s has its plays and its name', (_, place, count, title) => {
    const pick = pickAt(layout, rows, place, 'Concept');
    expect(pick?.plays).toBe(count);
    expect(pick?.title).toBe(title);
  });

  it('says a rate with its count, its interval and that the plays are few', () => {
    const mesh = rows.findIndex((row) => row.key[0] === 'mesh');
    expect(placeInWords(layout, rows, { row: mesh, column: 1 }, () => '', 'last season')).toBe(
      'mesh: Success rate 100.0 % of 3 · 95 % interval 10.0 % to 90.0 % · +50.0 points against last season · few plays, read with care',
    );
  });
});
