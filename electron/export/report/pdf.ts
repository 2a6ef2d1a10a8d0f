import { createRequire } from 'node:module';
import type { Content, TableCell, TDocumentDefinitions } from 'pdfmake/interfaces.js';
import type { Report, ReportCell, ReportSection, ReportTable } from '../../../football/report/report.ts';

const require = createRequire(import.meta.url);

interface PdfMaker {
  setFonts(fonts: unknown): void;
  setLocalAccessPolicy(allowed: (path: string) => boolean): void;
  setUrlAccessPolicy(allowed: (url: string) => boolean): void;
  createPdf(document: TDocumentDefinitions): { getBuffer(): Promise<Buffer> };
}

/** The font comes with the library that writes the page; nothing else is read from this machine, and nothing from a network. */
function maker(): PdfMaker {
  const pdfmake = require('pdfmake') as PdfMaker;
  const fonts = require('pdfmake/fonts/Roboto.js') as { Roboto: Record<string, string> };
  const files = new Set(Object.values(fonts.Roboto));
  pdfmake.setFonts(fonts);
  pdfmake.setLocalAccessPolicy((path) => files.has(path));
  pdfmake.setUrlAccessPolicy(() => false);
  return pdfmake;
}

const GREY = '#555555';

function cell({ text, detail, small }: ReportCell, head: boolean): TableCell {
  const main = { text: small ? `${text} *` : text, bold: head };
  const alignment = head ? 'left' : /^[\d+\-–−]/.test(text) ? 'right' : 'left';
  return detail === undefined
    ? { ...main, alignment }
    : { stack: [main, { text: detail, fontSize: 6.5, color: GREY }], alignment };
}

/** The head takes what the words need; the other columns share the rest, so that none is clipped. */
function widths(table: ReportTable): (string | number)[] {
  const words = table.columns.map((_, i) =>
    table.rows.some((row) => row[i]?.playIds === null && (row[i]?.text.length ?? 0) > 12),
  );
  if (words.some((long, i) => long && i > 0)) return table.columns.map((_, i) => (words[i] ? '*' : 'auto'));
  return table.columns.map((_, i) => (i === 0 ? 110 : '*'));
}

function tableContent(table: ReportTable): Content[] {
  return [
    ...(table.caption === null
      ? []
      : [
          {
            text: table.caption,
            bold: true,
            fontSize: 9.5,
            margin: [0, 5, 0, 2] as [number, number, number, number],
          },
        ]),
    {
      table: {
        headerRows: 1,
        dontBreakRows: true,
        keepWithHeaderRows: 1,
        widths: widths(table),
        body: [
          table.columns.map((text, i) => ({
            text,
            bold: true,
            alignment: i === 0 ? 'left' : 'right',
            fontSize: 7.5,
          })),
          ...table.rows.map((row) => row.map((each, i) => cell(each, i === 0))),
        ],
      },
      layout: {
        hLineWidth: (i: number) => (i === 1 ? 0.9 : 0.35),
        vLineWidth: () => 0,
        hLineColor: () => '#999999',
        paddingLeft: () => 3,
        paddingRight: () => 3,
        paddingTop: () => 1.6,
        paddingBottom: () => 1.6,
      },
      fontSize: 8,
    },
  ];
}

function sectionContent(section: ReportSection): Content[] {
  return [
    { text: section.title, fontSize: 12, bold: true, margin: [0, 12, 0, 1], headlineLevel: 1 },
    ...(section.note === ''
      ? []
      : [
          {
            text: section.note,
            fontSize: 7,
            color: GREY,
            margin: [0, 0, 0, 3] as [number, number, number, number],
          },
        ]),
    ...(section.empty === null
      ? section.tables.flatMap(tableContent)
      : [{ text: section.empty, italics: true, fontSize: 8.5 }]),
  ];
}

/** A report as printed pages, US letter. The same report gives the same bytes. */
export async function reportPdf(report: Report): Promise<Buffer> {
  const made = new Date(`${report.made}T00:00:00Z`);
  const document: TDocumentDefinitions = {
    pageSize: 'LETTER',
    pageMargins: [36, 46, 36, 40],
    info: {
      title: report.title,
      creator: 'Tapebook',
      producer: 'Tapebook',
      creationDate: made,
      modDate: made,
    },
    language: 'en',
    defaultStyle: { font: 'Roboto', fontSize: 9 },
    header: {
      text: `${report.title} · made ${report.made}`,
      fontSize: 7.5,
      color: GREY,
      margin: [36, 20, 36, 0],
    },
    footer: (page: number, pages: number) => ({
      text: `page ${page} of ${pages}`,
      alignment: 'center',
      fontSize: 7.5,
      color: GREY,
    }),
    // a heading at the foot of a page belongs to the next one
    pageBreakBefore: (node) => node.headlineLevel === 1 && (node.startPosition?.verticalRatio ?? 0) > 0.8,
    content: [
      { text: report.title, fontSize: 18, bold: true },
      {
        text: `${report.plays} plays · ${report.games.length === 0 ? 'no games' : report.games.join(', ')} · template ${report.template}`,
        margin: [0, 2, 0, 4],
      },
      { ul: [...report.cautions], fontSize: 8, color: GREY },
      ...report.sections.flatMap(sectionContent),
    ],
  };
  return maker().createPdf(document).getBuffer();
}
