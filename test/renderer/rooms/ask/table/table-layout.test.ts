import { describe, expect, it } from 'vitest';
import type { MetricCell, TableView } from '../../../../../electron/service/views.ts';
import { metricOf } from '../../../../../football/metrics/definitions.ts';
import { layTable, nextSort } from '../../../../../renderer/rooms/ask/table/table-layout.ts';
import { pickAt, placeInWords } from '../../../../../renderer/rooms/ask/table/table-pick.ts';

const ids = (prefix: string, count: number) => Array.from({ length: count }, (_, i) => `${prefix}${i}`);

function cell(prefix: string, calls: number, successes: number): MetricCell {
  const successRate = calls === 0 ? null : (100 * successes) / calls;
  return {
    metrics: { calls, successRate },
    intervals: { successRate: calls === 0 ? null : [10, 90] },
    bases: { calls, successRate: calls },
    playIds: ids(prefix, calls),
  };
}

const CONCEPTS: TableView = {
  rows: [
    { key: 'stick', col: 2, ...cell('s2', 15, 9) },
    { key: 'stick', col: 1, ...cell('s1', 15, 6) },
    { key: 'mesh', col: 1, ...cell('m1', 3, 3) },
    { key: null, col: 1, ...cell('n1', 40, 39) },
  ],
  rowTotals: [
    { key: null, ...cell('n1', 40, 39) },
    { key: 'mesh', ...cell('m1', 3, 3) },
    { key: 'stick', ...cell('s', 30, 15) },
  ],
  colTotals: [
    { key: null, col: 2, ...cell('c2', 15, 9) },
    { key: null, col: 1, ...cell('c1', 58, 48) },
  ],
  total: cell('t', 73, 57),
  metrics: ['calls', 'successRate'],
};

function lay(sort: { by: string; down: boolean }, hasColumns = true) {
  return layTable(CONCEPTS, {
    metrics: [metricOf('calls')!, metricOf('successRate')!],
    hasColumns,
    rowLabel: (key) => String(key ?? 'not tagged'),
    colLabel: (key) => `down ${key}`,
    sort,
  });
}

describe('the efficiency table as laid out', () => {
  it('gives each value of the column field its metrics, in order, and the totals last', () => {
    const layout = lay({ by: 'key', down: false });
    expect(layout.groups.map((group) => group.label)).toEqual(['down 1', 'down 2', 'All']);
    expect(layout.columns).toHaveLength(6);
    const stick = layout.rows.find((row) => row.key === 'stick')!;
    expect(stick.cells.map((c) => c.text)).toEqual(['15', '40.0 %', '15', '60.0 %', '30', '50.0 %']);
  });

  it('leaves a cell without plays blank and unmarked', () => {
    const mesh = lay({ by: 'key', down: false }).rows.find((row) => row.key === 'mesh')!;
    expect(mesh.cells[2]).toMatchObject({ text: '', small: false, playIds: [] });
  });

  it('marks rates on few plays, not counts', () => {
    const mesh = lay({ by: 'key', down: false }).rows.find((row) => row.key === 'mesh')!;
    expect(mesh.cells.map((c) => c.small)).toEqual([false, true, false, false, false, true]);
  });

  it.each([
    ['names in order', { by: 'key', down: false }, ['mesh', 'stick', null]],
    ['most plays first', { by: 'plays', down: true }, ['stick', 'mesh', null]],
    [
      'a rate over enough plays before a better one over three',
      { by: 'all successRate', down: true },
      ['stick', 'mesh', null],
    ],
    ['fewest calls first', { by: 'all calls', down: false }, ['mesh', 'stick', null]],
  ])('sorts by %s, what is not tagged last', (_, sort, expected) => {
    expect(lay(sort).rows.map((row) => row.key)).toEqual(expected);
  });

  it('turns a head from most first to least first to the rows’ own order', () => {
    const most = nextSort({ by: 'key', down: false }, 'all calls');
    const least = nextSort(most, 'all calls');
    expect([most, least, nextSort(least, 'all calls')]).toEqual([
      { by: 'all calls', down: true },
      { by: 'all calls', down: false },
      { by: 'key', down: false },
    ]);
  });

  it('has only totals where there is no column field', () => {
    const layout = lay({ by: 'key', down: false }, false);
    expect(layout.groups).toEqual([]);
    expect(layout.total.cells.map((c) => c.text)).toEqual(['73', '78.1 %']);
  });
});

describe('what a place in the table opens', () => {
  const layout = lay({ by: 'key', down: false });
  const rows = [...layout.rows, layout.total];
  const stick = rows.findIndex((row) => row.key === 'stick');

  it.each([
    ['a cell', { row: stick, column: 3 }, 15, 'Concept: stick · down 2 · Success rate'],
    ['a row’s name', { row: stick, column: -1 }, 30, 'Concept: stick'],
    ['a row’s total', { row: stick, column: 4 }, 30, 'Concept: stick · Calls'],
    ['a column’s head', { row: -2, column: 2 }, 15, 'down 2'],
    ['the corner of totals', { row: rows.length - 1, column: 5 }, 73, 'All plays · Success rate'],
  ])('%s has its plays and its name', (_, place, count, title) => {
    const pick = pickAt(layout, rows, place, 'Concept');
    expect(pick?.playIds).toHaveLength(count);
    expect(pick?.title).toBe(title);
  });

  it('says a rate with its count, its interval and that the plays are few', () => {
    const mesh = rows.findIndex((row) => row.key === 'mesh');
    expect(placeInWords(layout, rows, { row: mesh, column: 1 }, () => '')).toBe(
      'mesh: Success rate 100.0 % of 3 · 95 % interval 10.0 % to 90.0 % · few plays, read with care',
    );
  });
});
