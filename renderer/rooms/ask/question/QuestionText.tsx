import { Popover } from '@mantine/core';
import { type KeyboardEvent, useId, useMemo, useRef, useState } from 'react';
import { completeQuestion, type Offer } from '../../../../football/question/complete.ts';
import { useStore } from '../../../state/store.ts';
import { askActions, askStore } from '../ask-store.ts';
import text from './question-text.module.css';
import { completionWords, type ValueWords } from './value-words.ts';

/** The question as the WHERE clause of SQL: completed as it is typed, the word that cannot be understood underlined. */
export function QuestionText({ words }: { readonly words: ValueWords }) {
  const { question } = useStore(askStore);
  const area = useRef<HTMLTextAreaElement>(null);
  const [caret, setCaret] = useState<number | null>(null);
  const [at, setAt] = useState(0);
  const id = useId();
  const completion = useMemo(
    () => (caret === null ? null : completeQuestion(question.text, caret, completionWords(words))),
    [question.text, caret, words],
  );
  const offers = completion?.offers.slice(0, 8) ?? [];
  const chosen = Math.min(at, offers.length - 1);
  const wrong = question.problem?.at ?? null;

  const take = (offer: Offer) => {
    if (!completion) return;
    const { start, end } = completion;
    const next = question.text.slice(0, start) + offer.insert + question.text.slice(end);
    askActions.text(next, words.vocabulary);
    const to = start + offer.insert.length;
    setCaret(to);
    setAt(0);
    requestAnimationFrame(() => area.current?.setSelectionRange(to, to));
  };

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter' && !event.shiftKey && !event.ctrlKey && !event.metaKey) {
      // a clause is one line; Enter takes what is offered, and asks anyway as it is typed
      event.preventDefault();
      const offer = offers[chosen];
      if (offer && at >= 0 && completion?.typed) take(offer);
      else setCaret(null);
      return;
    }
    if (event.key === 'Escape') {
      if (offers.length > 0) setCaret(null);
      else area.current?.blur();
    } else if (offers.length === 0) return;
    else if (event.key === 'ArrowDown') setAt((chosen + 1) % offers.length);
    else if (event.key === 'ArrowUp') setAt((chosen + offers.length - 1) % offers.length);
    else if (event.key === 'Tab' && !event.shiftKey && completion?.typed) take(offers[chosen]!);
    else return;
    event.preventDefault();
  };

  const follow = () => setCaret(area.current?.selectionEnd ?? null);

  return (
    <div className={text.form}>
      <label htmlFor="ask-question-text" className="eyebrow">
        The same as text
      </label>
      <Popover
        opened={offers.length > 0}
        position="bottom-start"
        offset={2}
        withRoles={false}
        trapFocus={false}
        returnFocus={false}
        shadow="md"
      >
        <Popover.Target>
          <div className={text.box}>
            <div className={text.under} aria-hidden="true">
              {wrong ? (
                <>
                  {question.text.slice(0, wrong.start)}
                  <mark>{question.text.slice(wrong.start, Math.max(wrong.end, wrong.start + 1)) || ' '}</mark>
                  {question.text.slice(Math.max(wrong.end, wrong.start + 1))}
                </>
              ) : (
                question.text
              )}{' '}
            </div>
            <textarea
              ref={area}
              id="ask-question-text"
              className={text.area}
              rows={2}
              spellCheck={false}
              autoComplete="off"
              placeholder="concept = 'stick' AND coverage = 'Cover 3' AND down = 3"
              value={question.text}
              aria-autocomplete="list"
              aria-controls={offers.length > 0 ? `${id}-offers` : undefined}
              aria-activedescendant={offers.length > 0 ? `${id}-${chosen}` : undefined}
              aria-invalid={wrong !== null}
              onChange={(event) => {
                askActions.text(event.currentTarget.value.replaceAll('\n', ' '), words.vocabulary);
                setCaret(event.currentTarget.selectionEnd);
                setAt(0);
              }}
              onKeyDown={onKeyDown}
              onClick={follow}
              onBlur={() => setCaret(null)}
            />
          </div>
        </Popover.Target>
        <Popover.Dropdown p={0}>
          <div id={`${id}-offers`} role="listbox" aria-label="Completions" className={text.offers}>
            {offers.map((offer, index) => (
              // biome-ignore lint/a11y/useKeyWithClickEvents: the text field hears the keys
              <div
                key={`${offer.insert} ${offer.label}`}
                id={`${id}-${index}`}
                role="option"
                tabIndex={-1}
                aria-selected={index === chosen}
                className={text.offer}
                onMouseDown={(event) => event.preventDefault()}
                onClick={() => take(offer)}
              >
                <span>{offer.label}</span>
                <span className={text.aside}>{offer.aside}</span>
              </div>
            ))}
          </div>
        </Popover.Dropdown>
      </Popover>
    </div>
  );
}
