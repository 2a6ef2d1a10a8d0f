import { formatMetric, SMALL_SAMPLE } from '../../football/metrics/metric.ts';
import { useLine, useMetrics } from '../service/queries.ts';
import classes from './NumbersLine.module.css';

const USUAL: readonly string[] = [
  'calls',
  'completionPct',
  'yardsPerAttempt',
  'successRate',
  'explosiveRate',
  'sacks',
  'interceptions',
];

/** The numbers of the plays that are shown, as the service counts them; film never stands without them. */
export function NumbersLine(props: {
  readonly playIds: readonly string[];
  readonly metrics?: readonly string[];
}) {
  const { playIds, metrics: wanted = USUAL } = props;
  const { data: metrics = [] } = useMetrics();
  const { data: line } = useLine(playIds, wanted);
  return (
    <dl className={classes.line} aria-label="Numbers of these plays">
      <div className={classes.item}>
        <dt>Plays</dt>
        <dd>{playIds.length}</dd>
      </div>
      {metrics
        .filter((metric) => wanted.includes(metric.key))
        .map((metric) => {
          const value = line?.metrics[metric.key] ?? null;
          const base = line?.bases[metric.key];
          const rated = metric.kind !== 'count' && metric.kind !== 'sum';
          // a rate over nothing says nothing; runs have no completion percentage
          if (rated && !base) return null;
          const interval = line?.intervals[metric.key];
          const range = interval
            ? ` 95 % interval ${interval[0].toFixed(0)} to ${interval[1].toFixed(0)} %.`
            : '';
          const isSmall = base !== undefined && base < SMALL_SAMPLE;
          return (
            <div
              key={metric.key}
              className={classes.item}
              title={`${metric.formula}.${range} ${metric.caution}`}
            >
              <dt>{metric.name}</dt>
              <dd>
                {formatMetric(metric, value)}
                {base !== undefined && (
                  <small className={classes.base} data-small={isSmall || undefined}>
                    {isSmall ? 'only ' : 'of '}
                    {base}
                  </small>
                )}
              </dd>
            </div>
          );
        })}
    </dl>
  );
}
