/** What a place in the table stands for: whose plays, and its name in words. */

import type { CellPlace } from './cell-cursor.ts';
import { cellInWords, metricInWords, plays } from './cell-words.ts';
import type { ColumnGroup, GridRow, ShownMetric, TableKey, TableLayout } from './table-layout.ts';

export interface TablePick {
  /** values of the row and column fields; none where the pick goes over all of them */
  readonly row: readonly TableKey[];
  readonly col: readonly TableKey[];
  /** id of the row or column group, to hide or pin it */
  readonly rowId: string | null;
  readonly groupId: string | null;
  /** null where the pick is a whole row or column */
  readonly metric: ShownMetric | null;
  /** how many plays the cell has, whatever the metric counts of them */
  readonly plays: number;
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
  const group = groupAt(layout, place.column);
  if (place.row === -2) {
    if (!group) return null;
    return {
      row: [],
      col: group.col,
      rowId: null,
      groupId: group.col.length > 0 ? group.id : null,
      metric: null,
      plays: group.plays,
      title: group.label,
    };
  }
  const row = rows[place.row];
  if (!row) return null;
  const whose = row.key.length === 0 ? row.label : `${rowName}: ${row.label}`;
  const rowId = row.key.length > 0 ? row.id : null;
  if (!column)
    return { row: row.key, col: [], rowId, groupId: null, metric: null, plays: row.plays, title: whose };
  return {
    row: row.key,
    col: column.col,
    rowId,
    groupId: group && group.col.length > 0 ? group.id : null,
    metric: column.metric,
    plays: row.cells[place.column]?.plays ?? 0,
    title: [whose, column.col.length > 0 ? group?.label : undefined, column.metric.name]
      .filter(Boolean)
      .join(' · '),
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
  baseline = '',
): string {
  const column = layout.columns[place.column];
  if (place.row === -2) {
    const group = groupAt(layout, place.column);
    return group ? `${group.label}: ${plays(group.plays)}` : '';
  }
  if (place.row === -1)
    return column ? metricInWords(column.metric, settingWords(column.metric)) : 'Sort by the name';
  const row = rows[place.row];
  if (!row) return '';
  const cell = row.cells[place.column];
  if (!column || !cell) return `${row.label}: ${plays(row.plays)}`;
  return `${row.label}: ${cellInWords(column.metric, cell, baseline)}`;
}
