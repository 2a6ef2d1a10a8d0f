import { extname } from 'node:path';
import { type MetricDefinition, metricOf } from '../../../football/metrics/definitions.ts';
import { SMALL_SAMPLE } from '../../../football/metrics/metric.ts';
import { settingInWords } from '../../../football/metrics/settings.ts';
import { ProblemError } from '../../../football/result.ts';
import { keyLabel } from '../../../football/vocabulary/key-label.ts';
import { csvText } from '../../export/tables/csv.ts';
import { writePivotPdf } from '../../export/tables/pivot-pdf.ts';
import { type PivotSheet, type SheetNumber, writePivotXlsx } from '../../export/tables/pivot-sheet.ts';
import { writeWhole } from '../../export/tables/write-file.ts';
import type { KeyValue, PivotRequest } from '../pivot-views.ts';
import type { Station } from '../station.ts';
import { pivot } from './pivot.ts';
import { settings } from './settings.ts';

/** The table with its words: what every export and the command line show. @throws ProblemError as `pivot` */
export function pivotSheet(station: Station, request: PivotRequest): PivotSheet {
  const view = pivot(station, request);
  const metrics = view.metrics.flatMap((key) => metricOf(key) ?? []);
  const fields = station.vocabulary().fields;
  const label = (field: string) => (key: KeyValue) => keyLabel(fields.get(field), key);
  const rowLabels = request.rows.map(label);
  const colLabels = request.cols.map(label);
  const name = (field: string) => fields.get(field)?.label ?? field;
  const at = new Map(view.cells.map((cell) => [`${cell.row} ${cell.col}`, cell]));
  // the whole stands last on paper, as under any sum
  const rowOrder = [...view.rows.keys()].slice(1).concat(view.rows.length > 0 ? [0] : []);
  const colOrder = [...view.cols.keys()].slice(1).concat(view.cols.length > 0 ? [0] : []);
  const chosen = settings(station);
  return {
    title: `${request.where.trim() || 'Every play'}, by ${[...request.rows, ...request.cols].map(name).join(', ')}`,
    rowFields: request.rows.map(name),
    groups: colOrder.map((col) => {
      const { key } = view.cols[col]!;
      const words = key.map((value, i) => colLabels[i]!(value));
      if (request.cols.length === 0) return '';
      return key.length === request.cols.length ? words.join(' · ') : [...words, 'all'].join(' · ');
    }),
    metrics: metrics.map((metric) => ({
      name: metric.name,
      kind: metric.kind,
      decimals: metric.decimals,
      per: metric.per ?? '',
      quotient: metric.denominator !== undefined && metric.compute === undefined && !metric.ofTotal,
      adds: metric.kind === 'count' || metric.kind === 'sum',
    })),
    rows: rowOrder.map((row) => ({
      labels: view.rows[row]!.key.map((value, i) => rowLabels[i]!(value)),
      plays: view.rows[row]!.plays,
      cells: colOrder.flatMap(
        (col): (SheetNumber | null)[] => at.get(`${row} ${col}`)?.numbers.slice() ?? metrics.map(() => null),
      ),
    })),
    notes: [
      ...metrics.map((metric) => noteOf(metric, settingInWords(metric.setting, chosen))),
      ...(view.baseline ? [`Difference to ${view.baseline.label}, ${view.baseline.plays} plays.`] : []),
      `Numbers on fewer than ${SMALL_SAMPLE} are marked *: read them with care.`,
    ],
  };
}

function noteOf(metric: MetricDefinition, setting: string): string {
  return [`${metric.name}: ${metric.formula}.`, metric.caution, setting ? `Set to: ${setting}.` : '']
    .filter((part) => part !== '')
    .join(' ');
}

/**
 * Writes the table as a .csv, .xlsx or .pdf file, whole or not at all.
 * @throws ProblemError `export-unknown`, `target-unwritable`, `disk-full`, or as `pivot`
 */
export async function writePivot(
  station: Station,
  request: PivotRequest,
  to: string,
): Promise<{ path: string; rows: number }> {
  const sheet = pivotSheet(station, request);
  const ending = extname(to).toLowerCase();
  const write = WRITERS[ending];
  if (!write) {
    throw new ProblemError({
      code: 'export-unknown',
      message: `A table cannot be written as ${ending || 'a file without an ending'}.`,
      kept: 'Nothing was written.',
      next: 'End the name with .csv, .xlsx or .pdf.',
    });
  }
  const written = await write(to, sheet);
  if (!written.ok) throw new ProblemError(written.problem);
  return { path: to, rows: sheet.rows.length };
}

const WRITERS: Readonly<Record<string, typeof writePivotXlsx>> = {
  '.xlsx': writePivotXlsx,
  '.pdf': writePivotPdf,
  '.csv': (to, sheet) => writeWhole(to, csvText(flat(sheet))),
};

/** One line a row: its labels, its plays, then each number with the count it stands on. */
function flat(sheet: PivotSheet) {
  const heads = sheet.groups.flatMap((group) =>
    sheet.metrics.flatMap((metric) => {
      const named = [group, metric.name].filter(Boolean).join(' · ');
      return metric.adds ? [named] : [named, `${named}: of`];
    }),
  );
  const round = (value: number | null | undefined) => (value == null ? null : Number(value.toFixed(6)));
  return {
    columns: [...sheet.rowFields, 'Plays', ...heads],
    rows: sheet.rows.map((row) => [
      ...sheet.rowFields.map((_, i) => row.labels[i] ?? (row.labels.length === i ? 'all' : '')),
      row.plays,
      ...row.cells.flatMap((number, i) => {
        const metric = sheet.metrics[i % sheet.metrics.length]!;
        return metric.adds ? [round(number?.value)] : [round(number?.value), number?.base ?? null];
      }),
    ]),
  };
}
