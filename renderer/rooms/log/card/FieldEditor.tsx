import { Popover } from '@mantine/core';
import { type KeyboardEvent, useId, useMemo, useState } from 'react';
import type { PlayView, VocabularyView } from '../../../../electron/service/views.ts';
import type { VocabularyIndex } from '../../../../football/log-line/index.ts';
import type { FieldValue } from '../../../../football/values.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { knownPlay } from '../known-play.ts';
import classes from './FieldEditor.module.css';
import { fieldChoices } from './field-choices.ts';
import { readField } from './read-field.ts';

export interface FieldEdit {
  readonly value: FieldValue;
  /** a term that is not in the playbook yet; it is added with the value */
  readonly newTerm: string | null;
  /** where to go next */
  readonly then: 'stay' | 'next' | 'previous';
}

/** One field as text, with what it could be. Enter keeps, Tab keeps and goes on, Escape leaves it as it was. */
export function FieldEditor(props: {
  readonly field: FieldDefinition;
  readonly play: PlayView;
  readonly initial: string;
  /** the text was begun by typing: the next key goes on behind it instead of replacing it */
  readonly begun?: boolean;
  readonly vocabulary: VocabularyView;
  readonly index: VocabularyIndex;
  readonly onKeep: (edit: FieldEdit) => void;
  readonly onLeave: () => void;
}) {
  const { field, play, initial, begun = false, vocabulary, index, onKeep, onLeave } = props;
  const [text, setText] = useState(initial);
  const [touched, setTouched] = useState(begun);
  const [picked, setPicked] = useState(-1);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [offered, setOffered] = useState<string | null>(null);
  const listId = useId();
  const choices = useMemo(
    () => fieldChoices(field, vocabulary, touched ? text : ''),
    [field, vocabulary, touched, text],
  );

  const keep = (typed: string, then: FieldEdit['then']) => {
    if (typed === initial && !begun && then !== 'stay') return onKeepNothing(then);
    const reading = readField(field, typed, index, knownPlay(play));
    if (reading.kind === 'value') return onKeep({ value: reading.value, newTerm: null, then });
    if (reading.kind === 'unclear')
      return setTrouble(
        reading.choices.length ? `${reading.message} (${reading.choices.join(', ')})` : reading.message,
      );
    // a new term is added only when it is said twice, since a slip of the finger looks the same
    if (offered !== reading.name) {
      setOffered(reading.name);
      return setTrouble(`Not in the playbook. Enter again adds “${reading.name}” to ${field.label}.`);
    }
    onKeep({
      value: { kind: 'term', termId: '', name: reading.name },
      newTerm: reading.name,
      then,
    });
  };
  const onKeepNothing = (then: FieldEdit['then']) => {
    const reading = readField(field, initial, index, knownPlay(play));
    if (initial === '' || reading.kind !== 'value') return onLeave();
    onKeep({ value: reading.value, newTerm: null, then });
  };

  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    const { key } = event;
    if (key === 'ArrowDown' || key === 'ArrowUp') {
      const by = key === 'ArrowDown' ? 1 : -1;
      setPicked((now) => Math.max(-1, Math.min(choices.length - 1, now + by)));
    } else if (key === 'Enter') keep(choices[picked] ?? text, 'stay');
    else if (key === 'Tab') keep(choices[picked] ?? text, event.shiftKey ? 'previous' : 'next');
    else if (key === 'Escape') onLeave();
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    <Popover opened={choices.length > 0 || trouble !== null} position="bottom-start" offset={2} withinPortal>
      <Popover.Target>
        <input
          className={classes.input}
          // biome-ignore lint/a11y/noAutofocus: the editor opens where the user asked for it
          autoFocus
          role="combobox"
          aria-label={field.label}
          aria-expanded={choices.length > 0}
          aria-controls={listId}
          aria-activedescendant={picked >= 0 ? `${listId}-${picked}` : undefined}
          aria-invalid={trouble !== null}
          value={text}
          spellCheck={field.kind === 'text'}
          autoComplete="off"
          onFocus={(event) => {
            if (!begun) event.currentTarget.select();
          }}
          onChange={(event) => {
            setText(event.currentTarget.value);
            setTouched(true);
            setPicked(-1);
            setTrouble(null);
          }}
          onKeyDown={onKeyDown}
          onBlur={onLeave}
        />
      </Popover.Target>
      <Popover.Dropdown className={classes.drop} p={0}>
        {trouble && (
          <p className={classes.trouble} role="alert">
            {trouble}
          </p>
        )}
        <div id={listId} className={classes.list} role="listbox" aria-label={field.label}>
          {choices.map((choice, at) => (
            <div
              key={choice}
              id={`${listId}-${at}`}
              role="option"
              tabIndex={-1}
              aria-selected={at === picked}
              className={classes.choice}
              onMouseDown={(event) => {
                event.preventDefault();
                keep(choice, 'stay');
              }}
              ref={at === picked ? (element) => element?.scrollIntoView({ block: 'nearest' }) : undefined}
            >
              {choice}
            </div>
          ))}
        </div>
      </Popover.Dropdown>
    </Popover>
  );
}
