import type { CountedGroup } from '../../../db/columns/table.ts';
import { loadPlaysById } from '../../../db/repositories/play-records.ts';
import { COUNTER_INDEX, COUNTERS, type Counter } from '../../../football/metrics/facts.ts';
import { explosiveInWords } from '../../../football/metrics/settings.ts';
import { wilson } from '../../../football/metrics/wilson.ts';
import { both } from '../../../football/question/ast.ts';
import { counted, metricCell, shareCell, word } from '../../../football/report/cells.ts';
import { situationWords, tagWords } from '../../../football/report/play-words.ts';
import { playsInWords, type ReportCell, type ReportTable } from '../../../football/report/report.ts';
import { type ReportSituation, situationsOf } from '../../../football/report/situations.ts';
import type { TemplateSection } from '../../../football/report/template.ts';
import type { Station } from '../station.ts';
import { metricsOrProblem, playsBehind, readQuestion } from './answers.ts';
import { settings } from './settings.ts';

/** One section of a template on its plays. */
export interface SectionWork {
  readonly station: Station;
  readonly section: TemplateSection;
  /** the whole question: team, games and the section's own */
  readonly where: string;
  readonly smallSample: number;
}

export interface Filled {
  readonly note: string;
  readonly tables: readonly ReportTable[];
  readonly playIds?: readonly string[];
}

interface Row extends CountedGroup {
  readonly label: string;
}

const SMALL = 'A number marked with * stands on few plays.';

/** The rows of a section: the values of a field by count, or the situations of a set in their order. */
function rowsOf({ station, section, where }: SectionWork): Row[] {
  const question = readQuestion(station, where);
  const situations = situationsOf(section.rows);
  if (situations) {
    return situations
      .map((s) => ({ label: s.label, ...groupOf(station, where, s) }))
      .filter((row) => row.plays > 0);
  }
  // what is ranked or measured is the call itself; what is shared out is counted by family
  const families = section.shape === 'shares' || section.rows !== 'concept';
  const table = station.columns().table(question, {
    rows: [{ field: fieldOf(station, section.rows), families }],
    counters: COUNTERS,
  });
  return table.rows
    .filter((row) => row.key[0] !== null)
    .map((row) => ({ ...row, label: String(row.key[0]) }))
    .sort((a, b) => b.plays - a.plays);
}

function groupOf(station: Station, where: string, situation: ReportSituation): CountedGroup {
  const question = both(readQuestion(station, where), readQuestion(station, situation.where));
  return station.columns().table(question, { rows: [], counters: COUNTERS }).total;
}

function fieldOf(station: Station, key: string): string {
  // the check of a template refuses a field that is not there; one that was removed since shows no rows
  return station.vocabulary().fields.get(key) ? key : 'concept';
}

const SHOWN_VALUES = 5;

export function fillShares(work: SectionWork): Filled {
  const { station, section, where, smallSample } = work;
  const field = station.vocabulary().fields.get(section.cols ?? '');
  if (!field) return { note: '', tables: [] };
  const known = `(${where}) AND ${field.key} IS NOT NULL`;
  const values = (question: string, extra?: ReportSituation) =>
    station
      .columns()
      .table(
        extra
          ? both(readQuestion(station, question), readQuestion(station, extra.where))
          : readQuestion(station, question),
        { rows: [{ field: field.key, families: true }], counters: [] },
      ).rows;
  const all = [...values(known)].sort((a, b) => b.plays - a.plays);
  const shown = all.slice(0, SHOWN_VALUES).map((v) => String(v.key[0]));
  const hasOther = all.length > SHOWN_VALUES;
  const cells = (
    groups: readonly { key: readonly unknown[]; playIds: readonly string[] }[],
  ): ReportCell[] => {
    const playIds = (test: (value: string) => boolean) =>
      groups.filter((g) => test(String(g.key[0]))).flatMap((g) => g.playIds);
    const whole = groups.reduce((sum, g) => sum + g.playIds.length, 0);
    const of = (ids: readonly string[]) => shareCell(ids, whole, smallSample);
    return [
      ...shown.map((value) => of(playIds((v) => v === value))),
      ...(hasOther ? [of(playIds((v) => !shown.includes(v)))] : []),
    ];
  };
  const allIds = station.columns().playIds(readQuestion(station, known));
  const rows = rowsOf({ ...work, where: known })
    .slice(0, section.length)
    .map((row) => [
      { ...counted(row.label, row.playIds), detail: playsInWords(row.plays) },
      ...cells(grouped(station, row.playIds, field.key)),
    ]);
  const total = [{ ...counted('All', allIds), detail: playsInWords(allIds.length) }, ...cells(all)];
  return {
    note: `Share of the plays of each row on which ${field.label.toLowerCase()} is tagged, families taken together; below it the count and the 95 % Wilson interval. ${SMALL}`,
    tables:
      allIds.length === 0
        ? []
        : [
            {
              caption: null,
              columns: ['', ...shown, ...(hasOther ? ['other'] : [])],
              rows: [...rows, total],
            },
          ],
    playIds: allIds,
  };
}

/** Plays by the family of their value of a field, in the order given. */
function grouped(
  station: Station,
  playIds: readonly string[],
  field: string,
): { key: readonly unknown[]; playIds: readonly string[] }[] {
  const columns = station.columns();
  const isTerm = station.vocabulary().fields.get(field)?.kind === 'term';
  const groups = new Map<string, string[]>();
  for (const id of playIds) {
    const value = columns.valueOf(id, field);
    if (value === null) continue;
    const key = isTerm ? columns.families.rootOf(field, String(value)) : String(value);
    const group = groups.get(key);
    if (group) group.push(id);
    else groups.set(key, [id]);
  }
  return [...groups].map(([key, ids]) => ({ key: [key], playIds: ids }));
}

export function fillEfficiency(work: SectionWork): Filled {
  const { station, section, smallSample } = work;
  const metrics = metricsOrProblem(section.metrics);
  const rows = rowsOf(work).filter((row) => sum(row, 'calls') > 0);
  const cells = (row: CountedGroup) =>
    metrics.map((metric) =>
      metricCell(metric, row.sums, playsBehind(station, row.playIds, metric.key), smallSample),
    );
  const all = station
    .columns()
    .table(readQuestion(station, work.where), { rows: [], counters: COUNTERS }).total;
  const head = (label: string, row: CountedGroup) => ({
    ...counted(label, row.playIds),
    detail: playsInWords(row.plays),
  });
  return {
    note: `Ordered by plays. Rates carry the plays they stand on and the 95 % Wilson interval. ${SMALL}`,
    tables:
      rows.length === 0
        ? []
        : [
            {
              caption: null,
              columns: ['', ...metrics.map((m) => m.name)],
              rows: [
                ...rows.slice(0, section.length).map((row) => [head(row.label, row), ...cells(row)]),
                [head('All', all), ...cells(all)],
              ],
            },
          ],
  };
}

function sum(group: CountedGroup, counter: Counter): number {
  return group.sums[COUNTER_INDEX[counter]] ?? 0;
}

const RANKED = ['', 'Calls', 'Success', 'At least', 'At most', 'Yards a call', 'Explosive'];

interface Scored extends Row {
  readonly low: number;
  readonly high: number;
}

function scored(rows: readonly Row[]): Scored[] {
  return rows.flatMap((row) => {
    const interval = wilson(sum(row, 'successes'), sum(row, 'successKnown'));
    return interval ? [{ ...row, low: interval[0], high: interval[1] }] : [];
  });
}

function rankedRow(station: Station, row: Scored, smallSample: number): ReportCell[] {
  const known = sum(row, 'successKnown');
  const successful = onlyWith(station, row.playIds, 'successKnown');
  const yards = sum(row, 'gainKnown');
  const small = known < smallSample ? { small: true } : {};
  return [
    counted(row.label, row.playIds),
    counted(String(sum(row, 'calls')), playsBehind(station, row.playIds, 'calls')),
    {
      text: `${Math.round((100 * sum(row, 'successes')) / known)} %`,
      detail: `${sum(row, 'successes')} of ${known}`,
      playIds: successful,
      ...small,
    },
    { ...counted(`${Math.round(100 * row.low)} %`, successful), ...small },
    { ...counted(`${Math.round(100 * row.high)} %`, successful), ...small },
    {
      text: yards > 0 ? (sum(row, 'yards') / yards).toFixed(1) : '–',
      detail: `n ${yards}`,
      playIds: onlyWith(station, row.playIds, 'gainKnown'),
    },
    counted(String(sum(row, 'explosives')), onlyWith(station, row.playIds, 'explosives')),
  ];
}

/** The plays on which a counter is not 0, in the order given. */
function onlyWith(station: Station, playIds: readonly string[], counter: Counter): string[] {
  const columns = station.columns();
  return playIds.filter((id) => columns.countPlays([id], [counter]).sums[0] !== 0);
}

const byLow = (a: Scored, b: Scored) => b.low - a.low || b.plays - a.plays;
const byHigh = (a: Scored, b: Scored) => a.high - b.high || b.plays - a.plays;

export function fillRanked(work: SectionWork): Filled {
  const rows = scored(rowsOf(work));
  const table = (caption: string, order: (a: Scored, b: Scored) => number) => ({
    caption,
    columns: RANKED,
    rows: [...rows]
      .sort(order)
      .slice(0, work.section.length)
      .map((row) => rankedRow(work.station, row, work.smallSample)),
  });
  return {
    note: `Best by the lower bound of the 95 % Wilson interval of the success rate (Wilson 1927), worst by the upper bound, so that a rate on few plays does not lead. ${SMALL}`,
    tables: rows.length === 0 ? [] : [table('Worked best', byLow), table('Worked least', byHigh)],
  };
}

export function fillCallSheet(work: SectionWork): Filled {
  const { station, section, where } = work;
  const situations = situationsOf(section.rows) ?? [];
  const tables = situations.map((situation): ReportTable => {
    const inside = { ...section, rows: section.cols ?? 'concept' };
    const narrowed = `(${where}) AND (${situation.where})`;
    const rows = scored(rowsOf({ ...work, section: inside, where: narrowed })).sort(byLow);
    return {
      caption: situation.label,
      columns: RANKED,
      rows: rows.slice(0, section.length).map((row) => rankedRow(station, row, work.smallSample)),
    };
  });
  return {
    note: `Numbers describe, they do not promise. Ranked by the lower bound of the 95 % Wilson interval of the success rate (Wilson 1927). ${SMALL}`,
    tables: tables.filter((t) => t.rows.length > 0),
  };
}

export function fillExplosives(work: SectionWork): Filled {
  const { station, section, where } = work;
  const found = onlyWith(station, station.columns().playIds(readQuestion(station, where)), 'explosives');
  const stored = new Map(loadPlaysById(station.library.db, found).map((p) => [p.record.playId, p.record]));
  const plays = found.flatMap((id) => stored.get(id) ?? []).sort((a, b) => (b.gain ?? 0) - (a.gain ?? 0));
  const shown = plays.slice(0, section.length);
  return {
    note: `Explosive: ${explosiveInWords(settings(station))}. ${shown.length < plays.length ? `The ${shown.length} longest of ${plays.length}.` : `All ${plays.length}.`}`,
    tables:
      shown.length === 0
        ? []
        : [
            {
              caption: null,
              columns: ['Gain', 'Play', 'Situation', 'Offense', 'Defense'],
              rows: shown.map((play) => [
                counted(`+${play.gain ?? 0}`, [play.playId]),
                word(
                  `${station.columns().valueOf(play.playId, 'game') ?? ''} ${play.playNumber ?? ''}`.trim(),
                ),
                word(situationWords(play)),
                word(tagWords(play, ['personnel', 'formation', 'concept'])),
                word(tagWords(play, ['front', 'coverage', 'pressure'])),
              ]),
            },
          ],
    playIds: plays.map((p) => p.playId),
  };
}
