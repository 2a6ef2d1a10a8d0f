/** A cell and a metric in a sentence: what the hover and the line under the table say. */

import { formatMetric } from '../../../../football/metrics/metric.ts';
import type { GridCell, ShownMetric } from './table-layout.ts';

export function plays(count: number): string {
  return count === 1 ? '1 play' : `${count.toLocaleString('en-US')} plays`;
}

/** `Success rate 54.5 % of 33 (95 %: 38.0 % to 70.2 %), few plays`. */
export function cellInWords(metric: ShownMetric, cell: GridCell, baseline = ''): string {
  if (cell.plays === 0) return `${metric.name}: no plays here`;
  if (cell.value === null) return `${metric.name}: nothing to count among ${plays(cell.plays)}`;
  const unit =
    metric.kind === 'rate' || metric.unit === '' || metric.unit === 'plays' ? '' : ` ${metric.unit}`;
  const parts = [`${metric.name} ${formatMetric(metric, cell.value)}${unit}`];
  if (cell.base !== null) parts.push(`of ${cell.base.toLocaleString('en-US')}`);
  const words = [parts.join(' ')];
  if (cell.interval) {
    const [low, high] = cell.interval;
    words.push(`95 % interval ${formatMetric(metric, low)} to ${formatMetric(metric, high)}`);
  }
  if (cell.difference !== null) {
    const points = metric.kind === 'rate' ? ' points' : '';
    words.push(`${differenceText(metric, cell.difference)}${points} against ${baseline || 'the baseline'}`);
  }
  if (cell.small) words.push('few plays, read with care');
  return words.join(' · ');
}

/** What the metric is, as its one definition has it. */
export function metricInWords(metric: ShownMetric, settingWords = ''): string {
  return [
    `${metric.name}: ${metric.formula}.`,
    metric.per ? `Over ${metric.per}.` : '',
    metric.caution,
    settingWords ? `Set to: ${settingWords}.` : '',
    metric.source ? `Source: ${metric.source}.` : '',
  ]
    .filter((part) => part !== '')
    .join(' ');
}

/** `+4.5`: a difference in the metric's unit, without the percent sign, which would say something else. */
export function differenceText(metric: ShownMetric, by: number): string {
  const text = Math.abs(by).toFixed(metric.decimals);
  return Number(text) === 0 ? `±${text}` : `${by > 0 ? '+' : '−'}${text}`;
}
