/** What a place in the table stands for: its plays, and its name in words. */

import type { CellPlace } from './cell-cursor.ts';
import { cellInWords, metricInWords, plays } from './cell-words.ts';
import type { ColumnGroup, GridRow, ShownMetric, TableKey, TableLayout } from './table-layout.ts';

export interface TablePick {
  /** null where the pick is a whole column */
  readonly row: GridRow | null;
  /** the column field's value; undefined where the pick goes over all of them */
  readonly col: TableKey | undefined;
  /** null where the pick is a whole row or column */
  readonly metric: ShownMetric | null;
  /** every play of the cell, whatever the metric counts of them */
  readonly playIds: readonly string[];
  readonly title: string;
}

/** The rows as they stand on the screen: the sorted ones that are shown, then the totals. */
export function pickAt(
  layout: TableLayout,
  rows: readonly GridRow[],
  place: CellPlace,
  rowName: string,
): TablePick | null {
  const column = layout.columns[place.column];
  if (place.row === -2) {
    const group = groupAt(layout, place.column);
    if (!group || !column) return null;
    return { row: null, col: column.col, metric: null, playIds: group.playIds, title: group.label };
  }
  const row = rows[place.row];
  if (!row) return null;
  const whose = row.id === 'total' ? row.label : `${rowName}: ${row.label}`;
  if (!column) return { row, col: undefined, metric: null, playIds: row.playIds, title: whose };
  const group = column.total ? undefined : groupAt(layout, place.column);
  return {
    row,
    col: column.col,
    metric: column.metric,
    playIds: row.cells[place.column]?.playIds ?? [],
    title: [whose, group?.label, column.metric.name].filter(Boolean).join(' · '),
  };
}

export function groupAt(layout: TableLayout, column: number): ColumnGroup | undefined {
  const width = layout.groups[0]?.columns ?? 0;
  return width > 0 ? layout.groups[Math.floor(column / width)] : undefined;
}

/** What the line under the table says of a place. */
export function placeInWords(
  layout: TableLayout,
  rows: readonly GridRow[],
  place: CellPlace,
  settingWords: (metric: ShownMetric) => string,
): string {
  const column = layout.columns[place.column];
  if (place.row === -2) {
    const group = groupAt(layout, place.column);
    return group ? `${group.label}: ${plays(group.playIds.length)}` : '';
  }
  if (place.row === -1)
    return column ? metricInWords(column.metric, settingWords(column.metric)) : 'Sort by the name';
  const row = rows[place.row];
  if (!row) return '';
  const cell = row.cells[place.column];
  if (!column || !cell) return `${row.label}: ${plays(row.playIds.length)}`;
  return `${row.label}: ${cellInWords(column.metric, cell)}`;
}
