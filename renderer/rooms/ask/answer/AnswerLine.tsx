import { formatMetric } from '../../../../football/metrics/metric.ts';
import { useAnswer, useMetrics } from '../../../service/queries.ts';
import { useStore } from '../../../state/store.ts';
import { askStore } from '../ask-store.ts';
import { playMetric } from '../play-metric.ts';
import { cellInWords, plays } from '../table/cell-words.ts';
import { gridCell, type ShownMetric } from '../table/table-layout.ts';
import { AnswerActions } from './AnswerActions.tsx';
import classes from './answer.module.css';

const LINE: readonly string[] = [
  'calls',
  'attempts',
  'completionPct',
  'yards',
  'yardsPerAttempt',
  'successRate',
  'explosiveRate',
  'touchdowns',
  'interceptions',
  'sacks',
];

/** How many plays were found, and their numbers in one line; each opens the plays that make it. */
export function AnswerLine() {
  const { question } = useStore(askStore);
  const { data: metrics = [] } = useMetrics();
  const { data: answer, isPlaceholderData } = useAnswer(question.where, LINE);
  const shown = LINE.flatMap((key) => metrics.filter((metric) => metric.key === key));
  return (
    <section className={classes.answer} aria-label="Answer" aria-busy={isPlaceholderData}>
      <button
        type="button"
        className={classes.count}
        disabled={!answer || answer.count === 0}
        onClick={() => answer && playMetric('Every play of the question', null, answer.playIds)}
        title="Play them all"
        data-testid="answer-count"
      >
        {answer ? plays(answer.count) : '…'}
      </button>
      <dl className={classes.line}>
        {answer && shown.map((metric) => <OneNumber key={metric.key} metric={metric} answer={answer} />)}
      </dl>
      <AnswerActions />
    </section>
  );
}

function OneNumber({
  metric,
  answer,
}: {
  readonly metric: ShownMetric;
  readonly answer: Parameters<typeof gridCell>[0];
}) {
  const cell = gridCell(answer, metric);
  return (
    <div className={classes.item}>
      <dt>{metric.name}</dt>
      <dd>
        <button
          type="button"
          className={classes.number}
          disabled={cell.plays === 0}
          title={cellInWords(metric, cell)}
          onClick={() => playMetric(metric.name, metric, answer.playIds)}
        >
          {formatMetric(metric, cell.value)}
          {cell.small && <span className={classes.small}> of {cell.base}</span>}
        </button>
      </dd>
    </div>
  );
}
