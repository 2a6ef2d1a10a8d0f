import type { CountedGroup } from '../../../db/columns/table.ts';
import { standsBehind } from '../../../football/metrics/behind.ts';
import {
  METRICS,
  type MetricDefinition,
  metricOf,
  metricValue,
} from '../../../football/metrics/definitions.ts';
import { COUNTERS } from '../../../football/metrics/facts.ts';
import { EVERY_PLAY, type Question } from '../../../football/question/ast.ts';
import { parseQuestion } from '../../../football/question/parse.ts';
import { ProblemError } from '../../../football/result.ts';
import type { Station } from '../station.ts';
import type { AnswerView, MetricCell, TableRequest, TableRow, TableView } from '../views.ts';

/** @throws ProblemError pointing at the word that cannot be read */
export function readQuestion(station: Station, where: string): Question {
  if (where.trim() === '') return EVERY_PLAY;
  const parsed = parseQuestion(where, station.vocabulary().fields);
  if (!parsed.ok) throw new ProblemError(parsed.problem);
  return parsed.value;
}

/** The metrics of the efficiency table, in its order; the issue of other metrics is the same list. */
export function metricsOrProblem(keys: readonly string[] | undefined): MetricDefinition[] {
  if (!keys || keys.length === 0) return [...METRICS];
  return keys.map((key) => {
    const metric = metricOf(key);
    if (metric) return metric;
    throw new ProblemError({
      code: 'metric-unknown',
      message: `There is no metric ${key}.`,
      next: `The metrics are ${METRICS.map((m) => m.key).join(', ')}.`,
    });
  });
}

/** The plays that a question finds, in order, and what they add up to. */
export function answer(station: Station, where: string, metrics?: readonly string[]): AnswerView {
  const wanted = metricsOrProblem(metrics);
  const { total } = station.columns().table(readQuestion(station, where), { rows: [], counters: COUNTERS });
  return { where, count: total.plays, ...cell(total, wanted) };
}

/** The line of numbers of exactly these plays. */
export function lineOf(
  station: Station,
  playIds: readonly string[],
  metrics?: readonly string[],
): MetricCell {
  return { ...cell(station.columns().countPlays(playIds, COUNTERS), metricsOrProblem(metrics)), playIds };
}

/** Of these plays the ones that the metric's number is made of, in the order given. @throws ProblemError `metric-unknown` */
export function playsBehind(station: Station, playIds: readonly string[], metricKey: string): string[] {
  const [metric] = metricsOrProblem([metricKey]);
  const { counters } = metric!;
  const columns = station.columns();
  return playIds.filter((playId) => {
    const { sums } = columns.countPlays([playId], counters);
    return standsBehind(metric!, (counter) => sums[counters.indexOf(counter)] ?? 0);
  });
}

/** @throws ProblemError `group-unknown`, `metric-unknown`, or why the question cannot be read */
export function table(station: Station, request: TableRequest): TableView {
  const metrics = metricsOrProblem(request.metrics);
  const group = (key: string) => {
    const field = station.vocabulary().fields.get(key);
    if (field) return { field: key, families: request.families === true && field.kind === 'term' };
    const near = station.vocabulary().fields.nearest(key);
    throw new ProblemError({
      code: 'field-unknown',
      message: `There is no field ${key}.`,
      next: near ? `Did you mean ${near}?` : '`tapebook fields` lists all fields.',
    });
  };
  const counted = station.columns().table(readQuestion(station, request.where), {
    rows: [group(request.rows)],
    ...(request.cols ? { cols: [group(request.cols)] } : {}),
    counters: COUNTERS,
  });
  const rowTotals = counted.rows.map(
    (r): TableRow => ({ key: r.key[0] ?? null, ...cell(r, metrics, counted.total) }),
  );
  return {
    rows: request.cols
      ? counted.cells.map((c) => ({
          key: c.row[0] ?? null,
          col: c.col[0] ?? null,
          ...cell(c, metrics, counted.total),
        }))
      : rowTotals,
    rowTotals,
    colTotals: request.cols
      ? counted.cols.map((c) => ({ key: c.key[0] ?? null, ...cell(c, metrics, counted.total) }))
      : [],
    total: cell(counted.total, metrics),
    metrics: metrics.map((m) => m.key),
  };
}

/** @param total what shares are taken of: the sums of the whole table */
function cell(group: CountedGroup, metrics: readonly MetricDefinition[], total = group): MetricCell {
  const values: Record<string, number | null> = {};
  const intervals: Record<string, readonly [number, number] | null> = {};
  const bases: Record<string, number> = {};
  for (const metric of metrics) {
    const { value, wilson, denominator } = metricValue(metric, group.sums, total.sums);
    values[metric.key] = value;
    if (wilson) intervals[metric.key] = wilson;
    if (denominator !== null) bases[metric.key] = denominator;
  }
  return { metrics: values, intervals, bases, playIds: group.playIds };
}
