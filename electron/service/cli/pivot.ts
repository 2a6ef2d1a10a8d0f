import { resolve } from 'node:path';
import type { Command } from 'commander';
import { printed } from '../../export/tables/pivot-pdf.ts';
import { PICTURES, picture } from '../actions/pictures.ts';
import { pivot } from '../actions/pivot.ts';
import { pivotSheet, writePivot } from '../actions/pivot-sheets.ts';
import type { PictureView } from '../picture-views.ts';
import type { Baseline, PivotRequest } from '../pivot-views.ts';
import type { Station } from '../station.ts';
import { list } from './common.ts';
import { asColumns, type Exit, type Output } from './output.ts';

export interface PivotOptions {
  readonly rows?: string[];
  readonly columns?: string[];
  readonly metrics?: string[];
  readonly where?: string;
  readonly families?: boolean;
  readonly baseline?: string;
  readonly picture?: string;
  readonly csv?: string;
  readonly xlsx?: string;
  readonly pdf?: string;
}

const USUAL = ['calls', 'completionPct', 'yards', 'successRate', 'explosiveRate'];

/** Lets `ask` answer with a table of several fields a side, or with a picture. */
export function pivotOptions(ask: Command): Command {
  return ask
    .option('--rows <fields>', 'a table: one to three fields, comma between', list)
    .option('--columns <fields>', 'up to two fields, comma between', list)
    .option('--metrics <keys>', 'which metrics, comma between', list)
    .option('--where <sql>', 'the question, as a WHERE clause')
    .option('--families', 'count a term as its family')
    .option('--baseline <what>', 'difference to: rest, last-season, opponent:<name>, or a question')
    .option('--picture <name>', `instead of a table: ${PICTURES.map((each) => each.name).join(', ')}`)
    .option('--csv <file>', 'write the table as CSV')
    .option('--xlsx <file>', 'write it as a spreadsheet with formulas')
    .option('--pdf <file>', 'write it as pages to print');
}

/** Answers with the table or the picture that the options ask for; null when they ask for neither. */
export async function pivotAnswer(
  station: Station,
  output: Output,
  where: string,
  options: PivotOptions,
): Promise<Exit | null> {
  if (options.picture !== undefined) {
    const drawn = picture(station, where, options.picture);
    output.print(drawn, () => pictureLines(drawn));
    return 0;
  }
  const { rows = [], columns = [], metrics, baseline, csv, xlsx, pdf } = options;
  const files = [csv, xlsx, pdf].filter((to) => to !== undefined);
  if (rows.length + columns.length + files.length === 0 && !metrics && baseline === undefined) return null;
  const request: PivotRequest = {
    where,
    rows,
    cols: columns,
    metrics: metrics ?? USUAL,
    families: options.families ?? false,
    baseline: baseline === undefined ? null : baselineNamed(baseline),
  };
  const view = pivot(station, request);
  output.print(view, () => lines(pivotSheet(station, request), view));
  for (const to of files) output.say(`Wrote ${(await writePivot(station, request, resolve(to))).path}.`);
  return 0;
}

function baselineNamed(text: string): Baseline {
  if (text === 'rest') return { kind: 'rest' };
  if (text === 'last-season') return { kind: 'lastSeason' };
  if (text.startsWith('opponent:'))
    return { kind: 'opponent', opponent: text.slice('opponent:'.length).trim() };
  return { kind: 'question', where: text };
}

function lines(sheet: ReturnType<typeof pivotSheet>, view: ReturnType<typeof pivot>): string[] {
  const against = view.baseline !== null;
  const heads = sheet.groups.flatMap((group) =>
    sheet.metrics.flatMap((metric) => {
      const name = [group, metric.name].filter(Boolean).join(' · ');
      return against && !metric.adds ? [name, '+/-'] : [name];
    }),
  );
  const rows = sheet.rows.map((row) => [
    row.labels.length === 0 ? 'All plays' : `${'  '.repeat(row.labels.length - 1)}${row.labels.at(-1)}`,
    String(row.plays),
    ...row.cells.flatMap((number, i) => {
      const metric = sheet.metrics[i % sheet.metrics.length]!;
      const text = printed(metric, number);
      return against && !metric.adds ? [text, difference(metric.decimals, number)] : [text];
    }),
  ]);
  return [...asColumns([sheet.rowFields.join(' / '), 'plays', ...heads], rows), '', ...sheet.notes];
}

function difference(
  decimals: number,
  number: { value: number | null; against?: number | null } | null,
): string {
  if (number?.value == null || number.against == null) return '';
  const by = number.value - number.against;
  return `${by > 0 ? '+' : ''}${by.toFixed(decimals)}`;
}

function pictureLines({ title, note, unit, bandLabel, panelLabel, marks, needs }: PictureView): string[] {
  if (needs.length > 0) return [title, `Nothing to draw yet: it needs ${needs.join(' and ')} tagged.`];
  const rows = marks.map((mark) => [
    mark.panel,
    mark.band,
    `${mark.value.toFixed(unit === '%' ? 1 : 0)} ${unit}${mark.small ? '*' : ''}`,
    mark.interval ? `${mark.interval[0].toFixed(1)} to ${mark.interval[1].toFixed(1)}` : '',
    String(mark.base),
  ]);
  return [title, note, '', ...asColumns([panelLabel, bandLabel, 'value', '95 % interval', 'of'], rows)];
}
