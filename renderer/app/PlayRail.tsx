import { useVirtualizer } from '@tanstack/react-virtual';
import { useEffect, useRef } from 'react';
import type { PlayView } from '../../electron/service/views.ts';
import { formatSpot } from '../../football/values.ts';
import { downAndDistance, outcomeWords } from '../parts/play-words.ts';
import classes from './PlayRail.module.css';

/** The plays that are being looked at, in order; a thousand of them scroll as easily as ten. */
export function PlayRail(props: {
  readonly plays: readonly PlayView[];
  readonly index: number;
  readonly onChoose: (index: number) => void;
}) {
  const { plays, index, onChoose } = props;
  const scroll = useRef<HTMLElement>(null);
  const rows = useVirtualizer({
    count: plays.length,
    getScrollElement: () => scroll.current,
    estimateSize: () => 46,
    overscan: 8,
  });
  useEffect(() => {
    if (index < plays.length) rows.scrollToIndex(index, { align: 'auto' });
  }, [index, plays.length, rows]);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a list that scrolls must be reachable by keyboard
    <section ref={scroll} className={classes.rail} tabIndex={0} aria-label="Plays in order">
      <ol className={classes.list} style={{ height: rows.getTotalSize() }}>
        {rows.getVirtualItems().map((row) => {
          const { record } = plays[row.index]!;
          return (
            <li key={row.key} className={classes.item} style={{ transform: `translateY(${row.start}px)` }}>
              <button
                type="button"
                className={classes.play}
                aria-current={row.index === index || undefined}
                onMouseDown={(event) => event.preventDefault()}
                onClick={() => onChoose(row.index)}
              >
                <span className={classes.number}>{row.index + 1}</span>
                <span className={classes.words}>
                  {downAndDistance(record)}
                  {record.yardsToGoal !== null && <small>{formatSpot(record.yardsToGoal)}</small>}
                </span>
                <span className={classes.more}>
                  {[record.tags.concept, outcomeWords(record)].filter(Boolean).join(' · ')}
                </span>
              </button>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
