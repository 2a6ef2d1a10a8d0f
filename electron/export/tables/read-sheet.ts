import { readFile } from 'node:fs/promises';
import ExcelJS from 'exceljs';
import Papa from 'papaparse';
import { fail, ok, type Result } from '../../../football/result.ts';
import { unharmed } from './cells.ts';
import type { TableProblem } from './write-file.ts';

/** A sheet as text: headings, and rows of cells in their order. Rows with nothing in them are left out. */
export interface Sheet {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/**
 * Reads a CSV (any usual separator; UTF-8, UTF-16 or Windows-1252) or the first sheet with something in it of an XLSX
 * file. What the file is, its content tells, not its ending.
 */
export async function readSheet(path: string): Promise<Result<Sheet, TableProblem>> {
  let bytes: Buffer;
  try {
    bytes = await readFile(path);
  } catch (error) {
    const missing = (error as NodeJS.ErrnoException).code === 'ENOENT';
    return fail({
      code: missing ? 'sheet-missing' : 'sheet-unreadable',
      message: missing
        ? `There is no sheet ${path}.`
        : `${path} cannot be read: ${(error as Error).message}.`,
      kept: 'Nothing was brought in.',
      next: missing ? 'Check the name.' : 'Choose a CSV or XLSX file.',
    });
  }
  const isZip = bytes.length > 3 && bytes[0] === 0x50 && bytes[1] === 0x4b;
  try {
    const table = isZip ? await readXlsx(bytes) : readCsv(bytes);
    return shape(table, path);
  } catch (error) {
    return fail({
      code: 'sheet-unreadable',
      message: `${path} cannot be read as a sheet: ${(error as Error).message}.`,
      kept: 'Nothing was brought in.',
      next: 'Save it again as CSV or XLSX and bring that in.',
    });
  }
}

function readCsv(bytes: Buffer): string[][] {
  if (bytes.includes(0) && !hasMark16(bytes)) throw new Error('it is not text');
  const text = decode(bytes).replace(/^\uFEFF/, '');
  const { data } = Papa.parse<string[]>(text, { skipEmptyLines: 'greedy' });
  return data.map((row) => row.map((cell) => unharmed(cell)));
}

function hasMark16(bytes: Buffer): boolean {
  return (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
}

function decode(bytes: Buffer): string {
  if (hasMark16(bytes)) return new TextDecoder(bytes[0] === 0xff ? 'utf-16le' : 'utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

async function readXlsx(bytes: Buffer): Promise<string[][]> {
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(bytes as unknown as ArrayBuffer);
  const sheet = book.worksheets.find((s) => s.actualRowCount > 0);
  if (!sheet) return [];
  const rows: string[][] = [];
  sheet.eachRow((row) => {
    const cells: string[] = [];
    for (let i = 1; i <= sheet.columnCount; i += 1) cells.push(unharmed(cellText(row.getCell(i).value)));
    if (cells.some((c) => c.trim() !== '')) rows.push(cells);
  });
  return rows;
}

function cellText(value: ExcelJS.CellValue): string {
  if (value === null || value === undefined) return '';
  if (value instanceof Date) return timeText(value);
  if (typeof value !== 'object') return String(value);
  if ('richText' in value) return value.richText.map((part) => part.text).join('');
  if ('result' in value) return cellText(value.result as ExcelJS.CellValue);
  if ('text' in value) return String(value.text);
  return '';
}

/** A spreadsheet keeps 7:42 as a time of day of its day zero; a date is written as a date. */
function timeText(date: Date): string {
  if (date.getUTCFullYear() > 1900) return date.toISOString().slice(0, 10);
  const [hours, minutes, seconds] = [date.getUTCHours(), date.getUTCMinutes(), date.getUTCSeconds()];
  const two = (n: number) => String(n).padStart(2, '0');
  return `${hours}:${two(minutes)}:${two(seconds)}`;
}

function shape(table: readonly string[][], path: string): Result<Sheet, TableProblem> {
  const [headings, ...rows] = table;
  if (!headings || headings.every((h) => h.trim() === '')) {
    return fail({
      code: 'sheet-empty',
      message: `${path} has no headings: its first row is empty.`,
      kept: 'Nothing was brought in.',
      next: 'Put the names of the columns into the first row.',
    });
  }
  const seen = new Map<string, number>();
  const columns = headings.map((heading, i) => {
    const name = heading.trim() || `column ${i + 1}`;
    const count = (seen.get(name) ?? 0) + 1;
    seen.set(name, count);
    return count === 1 ? name : `${name} (${count})`;
  });
  return ok({ columns, rows });
}
