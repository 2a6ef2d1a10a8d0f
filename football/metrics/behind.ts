import type { MetricDefinition, Sums } from './metric.ts';

/**
 * Whether a play is one of those that a metric's number is made of, so that a number opens the three sacks of a cell
 * and not all of its calls: for a count the plays that it counts, for a sum those whose value it adds, for a rate or a
 * mean those it is taken over. A formula per drive stands on the plays that open drives and on those that add to it.
 * @param sums the counters of this one play
 */
export function standsBehind(metric: MetricDefinition, sums: Sums): boolean {
  if (metric.denominator) return metric.denominator(sums) !== 0 || metric.numerator(sums) !== 0;
  if (metric.known) return metric.known(sums)[1] !== 0;
  return metric.numerator(sums) !== 0;
}
