import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ExcelJS from 'exceljs';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { type Cell, harmless, unharmed } from '../../../../electron/export/tables/cells.ts';
import { csvText, writeCsv } from '../../../../electron/export/tables/csv.ts';
import { readSheet } from '../../../../electron/export/tables/read-sheet.ts';
import { writeXlsx } from '../../../../electron/export/tables/xlsx.ts';

const folder = mkdtempSync(join(tmpdir(), 'tables-'));
const at = (name: string) => join(folder, name);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function read(name: string, bytes?: string | Buffer) {
  if (bytes !== undefined) writeFileSync(at(name), bytes);
  const sheet = await readSheet(at(name));
  if (!sheet.ok) throw new Error(sheet.problem.message);
  return sheet.value;
}

describe('a cell that a spreadsheet would run', () => {
  // OWASP, CSV Injection: cells that begin with = + - @ tab or carriage return
  it.each<[Cell, Cell]>([
    ['=1+1', "'=1+1"],
    ['=HYPERLINK("http://x","Stick")', '\'=HYPERLINK("http://x","Stick")'],
    ['@SUM(A1)', "'@SUM(A1)"],
    ['+cmd|calc', "'+cmd|calc"],
    ['-2+3', "'-2+3"],
    ['-', "'-"],
    ['\t=1', "'\t=1"],
    ['\r=1', "'\r=1"],
    ['＝1', "'＝1"],
    ['-35', '-35'],
    ['+20', '+20'],
    ['-7.5', '-7.5'],
    [-7, -7],
    [null, null],
    [true, true],
    ['Cover 3', 'Cover 3'],
    ['1=2', '1=2'],
  ])('is made harmless, numbers stay numbers: %j -> %j', (given, wanted) => {
    expect(harmless(given)).toBe(wanted);
  });

  it('reads again as it was', () => {
    fc.assert(
      fc.property(fc.string(), (text) => unharmed(String(harmless(text))) === text || text.startsWith("'")),
    );
  });
});

const PLAYS = {
  columns: ['playNumber', 'concept', 'gain', 'note', 'touchdown'],
  rows: [
    [1, 'Stick', -3, 'says "go", then stops', false],
    [2, '=Smash', 12, 'two\nlines; and, marks', true],
    [3, 'Señor Y-cross', null, "Núñez's block", null],
  ] as Cell[][],
};
const AS_TEXT = [
  ['1', 'Stick', '-3', 'says "go", then stops', 'no'],
  ['2', '=Smash', '12', 'two\nlines; and, marks', 'yes'],
  ['3', 'Señor Y-cross', '', "Núñez's block", ''],
];

describe('a table of plays', () => {
  it('as CSV has a byte order mark, quotes where needed, and reads again as it was', async () => {
    expect(await writeCsv(at('plays.csv'), PLAYS)).toEqual({ ok: true, value: undefined });
    const text = readFileSync(at('plays.csv'), 'utf8');
    expect(text).toBe(csvText(PLAYS));
    expect(text.startsWith('\uFEFFplayNumber,concept,gain,note,touchdown\r\n')).toBe(true);
    expect(text).toContain("'=Smash");
    expect(await read('plays.csv')).toEqual({ columns: PLAYS.columns, rows: AS_TEXT });
  });

  it('as XLSX keeps numbers as numbers, holds no formula, and reads again as it was', async () => {
    expect(await writeXlsx(at('plays.xlsx'), PLAYS)).toEqual({ ok: true, value: undefined });
    const book = new ExcelJS.Workbook();
    await book.xlsx.readFile(at('plays.xlsx'));
    const row = book.worksheets[0]!.getRow(3);
    expect([row.getCell(1).value, row.getCell(2).value, row.getCell(3).value]).toEqual([2, "'=Smash", 12]);
    expect(row.getCell(2).type).toBe(ExcelJS.ValueType.String);
    const sheet = await read('plays.xlsx');
    expect(sheet.columns).toEqual(PLAYS.columns);
    expect(sheet.rows.map((cells) => cells.slice(0, 4))).toEqual(AS_TEXT.map((cells) => cells.slice(0, 4)));
  });

  it.each([
    ['csv', writeCsv],
    ['xlsx', writeXlsx],
  ])('leaves no half file where it can not be written: %s', async (ending, write) => {
    const result = await write(at(`no/where.${ending}`), PLAYS);
    expect(result.ok ? 'written' : result.problem.code).toBe('target-unwritable');
    expect(readdirSync(folder).filter((name) => name.includes('.part'))).toEqual([]);
  });
});

describe('a sheet from elsewhere', () => {
  const WANTED = {
    columns: ['Play', 'Call'],
    rows: [
      ['1', 'Übung, kurz'],
      ['2', 'Zone'],
    ],
  };
  it.each([
    ['commas', 'Play,Call\r\n1,"Übung, kurz"\r\n2,Zone\r\n'],
    ['semicolons', 'Play;Call\n1;Übung, kurz\n2;Zone\n'],
    ['tabs', 'Play\tCall\n1\tÜbung, kurz\n\n2\tZone'],
    ['a byte order mark', '\uFEFFPlay,Call\n1,"Übung, kurz"\n2,Zone'],
    ['Windows-1252', Buffer.from('Play;Call\n1;Übung, kurz\n2;Zone\n', 'latin1')],
    ['UTF-16', Buffer.from('\uFEFFPlay\tCall\n1\tÜbung, kurz\n2\tZone\n', 'utf16le')],
  ])('is read whatever it is written with: %s', async (_, bytes) => {
    expect(await read('theirs.csv', bytes)).toEqual(WANTED);
  });

  it('with headings that repeat or are missing gets names for all of them', async () => {
    expect((await read('theirs.csv', 'Play,,Call,Call\n1,2,3,4\n')).columns).toEqual([
      'Play',
      'column 2',
      'Call',
      'Call (2)',
    ]);
  });

  it('as XLSX gives the results of formulas, and clocks and dates as text', async () => {
    const book = new ExcelJS.Workbook();
    book.addWorksheet('empty');
    const sheet = book.addWorksheet('plays');
    sheet.addRow(['Play', 'Gain', 'Clock', 'Day']);
    sheet.addRow([
      1,
      { formula: 'A2+5', result: 6 },
      new Date(Date.UTC(1899, 11, 30, 7, 42, 0)),
      new Date(Date.UTC(2025, 8, 6)),
    ]);
    await book.xlsx.writeFile(at('theirs.xlsx'));
    expect((await read('theirs.xlsx')).rows).toEqual([['1', '6', '7:42:00', '2025-09-06']]);
  });

  it.each([
    ['is not there', 'nowhere.csv', null, 'sheet-missing'],
    ['is empty', 'empty.csv', '', 'sheet-empty'],
    ['holds no text', 'binary.csv', Buffer.from([1, 0, 2, 0, 0, 3]), 'sheet-unreadable'],
    [
      'is an archive of something else',
      'other.xlsx',
      Buffer.from('PK\u0003\u0004 but no sheet', 'latin1'),
      'sheet-unreadable',
    ],
  ])('that %s is refused with a reason', async (_, name, bytes, code) => {
    if (bytes !== null) writeFileSync(at(name), bytes);
    const result = await readSheet(at(name));
    expect(result.ok ? 'read' : result.problem.code).toBe(code);
    expect(result.ok ? '' : result.problem.message).toContain(name);
  });
});
