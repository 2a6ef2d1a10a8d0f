import { COUNTER_INDEX, type Counter } from './facts.ts';
import { wilson } from './wilson.ts';

/**
 * `count`: plays that are something. `sum`: yards and the like added up. `rate`: plays out of plays, in
 * percent, with a Wilson interval. `mean`: a sum over a count. `index`: a published formula with no unit.
 */
export type MetricKind = 'count' | 'sum' | 'rate' | 'mean' | 'index';

/** Reads the sum of a counter. */
export type Sums = (counter: Counter) => number;

/** A metric over plays, defined once; tables, tooltips, reports and the docs page all read this. */
export interface MetricDefinition {
  readonly key: string;
  readonly name: string;
  readonly kind: MetricKind;
  /** in words and signs, as printed */
  readonly formula: string;
  /** what the denominator counts, in words; missing for counts and sums */
  readonly per?: string;
  readonly unit: string;
  readonly decimals: number;
  /** where the definition was read, or that it is common practice */
  readonly source: string;
  /** what a reader must not take it for */
  readonly caution: string;
  /** the counters it is made of */
  readonly counters: readonly Counter[];
  readonly numerator: (sums: Sums) => number;
  /** missing for counts and sums */
  readonly denominator?: (sums: Sums) => number;
  /**
   * For a sum: [how many plays should have a value, how many do]. Where none of some does, the sum is not
   * known rather than 0.
   */
  readonly known?: (sums: Sums) => readonly [number, number];
  /** a rate whose events can fall twice on one play, or are yards, has no Wilson interval */
  readonly interval?: false;
  /** for a formula that is no quotient; the denominator then only says how many plays stand behind it */
  readonly compute?: (sums: Sums) => number | null;
  /** a share: the denominator is read from the sums of the whole table */
  readonly ofTotal?: true;
  /** which choice of the settings it depends on, so that the choice can be shown beside it */
  readonly setting?: 'success' | 'explosive';
}

export interface MetricValue {
  /** null where nothing is known; rates in percent 0..100 */
  readonly value: number | null;
  readonly numerator: number;
  /** plays behind a rate or mean; for counts and sums null */
  readonly denominator: number | null;
  /** 95 % interval of a rate, in percent */
  readonly wilson?: readonly [number, number];
  /** too few plays to lean on */
  readonly small?: boolean;
}

/** The counters that the functions of a definition read. */
export function countersOf(metric: Omit<MetricDefinition, 'counters'>): Counter[] {
  const seen = new Set<Counter>();
  const watch: Sums = (counter) => {
    seen.add(counter);
    return 1;
  };
  metric.numerator(watch);
  metric.denominator?.(watch);
  metric.known?.(watch);
  metric.compute?.(watch);
  return [...seen];
}

/** Rates and means over fewer plays than this are marked (common practice, no source). */
export const SMALL_SAMPLE = 20;

/**
 * A metric from the sums of counters, in the order of `COUNTERS`. Never divides by zero.
 * @param sums one number per counter, as `sumFacts` gives
 * @param total sums over the whole table, which a share is a share of; without them a share is not known
 */
export function metricValue(
  metric: MetricDefinition,
  sums: ArrayLike<number>,
  total?: ArrayLike<number>,
): MetricValue {
  const read = reader(sums);
  const numerator = metric.numerator(read);
  if (!metric.denominator) {
    const [all, known] = metric.known?.(read) ?? [0, 0];
    return { value: all > 0 && known === 0 ? null : numerator, numerator, denominator: null };
  }
  const denominator = metric.ofTotal
    ? total
      ? metric.denominator(reader(total))
      : 0
    : metric.denominator(read);
  if (denominator <= 0) return { value: null, numerator, denominator };
  const small = denominator < SMALL_SAMPLE ? { small: true } : {};
  if (metric.compute) return { value: metric.compute(read), numerator, denominator, ...small };
  if (metric.kind !== 'rate') return { value: numerator / denominator, numerator, denominator, ...small };
  const interval = metric.interval === false ? null : wilson(numerator, denominator);
  return {
    value: (100 * numerator) / denominator,
    numerator,
    denominator,
    ...(interval ? { wilson: [100 * interval[0], 100 * interval[1]] as const } : {}),
    ...small,
  };
}

function reader(sums: ArrayLike<number>): Sums {
  return (counter) => sums[COUNTER_INDEX[counter]] ?? 0;
}

/** A metric's value as printed, without its unit word except the percent sign; an en dash where unknown. */
export function formatMetric(
  metric: Pick<MetricDefinition, 'kind' | 'decimals'>,
  value: number | null,
): string {
  if (value === null || !Number.isFinite(value)) return '–';
  const text = value.toFixed(metric.decimals);
  // no negative zero: -0.04 with one decimal would print as -0.0
  const plain = Number(text) === 0 ? text.replace('-', '') : text;
  return metric.kind === 'rate' ? `${plain} %` : plain;
}
