import { MAIN_METRICS } from './main-metrics.ts';
import type { MetricDefinition } from './metric.ts';
import { PASSING_METRICS } from './passing-metrics.ts';
import { DRIVE_METRICS, RUNNING_METRICS, SITUATION_METRICS } from './play-metrics.ts';

export { formatMetric, type MetricDefinition, type MetricValue, metricValue } from './metric.ts';
export { wilson } from './wilson.ts';

/** Every metric over plays, in the order in which lists show them. */
export const METRICS: readonly MetricDefinition[] = [
  ...MAIN_METRICS,
  ...PASSING_METRICS,
  ...RUNNING_METRICS,
  ...SITUATION_METRICS,
  ...DRIVE_METRICS,
];

const BY_KEY: ReadonlyMap<string, MetricDefinition> = new Map(METRICS.map((m) => [m.key, m]));

/** The metric of that key; undefined where there is none. */
export function metricOf(key: string): MetricDefinition | undefined {
  return BY_KEY.get(key);
}
