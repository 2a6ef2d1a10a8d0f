import type { Counter } from './facts.ts';
import { countersOf, type MetricDefinition, type MetricKind, type Sums } from './metric.ts';

/** What every definition says in words. */
interface Words {
  readonly formula: string;
  readonly per?: string;
  readonly source?: string;
  readonly caution?: string;
  readonly decimals?: number;
  readonly unit?: string;
  readonly setting?: MetricDefinition['setting'];
}

type Formula = Pick<MetricDefinition, 'numerator' | 'denominator' | 'known' | 'compute' | 'interval'>;

const PRACTICE = 'common practice, no source';

/** Puts a definition together; the counters it needs are found by watching its formula. */
export function define(
  key: string,
  name: string,
  kind: MetricKind,
  words: Words,
  formula: Formula,
): MetricDefinition {
  const { setting, per, ...said } = words;
  const metric = {
    key,
    name,
    kind,
    source: PRACTICE,
    caution: '',
    decimals: kind === 'rate' ? 1 : kind === 'mean' || kind === 'index' ? 2 : 0,
    unit: kind === 'rate' ? '%' : kind === 'count' ? 'plays' : '',
    ...said,
    ...(per ? { per } : {}),
    ...(setting ? { setting } : {}),
    ...formula,
  };
  return { ...metric, counters: countersOf(metric) };
}

export function count(key: string, name: string, counter: Counter, words: Words): MetricDefinition {
  return define(key, name, 'count', words, { numerator: (s) => s(counter) });
}

/** @param of the plays that should have a value; where none of them has, the sum is not known */
export function sum(
  key: string,
  name: string,
  counter: Counter,
  of: readonly [all: Counter, known: Counter],
  words: Words,
): MetricDefinition {
  return define(
    key,
    name,
    'sum',
    { unit: 'yd', ...words },
    { numerator: (s) => s(counter), known: (s) => [s(of[0]), s(of[1])] },
  );
}

type Part = Counter | ((s: Sums) => number);

function read(part: Part): (s: Sums) => number {
  return typeof part === 'string' ? (s) => s(part) : part;
}

export function rate(
  key: string,
  name: string,
  parts: readonly [numerator: Part, denominator: Part],
  words: Words,
  more: Pick<Formula, 'interval'> = {},
): MetricDefinition {
  return define(key, name, 'rate', words, {
    numerator: read(parts[0]),
    denominator: read(parts[1]),
    ...more,
  });
}

export function mean(
  key: string,
  name: string,
  parts: readonly [numerator: Part, denominator: Part],
  words: Words,
): MetricDefinition {
  return define(key, name, 'mean', words, { numerator: read(parts[0]), denominator: read(parts[1]) });
}
