import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { type KeyboardEvent, useState } from 'react';
import { parseQuestion } from '../../../../football/question/parse.ts';
import { keys } from '../../../service/cache.ts';
import { useVocabulary } from '../../../service/queries.ts';
import { questionCalls } from '../../../service/question-calls.ts';
import { useStore } from '../../../state/store.ts';
import { askActions, askStore } from '../ask-store.ts';
import { plays } from '../table/cell-words.ts';
import text from './facets.module.css';
import { freed, withoutValue, withValue } from './narrow.ts';

/** Every field's values under the question, with counts: arrows move, Enter narrows or widens, X excludes, Backspace frees. */
export function FacetsPanel() {
  const { question } = useStore(askStore);
  const { data: vocabulary } = useVocabulary();
  const { data } = useQuery({
    queryKey: keys.facets(question.where),
    queryFn: () => questionCalls.facets(question.where),
    placeholderData: keepPreviousData,
  });
  const [field, setField] = useState('coverage');
  const [at, setAt] = useState(0);
  if (!data || !vocabulary) return null;
  const told = data.facets.filter((facet) => facet.asked || facet.values.some((each) => each.value !== null));
  const open = told.find((facet) => facet.field === field) ?? told[0];
  if (!open) return <p className={text.none}>No play has a value in any field yet.</p>;
  const chosen = Math.min(at, open.values.length - 1);
  const most = Math.max(1, ...open.values.map((each) => each.plays));

  const show = (step: number) => {
    const next = told[(told.indexOf(open) + step + told.length) % told.length]!;
    setField(next.field);
    setAt(0);
  };
  const change = (how: 'narrow' | 'exclude', index = chosen) => {
    const value = open.values[index];
    const read = value && parseQuestion(value.where, vocabulary.fields);
    if (!read?.ok) return;
    askActions.ask(
      how === 'narrow'
        ? withValue(question.question, open.field, read.value)
        : withoutValue(question.question, read.value),
    );
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === 'ArrowDown') setAt(Math.min(chosen + 1, open.values.length - 1));
    else if (event.key === 'ArrowUp') setAt(Math.max(0, chosen - 1));
    else if (event.key === 'ArrowRight') show(1);
    else if (event.key === 'ArrowLeft') show(-1);
    else if (event.key === 'Enter') change('narrow');
    else if (event.key === 'x') change('exclude');
    else if (event.key === 'Backspace') askActions.ask(freed(question.question, open.field));
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    <div className={text.panel} data-keys="ask-values">
      <div className={text.head}>
        <label className={text.field}>
          <span className="eyebrow">Values under the question</span>
          <select
            className={text.select}
            value={open.field}
            onChange={(event) => {
              setField(event.target.value);
              setAt(0);
            }}
          >
            {told.map((facet) => (
              <option key={facet.field} value={facet.field}>
                {facet.label}
                {facet.asked ? ' (asked)' : ''}
              </option>
            ))}
          </select>
        </label>
        <p className={text.hint}>
          ← → field · ↑ ↓ value · Enter {open.asked ? 'adds it' : 'narrows'} · X excludes · Backspace frees
        </p>
      </div>
      <div
        id="ask-values"
        className={text.values}
        role="listbox"
        tabIndex={0}
        aria-label={`${open.label}, values`}
        aria-activedescendant={`ask-value-${chosen}`}
        onKeyDown={onKeyDown}
      >
        {open.values.map((value, index) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: the list hears the keys
          <div
            key={value.where}
            id={`ask-value-${index}`}
            role="option"
            tabIndex={-1}
            aria-selected={index === chosen}
            className={text.value}
            title={value.where}
            onClick={() => {
              setAt(index);
              change('narrow', index);
            }}
          >
            <span className={text.label} style={{ paddingLeft: value.depth * 16 }}>
              {value.label}
            </span>
            <span className={text.bar} aria-hidden="true">
              <span style={{ width: `${(100 * value.plays) / most}%` }} />
            </span>
            <span className={text.count}>{plays(value.plays)}</span>
          </div>
        ))}
      </div>
    </div>
  );
}
