import pdfmake from 'pdfmake';
import type { Content, TableCell, TDocumentDefinitions } from 'pdfmake/interfaces';
import { formatMetric, SMALL_SAMPLE } from '../../../football/metrics/metric.ts';
import type { Result } from '../../../football/result.ts';
import type { PivotSheet, SheetNumber } from './pivot-sheet.ts';
import { type TableProblem, writeWhole } from './write-file.ts';

const FONTS = {
  Helvetica: {
    normal: 'Helvetica',
    bold: 'Helvetica-Bold',
    italics: 'Helvetica-Oblique',
    bolditalics: 'Helvetica-BoldOblique',
  },
};

/** Of more columns than this a page is not read any more; the spreadsheet holds them all. */
const PAGE_COLUMNS = 16;

/** Writes a table as pages to print: black on white, heads on every page, what the numbers mean at the end. */
export async function writePivotPdf(target: string, table: PivotSheet): Promise<Result<void, TableProblem>> {
  pdfmake.setFonts(FONTS);
  const bytes = await pdfmake.createPdf(pages(table)).getBuffer();
  return writeWhole(target, new Uint8Array(bytes));
}

function pages(table: PivotSheet): TDocumentDefinitions {
  const width = table.metrics.length;
  const perPage = Math.max(1, Math.floor(PAGE_COLUMNS / width));
  const content: Content[] = [{ text: table.title, fontSize: 14, bold: true, margin: [0, 0, 0, 8] }];
  for (let from = 0; from < table.groups.length; from += perPage) {
    content.push({
      ...part(table, from, Math.min(table.groups.length, from + perPage)),
      margin: [0, 0, 0, 12],
    });
  }
  content.push({ stack: table.notes.map((text) => ({ text, margin: [0, 0, 0, 2] })), fontSize: 7 });
  return {
    content,
    pageOrientation: width * Math.min(perPage, table.groups.length) > 6 ? 'landscape' : 'portrait',
    pageMargins: [36, 36, 36, 40],
    defaultStyle: { font: 'Helvetica', fontSize: 8 },
    footer: (page, of) => ({ text: `${page} / ${of}`, alignment: 'right', margin: [36, 8], fontSize: 7 }),
  };
}

function part(
  table: PivotSheet,
  from: number,
  to: number,
): { table: { headerRows: number; body: TableCell[][] }; layout: string } {
  const width = table.metrics.length;
  const groups = table.groups.slice(from, to);
  const named = groups.some((group) => group !== '');
  const heads: TableCell[][] = [];
  if (named) {
    heads.push([
      '',
      '',
      ...groups.flatMap((text): TableCell[] => [
        { text, bold: true, colSpan: width, alignment: 'center' },
        ...Array.from({ length: width - 1 }, () => ''),
      ]),
    ]);
  }
  heads.push([
    { text: table.rowFields.join(' / '), bold: true },
    { text: 'Plays', bold: true, alignment: 'right' },
    ...groups.flatMap(() =>
      table.metrics.map((m): TableCell => ({ text: m.name, bold: true, alignment: 'right' })),
    ),
  ]);
  const body = table.rows.map((row): TableCell[] => {
    const bold = row.labels.length < table.rowFields.length;
    const depth = Math.max(0, row.labels.length - 1);
    return [
      { text: row.labels.at(-1) ?? 'All plays', bold, margin: [8 * depth, 0, 0, 0] },
      { text: String(row.plays), bold, alignment: 'right' },
      ...row.cells.slice(from * width, to * width).map(
        (number, i): TableCell => ({
          text: printed(table.metrics[i % width]!, number),
          bold,
          alignment: 'right',
        }),
      ),
    ];
  });
  return { table: { headerRows: heads.length, body: [...heads, ...body] }, layout: 'lightHorizontalLines' };
}

/** A number as read: a star where it stands on few. */
export function printed(metric: PivotSheet['metrics'][number], number: SheetNumber | null): string {
  if (!number) return '';
  const small = !metric.adds && number.value !== null && number.base !== null && number.base < SMALL_SAMPLE;
  return `${formatMetric(metric, number.value)}${small ? '*' : ''}`;
}
