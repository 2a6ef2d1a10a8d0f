import { formatMetric, type MetricDefinition, metricValue } from '../metrics/definitions.ts';
import { wilson } from '../metrics/wilson.ts';
import type { ReportCell } from './report.ts';

const percent = (share: number): string => String(Math.round(100 * share));

/** A share of plays: percent, `part of whole`, and the Wilson interval (Wilson 1927), all from the same two counts. */
export function shareCell(playIds: readonly string[], whole: number, smallSample: number): ReportCell {
  const part = playIds.length;
  const interval = wilson(part, whole);
  if (!interval) return { text: '–', playIds: null };
  return {
    text: `${percent(part / whole)} %`,
    detail: `${part} of ${whole} · ${percent(interval[0])}–${percent(interval[1])}`,
    playIds,
    ...(whole < smallSample ? { small: true } : {}),
  };
}

/**
 * A metric over plays.
 * @param sums one number per counter, in the order of `COUNTERS`
 * @param playIds the plays that the number is made of
 */
export function metricCell(
  metric: MetricDefinition,
  sums: ArrayLike<number>,
  playIds: readonly string[],
  smallSample: number,
): ReportCell {
  const { value, denominator, wilson: interval } = metricValue(metric, sums);
  const text = formatMetric(metric, value);
  if (denominator === null) return { text, playIds };
  const bounds = interval ? ` · ${interval[0].toFixed(0)}–${interval[1].toFixed(0)}` : '';
  return {
    text,
    detail: `n ${denominator}${bounds}`,
    playIds,
    ...(denominator < smallSample ? { small: true } : {}),
  };
}

export const word = (text: string): ReportCell => ({ text, playIds: null });

export const counted = (text: string, playIds: readonly string[]): ReportCell => ({ text, playIds });
