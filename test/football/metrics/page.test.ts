import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { METRICS } from '../../../football/metrics/definitions.ts';
import { METRIC_GROUPS, metricsPage } from '../../../football/metrics/page.ts';

it('the page of definitions in docs is the one that the definitions give', () => {
  expect(readFileSync('docs/metrics.md', 'utf8')).toBe(metricsPage());
});

it('every metric stands on the page once, with its formula', () => {
  expect(METRIC_GROUPS.flatMap(([, metrics]) => metrics.map((m) => m.key))).toEqual(
    METRICS.map((m) => m.key),
  );
  for (const metric of METRICS) expect(metricsPage()).toContain(`- Formula: ${metric.formula}\n`);
});

it('the page says which success variant is in use', () => {
  expect(metricsPage()).toContain(
    '`50/70/100`: 50 % of the distance on first down, 70 % on second, all of it on third and fourth (in use)',
  );
});
