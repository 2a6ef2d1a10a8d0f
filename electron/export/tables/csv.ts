import Papa from 'papaparse';
import type { Result } from '../../../football/result.ts';
import { type Cell, harmless, type Table } from './cells.ts';
import { type TableProblem, writeWhole } from './write-file.ts';

/** A table as CSV (RFC 4180: CRLF, quotes doubled), with a byte order mark so that spreadsheets read it as UTF-8. */
export function csvText({ columns, rows }: Table): string {
  const plain = (cell: Cell) => (typeof cell === 'boolean' ? (cell ? 'yes' : 'no') : (harmless(cell) ?? ''));
  return `\uFEFF${Papa.unparse({ fields: columns.map((c) => String(harmless(c))), data: rows.map((row) => row.map(plain)) })}\r\n`;
}

/** Writes a table as a CSV file, whole or not at all. */
export function writeCsv(target: string, table: Table): Promise<Result<void, TableProblem>> {
  return writeWhole(target, csvText(table));
}
