/** Which of a cell's plays a metric's number is made of: the three sacks of a cell, not all of its calls. */

import { COUNTER_INDEX, playFacts } from '../../../../football/metrics/facts.ts';
import type { MetricDefinition, Sums } from '../../../../football/metrics/metric.ts';
import type { MetricSettings } from '../../../../football/metrics/settings.ts';
import type { PlayRecord } from '../../../../football/play.ts';

/**
 * Ids of the plays behind the number, in the order given. For a count the plays that it counts; for a rate or a
 * mean the plays it is taken over, its denominator; for a sum the plays whose value it adds.
 */
export function playsBehind(
  metric: MetricDefinition,
  plays: readonly PlayRecord[],
  settings?: MetricSettings,
): string[] {
  return plays.filter((play) => stands(metric, playFacts(play, settings))).map((play) => play.playId);
}

function stands(metric: MetricDefinition, facts: Float64Array): boolean {
  const read: Sums = (counter) => facts[COUNTER_INDEX[counter]] ?? 0;
  if (metric.denominator) return metric.denominator(read) !== 0;
  if (metric.known) return metric.known(read)[1] !== 0;
  return metric.numerator(read) !== 0;
}
