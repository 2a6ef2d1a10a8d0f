import { useMemo } from 'react';
import { formatMetric, METRICS, metricValue } from '../../football/metrics/definitions.ts';
import { playFacts, sumFacts } from '../../football/metrics/facts.ts';
import type { PlayRecord } from '../../football/play.ts';
import classes from './NumbersLine.module.css';

const USUAL = [
  'calls',
  'completionPct',
  'yardsPerAttempt',
  'successRate',
  'explosiveRate',
  'sacks',
  'interceptions',
];

/** The numbers of the plays that are shown; film never stands without them. */
export function NumbersLine(props: {
  readonly plays: readonly PlayRecord[];
  readonly metrics?: readonly string[];
}) {
  const { plays, metrics = USUAL } = props;
  const sums = useMemo(() => sumFacts(plays.map((play) => playFacts(play))), [plays]);
  return (
    <dl className={classes.line} aria-label="Numbers of these plays">
      <div className={classes.item}>
        <dt>Plays</dt>
        <dd>{plays.length}</dd>
      </div>
      {METRICS.filter((metric) => metrics.includes(metric.key)).map((metric) => {
        const { value, denominator, wilson, small } = metricValue(metric, sums);
        if (metric.kind !== 'count' && metric.kind !== 'sum' && !denominator) return null;
        const range = wilson ? ` 95 % interval ${wilson[0].toFixed(0)} to ${wilson[1].toFixed(0)} %.` : '';
        return (
          <div
            key={metric.key}
            className={classes.item}
            title={`${metric.formula}.${range} ${metric.caution}`}
          >
            <dt>{metric.name}</dt>
            <dd>
              {formatMetric(metric, value)}
              {denominator !== null && (
                <small className={classes.base} data-small={small || undefined}>
                  {small ? 'only ' : 'of '}
                  {denominator}
                </small>
              )}
            </dd>
          </div>
        );
      })}
    </dl>
  );
}
