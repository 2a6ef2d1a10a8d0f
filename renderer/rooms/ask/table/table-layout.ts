/** The service's table as a grid of cells to draw: which columns, in which order the rows, and what each cell says. */

import type { PivotNumber, PivotSide, PivotView } from '../../../../electron/service/pivot-views.ts';
import type { MetricCell } from '../../../../electron/service/views.ts';
import { formatMetric, type MetricDefinition, SMALL_SAMPLE } from '../../../../football/metrics/metric.ts';

export type TableKey = string | number | boolean | null;

/** What a metric must say of itself to be shown; the service's list and the football code both give it. */
export interface ShownMetric
  extends Pick<MetricDefinition, 'key' | 'name' | 'kind' | 'decimals' | 'unit' | 'formula' | 'caution'> {
  readonly per?: string | null;
  readonly source?: string;
}

export interface GridColumn {
  /** stable name, for sorting and focus */
  readonly id: string;
  readonly metric: ShownMetric;
  /** values of the column fields; fewer than there are in a column of subtotals, none in that of totals */
  readonly col: readonly TableKey[];
}

export interface ColumnGroup {
  readonly id: string;
  readonly label: string;
  readonly columns: number;
  readonly col: readonly TableKey[];
  /** how many plays the whole column has */
  readonly plays: number;
}

export interface GridCell {
  readonly text: string;
  readonly value: number | null;
  /** too few plays to lean on */
  readonly small: boolean;
  readonly base: number | null;
  readonly interval: readonly [number, number] | null;
  readonly plays: number;
  /** what it is more than the baseline, in the metric's unit; null without one */
  readonly difference: number | null;
  /** fifth of its column that it stands in, 1 lowest to 5 highest; null where it is not ranked */
  readonly heat: number | null;
}

export interface GridRow {
  readonly id: string;
  readonly label: string;
  /** values of the row fields; fewer than there are for a subtotal, none for the whole */
  readonly key: readonly TableKey[];
  readonly plays: number;
  readonly cells: readonly GridCell[];
}

export interface TableLayout {
  /** one a value of the column fields, then the totals; empty where the table has no column field */
  readonly groups: readonly ColumnGroup[];
  readonly columns: readonly GridColumn[];
  /** subtotals before their members */
  readonly rows: readonly GridRow[];
  readonly total: GridRow;
  /** rows and columns that were hidden by hand */
  readonly hidden: number;
}

/** `by`: a column's id, `key` for the rows' own order, `plays` for the count of plays behind the row. */
export interface TableSort {
  readonly by: string;
  readonly down: boolean;
}

export interface LayoutOptions {
  readonly metrics: readonly ShownMetric[];
  /** how many fields stand across */
  readonly across: number;
  readonly rowLabel: (key: TableKey, depth: number) => string;
  readonly colLabel: (key: TableKey, depth: number) => string;
  readonly sort: TableSort;
  /** ids of rows and of column groups */
  readonly hidden?: readonly string[];
  /** ids of rows that stand first among their siblings */
  readonly pinned?: readonly string[];
  readonly heat?: boolean;
}

const NO_PLAYS: GridCell = {
  text: '',
  value: null,
  small: false,
  base: null,
  interval: null,
  plays: 0,
  difference: null,
  heat: null,
};

/** A key as a map's key: `null`, `3` and `"3"` are three different ones. */
export function keyId(key: readonly TableKey[]): string {
  return JSON.stringify(key);
}

export function layTable(view: PivotView, options: LayoutOptions): TableLayout {
  const { metrics, across } = options;
  const hidden = new Set(options.hidden);
  const gone = (side: PivotSide) => side.key.some((_, at) => hidden.has(keyId(side.key.slice(0, at + 1))));
  const goneCol = (side: PivotSide) => hidden.has(`col ${keyId(side.key)}`);
  const places = metrics.map((metric) => view.metrics.indexOf(metric.key));
  const colOrder = [...view.cols.keys()].filter((at) => view.cols[at]!.key.length > 0);
  const shownCols = [
    ...colOrder.filter((at) => !goneCol(view.cols[at]!)),
    ...(view.cols.length > 0 ? [0] : []),
  ];
  const columns: GridColumn[] = shownCols.flatMap((at) =>
    metrics.map((metric) => ({
      id: `${keyId(view.cols[at]!.key)} ${metric.key}`,
      metric,
      col: view.cols[at]!.key,
    })),
  );
  const cellAt = new Map(view.cells.map((cell) => [`${cell.row} ${cell.col}`, cell]));
  const rowOf = (side: PivotSide, at: number, label: string): GridRow => ({
    id: keyId(side.key),
    label,
    key: side.key,
    plays: side.plays,
    cells: shownCols.flatMap((col) => {
      const cell = cellAt.get(`${at} ${col}`);
      return metrics.map((metric, m) => {
        const number = cell?.numbers[places[m]!];
        return cell && number ? pivotCell(cell.plays, metric, number) : NO_PLAYS;
      });
    }),
  });
  const all = view.rows.map((side, at) =>
    rowOf(
      side,
      at,
      side.key.length === 0 ? 'All plays' : options.rowLabel(side.key.at(-1) ?? null, side.key.length - 1),
    ),
  );
  const rows = sortRows(
    all.filter((row) => row.key.length > 0 && !gone(row)),
    columns,
    options.sort,
    options.pinned,
  );
  const total = all[0] ?? {
    id: keyId([]),
    label: 'All plays',
    key: [],
    plays: 0,
    cells: columns.map(() => NO_PLAYS),
  };
  return {
    groups:
      across === 0
        ? []
        : shownCols.map((at) => {
            const { key, plays } = view.cols[at]!;
            const words = key.map((value, depth) => options.colLabel(value, depth));
            if (key.length > 0 && key.length < across) words.push('all');
            return {
              id: `col ${keyId(key)}`,
              label: words.join(' · ') || 'All',
              columns: metrics.length,
              col: key,
              plays,
            };
          }),
    columns,
    rows: options.heat ? heated(rows, columns) : rows,
    total,
    hidden:
      view.rows.filter((row) => row.key.length > 0 && gone(row)).length +
      colOrder.filter((at) => goneCol(view.cols[at]!)).length,
  };
}

function pivotCell(plays: number, metric: ShownMetric, number: PivotNumber): GridCell {
  const counts = metric.kind === 'count' || metric.kind === 'sum';
  const base = counts ? null : number.base;
  return {
    text: formatMetric(metric, number.value),
    value: number.value,
    small: !counts && number.value !== null && base !== null && base < SMALL_SAMPLE,
    base,
    interval: number.interval,
    plays,
    difference: number.value === null || number.against === null ? null : number.value - number.against,
    heat: null,
  };
}

/** One metric of a cell that came with its plays, as the line of an answer. */
export function gridCell(from: MetricCell, metric: ShownMetric): GridCell {
  const value = from.playIds.length === 0 ? null : (from.metrics[metric.key] ?? null);
  const number = {
    value,
    base: from.bases[metric.key] ?? null,
    numerator: 0,
    interval: from.intervals[metric.key] ?? null,
    against: null,
  };
  return {
    ...pivotCell(from.playIds.length, metric, number),
    text: value === null && from.playIds.length === 0 ? '' : formatMetric(metric, value),
  };
}

/** Ranks each column's numbers among the rows of the same depth, those on too few plays left out. */
function heated(rows: readonly GridRow[], columns: readonly GridColumn[]): GridRow[] {
  const ranked = new Map<string, number[]>();
  const at = (row: GridRow, column: number) => `${row.key.length} ${column}`;
  const counts = (cell: GridCell) => cell.value !== null && !cell.small;
  for (const row of rows) {
    for (const i of columns.keys()) {
      const cell = row.cells[i]!;
      if (counts(cell)) ranked.set(at(row, i), [...(ranked.get(at(row, i)) ?? []), cell.value!]);
    }
  }
  return rows.map((row) => ({
    ...row,
    cells: row.cells.map((cell, i) => {
      const values = ranked.get(at(row, i)) ?? [];
      if (!counts(cell) || values.length < 3) return cell;
      const below = values.filter((value) => value < cell.value!).length;
      const same = values.filter((value) => value === cell.value).length;
      // the middle of those that share a value, so that equal numbers share a colour
      const percentile = (below + same / 2) / values.length;
      return { ...cell, heat: Math.min(5, Math.floor(percentile * 5) + 1) };
    }),
  }));
}

/** Numbers by size, words by the alphabet with their numbers by size, what is not tagged last. */
export function compareKeys(a: TableKey, b: TableKey): number {
  if (a === null || b === null) return a === b ? 0 : a === null ? 1 : -1;
  if (typeof a === 'number' && typeof b === 'number') return a - b;
  if (typeof a === 'boolean' && typeof b === 'boolean') return Number(b) - Number(a);
  return String(a).localeCompare(String(b), 'en', { numeric: true, sensitivity: 'base' });
}

/**
 * Sorted rows, each subtotal followed by its members. By a rate or a mean, those on too few plays stand after the rest, so
 * that no three plays lead a list.
 */
export function sortRows(
  rows: readonly GridRow[],
  columns: readonly GridColumn[],
  sort: TableSort,
  pinned: readonly string[] = [],
): readonly GridRow[] {
  const turn = sort.down ? -1 : 1;
  const column = columns.findIndex((candidate) => candidate.id === sort.by);
  const last = (row: GridRow) => row.key.at(-1) ?? null;
  const order = (a: GridRow, b: GridRow): number => {
    if (sort.by === 'plays') return turn * (a.plays - b.plays);
    if (column < 0) return last(a) === null || last(b) === null ? 0 : turn * compareKeys(last(a), last(b));
    const [left, right] = [a.cells[column], b.cells[column]];
    if (!left || !right) return 0;
    if (left.value === null || right.value === null)
      return Number(left.value === null) - Number(right.value === null);
    if (left.small !== right.small) return Number(left.small) - Number(right.small);
    return turn * (left.value - right.value);
  };
  const pin = (row: GridRow) => (pinned.includes(row.id) ? 0 : 1);
  const untaggedLast = (a: GridRow, b: GridRow) => Number(last(a) === null) - Number(last(b) === null);
  const under = new Map<string, GridRow[]>();
  for (const row of rows) {
    const parent = keyId(row.key.slice(0, -1));
    under.set(parent, [...(under.get(parent) ?? []), row]);
  }
  const walk = (parent: string): GridRow[] =>
    [...(under.get(parent) ?? [])]
      .sort((a, b) => pin(a) - pin(b) || untaggedLast(a, b) || order(a, b) || compareKeys(last(a), last(b)))
      .flatMap((row) => [row, ...walk(row.id)]);
  return walk(keyId([]));
}

/** What a click on a column head does next: most first, then least first, then the rows' own order. */
export function nextSort(current: TableSort, by: string): TableSort {
  if (current.by !== by) return { by, down: by !== 'key' };
  if (by === 'key') return { by, down: !current.down };
  return current.down ? { by, down: false } : { by: 'key', down: false };
}
