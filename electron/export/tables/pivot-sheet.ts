import ExcelJS from 'exceljs';
import type { Result } from '../../../football/result.ts';
import { harmless } from './cells.ts';
import { type TableProblem, writeWhole } from './write-file.ts';

/** A number of a table, with the parts that it is made of. */
export interface SheetNumber {
  readonly value: number | null;
  readonly numerator: number;
  readonly base: number | null;
}

export interface SheetMetric {
  readonly name: string;
  readonly kind: 'count' | 'sum' | 'rate' | 'mean' | 'index';
  readonly decimals: number;
  /** what the number counts below the line */
  readonly per: string;
  /** whether value = numerator / base, so that a spreadsheet may work it out */
  readonly quotient: boolean;
  /** whether the whole is the sum of its parts */
  readonly adds: boolean;
}

export interface PivotSheet {
  readonly title: string;
  /** names of the row fields */
  readonly rowFields: readonly string[];
  /** one a column of values, with its metrics under it; an empty label where there are no column fields */
  readonly groups: readonly string[];
  readonly metrics: readonly SheetMetric[];
  readonly rows: readonly PivotSheetRow[];
  /** what every number means, one line a metric */
  readonly notes: readonly string[];
}

export interface PivotSheetRow {
  /** labels of the row fields; fewer than there are for a subtotal, none for the whole */
  readonly labels: readonly string[];
  readonly plays: number;
  /** group after group, the metrics in order; null where there are no plays */
  readonly cells: readonly (SheetNumber | null)[];
}

/**
 * Writes a table as a spreadsheet. A rate or mean stands as a formula of its two counts, which stand beside it; subtotals
 * and the whole add their members' counts as formulas, so no rate is ever summed.
 */
export async function writePivotXlsx(target: string, table: PivotSheet): Promise<Result<void, TableProblem>> {
  const book = new ExcelJS.Workbook();
  const sheet = book.addWorksheet('Table', {
    views: [{ state: 'frozen', xSplit: table.rowFields.length, ySplit: 2 }],
  });
  const columns = columnsOf(table);
  const heads = [...table.rowFields, 'Plays'].map(harmless);
  const groupLine = sheet.addRow([
    ...heads.map(() => ''),
    ...columns.map((c) => (c.starts ? harmless(c.group) : '')),
  ]);
  groupLine.font = { bold: true };
  sheet.addRow([...heads, ...columns.map((c) => harmless(c.name))]).font = { bold: true };
  const first = 3;
  const depth = table.rowFields.length;
  for (const [at, row] of table.rows.entries()) {
    const labels = table.rowFields.map((_, i) =>
      harmless(row.labels[i] ?? (row.labels.length === i ? 'all' : '')),
    );
    const line = sheet.addRow(labels);
    const members = childrenOf(table.rows, at).map((child) => first + child);
    line.getCell(depth + 1).value = added(members, depth + 1, row.plays);
    for (const [i, column] of columns.entries()) {
      const number = row.cells[column.cell];
      if (!number) continue;
      const cell = line.getCell(depth + 2 + i);
      if (column.part === 'value' && column.metric.quotient) {
        if (number.value === null) continue;
        const top = letters(depth + i);
        const bottom = letters(depth + 1 + i);
        const own = line.number;
        cell.value = {
          formula: `IF(${bottom}${own}=0,"",${top}${own}/${bottom}${own})`,
          result: number.value / (column.metric.kind === 'rate' ? 100 : 1),
        };
        cell.numFmt = format(column.metric);
      } else if (column.part === 'value') {
        cell.value = column.metric.adds ? added(members, depth + 2 + i, number.value ?? 0) : number.value;
        cell.numFmt = format(column.metric);
      } else {
        cell.value = added(
          members,
          depth + 2 + i,
          column.part === 'over' ? number.numerator : (number.base ?? 0),
        );
      }
    }
    if (row.labels.length < depth) line.font = { bold: true };
  }
  sheet.columns.forEach((column, i) => {
    column.width = i < depth ? 22 : 11;
  });
  const notes = book.addWorksheet('What the numbers mean');
  for (const note of [table.title, ...table.notes]) notes.addRow([harmless(note)]);
  notes.getColumn(1).width = 120;
  return writeWhole(target, new Uint8Array(await book.xlsx.writeBuffer()));
}

/** The rows right under a row: for a subtotal the rows that follow it, for the whole, wherever it stands, the first field's. */
function childrenOf(rows: readonly PivotSheetRow[], at: number): number[] {
  const depth = rows[at]!.labels.length;
  const children: number[] = [];
  for (let i = depth === 0 ? 0 : at + 1; i < rows.length; i++) {
    const below = rows[i]!.labels.length;
    if (depth > 0 && below <= depth) break;
    if (below === depth + 1) children.push(i);
  }
  return children;
}

function added(members: readonly number[], column: number, result: number): ExcelJS.CellValue {
  if (members.length === 0) return result;
  const letter = letters(column);
  // a spreadsheet takes at most 255 arguments, so rows that follow each other go as one range
  const ranges: string[] = [];
  for (let i = 0; i < members.length; i++) {
    const from = members[i]!;
    while (members[i + 1] === members[i]! + 1) i++;
    ranges.push(from === members[i] ? `${letter}${from}` : `${letter}${from}:${letter}${members[i]}`);
  }
  if (ranges.length > 250) return result;
  return { formula: `SUM(${ranges.join(',')})`, result };
}

interface SheetColumn {
  readonly group: string;
  readonly starts: boolean;
  readonly name: string;
  readonly metric: SheetMetric;
  readonly part: 'over' | 'under' | 'value';
  /** which of the row's cells */
  readonly cell: number;
}

function columnsOf({ groups, metrics }: PivotSheet): SheetColumn[] {
  return groups.flatMap((group, g) =>
    metrics.flatMap((metric, m) => {
      const column = (name: string, part: SheetColumn['part'], starts: boolean): SheetColumn => ({
        group,
        starts: starts && m === 0,
        name,
        metric,
        part,
        cell: g * metrics.length + m,
      });
      if (!metric.quotient) return [column(metric.name, 'value', true)];
      return [
        column(`${metric.name}: over the line`, 'over', true),
        column(`${metric.name}: ${metric.per || 'under the line'}`, 'under', false),
        column(metric.name, 'value', false),
      ];
    }),
  );
}

function format({ kind, decimals }: SheetMetric): string {
  const places = decimals > 0 ? `.${'0'.repeat(decimals)}` : '';
  return kind === 'rate' ? `0${places}%` : `0${places}`;
}

/** A column's letters, from 1: A, Z, AA. */
function letters(column: number): string {
  let text = '';
  for (let rest = column; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    text = String.fromCharCode(65 + ((rest - 1) % 26)) + text;
  }
  return text;
}
