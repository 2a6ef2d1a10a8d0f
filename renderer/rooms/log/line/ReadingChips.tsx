import { useEffect, useRef } from 'react';
import type { LogLineReading, LogToken } from '../../../../football/log-line/index.ts';
import classes from './ReadingChips.module.css';

const SAYS: Readonly<Record<LogToken['status'], string>> = {
  understood: '',
  ambiguous: 'means two things',
  unknown: 'not in the playbook',
  incomplete: 'not finished',
  conflict: 'said otherwise too',
};

/** Each word of the line with what it was understood as; a doubt is told by sign and words, not by colour alone. */
export function ReadingChips(props: { readonly reading: LogLineReading; readonly asking: LogToken | null }) {
  const list = useRef<HTMLUListElement>(null);
  const asking = props.asking?.start;
  // the word that asks must be in sight, else the one that was typed last
  useEffect(() => {
    const chip = list.current?.querySelector('[data-asking]') ?? list.current?.lastElementChild;
    chip?.scrollIntoView({ block: 'nearest', inline: asking === undefined ? 'end' : 'center' });
  }, [asking, props.reading]);
  return (
    <ul ref={list} className={classes.chips} aria-label="Understood as">
      {props.reading.tokens.map((token) => (
        <li
          key={token.start}
          className={classes.chip}
          data-status={token.status}
          data-asking={token === props.asking || undefined}
        >
          <span className={classes.word}>{token.text}</span>
          <span className={classes.meaning}>
            {token.status === 'understood' ? token.display : `? ${SAYS[token.status]}`}
          </span>
        </li>
      ))}
    </ul>
  );
}
