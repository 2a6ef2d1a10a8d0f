import ExcelJS from 'exceljs';
import type { Result } from '../../../football/result.ts';
import { harmless, type Table } from './cells.ts';
import { type TableProblem, writeWhole } from './write-file.ts';

/** Writes a table as a spreadsheet of one sheet, headings frozen, whole or not at all. Texts are never formulas. */
export async function writeXlsx(
  target: string,
  { columns, rows }: Table,
): Promise<Result<void, TableProblem>> {
  const book = new ExcelJS.Workbook();
  const sheet = book.addWorksheet('Plays', { views: [{ state: 'frozen', ySplit: 1 }] });
  sheet.addRow(columns.map(harmless)).font = { bold: true };
  for (const row of rows) sheet.addRow(row.map(harmless));
  sheet.columns.forEach((column, i) => {
    const longest = Math.max(
      columns[i]?.length ?? 0,
      ...rows.slice(0, 200).map((row) => String(row[i] ?? '').length),
    );
    column.width = Math.min(40, longest + 2);
  });
  if (columns.length > 0)
    sheet.autoFilter = { from: { row: 1, column: 1 }, to: { row: 1, column: columns.length } };
  return writeWhole(target, new Uint8Array(await book.xlsx.writeBuffer()));
}
