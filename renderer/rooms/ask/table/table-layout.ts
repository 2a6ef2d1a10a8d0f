/** The service's table as a grid of cells to draw: which columns, in which order the rows, and what each cell says. */

import type { MetricCell, TableRow, TableView } from '../../../../electron/service/views.ts';
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
  /** value of the column field; undefined where the table has no column field, or in the column of totals */
  readonly col: TableKey | undefined;
  readonly total: boolean;
}

export interface ColumnGroup {
  readonly id: string;
  readonly label: string;
  readonly columns: number;
  /** plays of the whole column */
  readonly playIds: readonly string[];
}

export interface GridCell {
  readonly text: string;
  readonly value: number | null;
  /** too few plays to lean on */
  readonly small: boolean;
  readonly base: number | null;
  readonly interval: readonly [number, number] | null;
  readonly playIds: readonly string[];
}

export interface GridRow {
  readonly id: string;
  readonly label: string;
  readonly key: TableKey;
  readonly playIds: readonly string[];
  readonly cells: readonly GridCell[];
}

export interface TableLayout {
  /** one a value of the column field, then the totals; empty where the table has no column field */
  readonly groups: readonly ColumnGroup[];
  readonly columns: readonly GridColumn[];
  readonly rows: readonly GridRow[];
  readonly total: GridRow;
}

/** `by`: a column's id, `key` for the rows' own order, `plays` for the count of plays behind the row. */
export interface TableSort {
  readonly by: string;
  readonly down: boolean;
}

export interface LayoutOptions {
  readonly metrics: readonly ShownMetric[];
  readonly hasColumns: boolean;
  readonly rowLabel: (key: TableKey) => string;
  readonly colLabel: (key: TableKey) => string;
  readonly sort: TableSort;
}

const NO_PLAYS: MetricCell = { metrics: {}, intervals: {}, bases: {}, playIds: [] };

/** A key as a map's key: `null`, `3` and `"3"` are three different ones. */
export function keyId(key: TableKey | undefined): string {
  return JSON.stringify(key ?? null);
}

export function layTable(view: TableView, options: LayoutOptions): TableLayout {
  const { metrics, hasColumns } = options;
  const colTotals = hasColumns ? sortKeys(view.colTotals, (row) => row.col ?? row.key) : [];
  const columns: GridColumn[] = colTotals.flatMap((total) => {
    const col = total.col === undefined ? total.key : total.col;
    return metrics.map((metric) => ({ id: `${keyId(col)} ${metric.key}`, metric, col, total: false }));
  });
  columns.push(
    ...metrics.map((metric) => ({ id: `all ${metric.key}`, metric, col: undefined, total: true })),
  );

  const cellsAt = new Map<string, MetricCell>();
  if (hasColumns) for (const row of view.rows) cellsAt.set(`${keyId(row.key)}|${keyId(row.col)}`, row);
  const rowTotals = view.rowTotals.length > 0 ? view.rowTotals : view.rows;

  const rows = rowTotals.map((total): GridRow => {
    const cells = columns.map((column) => {
      const from = column.total
        ? total
        : (cellsAt.get(`${keyId(total.key)}|${keyId(column.col)}`) ?? NO_PLAYS);
      return gridCell(from, column.metric);
    });
    return {
      id: keyId(total.key),
      label: options.rowLabel(total.key),
      key: total.key,
      playIds: total.playIds,
      cells,
    };
  });

  const totalCells = columns.map((column) => {
    const from = column.total
      ? view.total
      : (colTotals.find((row) => keyId(row.col === undefined ? row.key : row.col) === keyId(column.col)) ??
        NO_PLAYS);
    return gridCell(from, column.metric);
  });

  const groups: ColumnGroup[] = colTotals.map((total) => {
    const col = total.col === undefined ? total.key : total.col;
    return {
      id: keyId(col),
      label: options.colLabel(col),
      columns: metrics.length,
      playIds: total.playIds,
    };
  });
  if (groups.length > 0)
    groups.push({ id: 'all', label: 'All', columns: metrics.length, playIds: view.total.playIds });

  return {
    groups,
    columns,
    rows: sortRows(rows, columns, options.sort),
    total: {
      id: 'total',
      label: 'All plays',
      key: null,
      playIds: view.total.playIds,
      cells: totalCells,
    },
  };
}

export function gridCell(from: MetricCell, metric: ShownMetric): GridCell {
  const value = from.metrics[metric.key] ?? null;
  const counts = metric.kind === 'count' || metric.kind === 'sum';
  const base = counts ? null : (from.bases[metric.key] ?? null);
  return {
    text: from.playIds.length === 0 ? '' : formatMetric(metric, value),
    value: from.playIds.length === 0 ? null : value,
    small: !counts && value !== null && base !== null && base < SMALL_SAMPLE,
    base,
    interval: from.intervals[metric.key] ?? null,
    playIds: from.playIds,
  };
}

/** Numbers by size, words by the alphabet with their numbers by size, what is not tagged last. */
export function compareKeys(a: TableKey, b: TableKey): number {
  if (a === null || b === null) return a === b ? 0 : a === null ? 1 : -1;
  if (typeof a === 'number' && typeof b === 'number') return a - b;
  if (typeof a === 'boolean' && typeof b === 'boolean') return Number(b) - Number(a);
  return String(a).localeCompare(String(b), 'en', { numeric: true, sensitivity: 'base' });
}

function sortKeys(rows: readonly TableRow[], keyOf: (row: TableRow) => TableKey): readonly TableRow[] {
  return [...rows].sort((a, b) => compareKeys(keyOf(a), keyOf(b)));
}

/** Sorted rows. By a rate or a mean, those on too few plays stand after the rest, so that no three plays lead a list. */
export function sortRows(
  rows: readonly GridRow[],
  columns: readonly GridColumn[],
  sort: TableSort,
): readonly GridRow[] {
  const turn = sort.down ? -1 : 1;
  const column = columns.findIndex((candidate) => candidate.id === sort.by);
  const order = (a: GridRow, b: GridRow): number => {
    if (sort.by === 'plays') return turn * (a.playIds.length - b.playIds.length);
    if (column < 0) return a.key === null || b.key === null ? 0 : turn * compareKeys(a.key, b.key);
    const [left, right] = [a.cells[column], b.cells[column]];
    if (!left || !right) return 0;
    if (left.value === null || right.value === null)
      return Number(left.value === null) - Number(right.value === null);
    if (left.small !== right.small) return Number(left.small) - Number(right.small);
    return turn * (left.value - right.value);
  };
  const untaggedLast = (a: GridRow, b: GridRow) => Number(a.key === null) - Number(b.key === null);
  return [...rows].sort((a, b) => untaggedLast(a, b) || order(a, b) || compareKeys(a.key, b.key));
}

/** What a click on a column head does next: most first, then least first, then the rows' own order. */
export function nextSort(current: TableSort, by: string): TableSort {
  if (current.by !== by) return { by, down: by !== 'key' };
  if (by === 'key') return { by, down: !current.down };
  return current.down ? { by, down: false } : { by: 'key', down: false };
}
