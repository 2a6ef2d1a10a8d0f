import { Button } from '@mantine/core';
import { type KeyboardEvent, type ReactNode, useRef, useState } from 'react';
import type { FilmTimeView, PlayView, VocabularyView } from '../../../../electron/service/views.ts';
import type { VocabularyIndex } from '../../../../football/log-line/index.ts';
import { formatPlain } from '../../../../football/values.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { useCommand } from '../../../commands/Commands.tsx';
import { shownField } from '../known-play.ts';
import { CardField } from './CardField.tsx';
import { cardGroups } from './card-groups.ts';
import { FieldEditor } from './FieldEditor.tsx';
import classes from './PlayCard.module.css';
import { useFieldEdits } from './use-field-edits.ts';

interface Editing {
  readonly key: string;
  readonly begin?: string | undefined;
}

/** All that is known of the play, by group. Arrow keys move over it, Enter or typing edits a field, Esc leaves. */
export function PlayCard(props: {
  readonly play: PlayView;
  readonly vocabulary: VocabularyView;
  readonly index: VocabularyIndex;
  readonly filmTime: () => FilmTimeView | null;
  readonly head: ReactNode;
}) {
  const { play, vocabulary, index, filmTime, head } = props;
  const [all, setAll] = useState(false);
  const [editing, setEditing] = useState<Editing | null>(null);
  const [at, setAt] = useState<string | null>(null);
  const root = useRef<HTMLElement>(null);
  const edits = useFieldEdits(filmTime);
  const groups = cardGroups(vocabulary.fields, (field) => shownField(play, field).value !== null, all);
  const order = groups.flatMap((group) => group.fields).filter((field) => field.home !== 'derived');
  const current = order.some((field) => field.key === at) ? at : (order[0]?.key ?? null);

  const focusField = (key: string | undefined) => {
    if (!key) return;
    setAt(key);
    // after the editor has given its place back to the field
    requestAnimationFrame(() =>
      root.current?.querySelector<HTMLElement>(`[data-card-field="${key}"]`)?.focus(),
    );
  };
  const neighbour = (key: string, by: number) =>
    order[order.findIndex((field) => field.key === key) + by]?.key;
  useCommand('card.edit', () => focusField(current ?? undefined));

  const onFieldKey = (field: FieldDefinition) => (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const move = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 }[event.key];
    if (move) focusField(neighbour(field.key, move));
    else if (event.key === 'Escape') (event.currentTarget as HTMLElement).blur();
    else if (event.key === 'Enter') setEditing({ key: field.key });
    else if (event.key === 'Delete' || event.key === 'Backspace') setEditing({ key: field.key, begin: '' });
    else if (event.key.length === 1 && event.key !== ' ') setEditing({ key: field.key, begin: event.key });
    else return;
    event.preventDefault();
  };

  return (
    <section ref={root} className={classes.card} aria-label="Play card">
      {head}
      <div className={classes.groups}>
        {groups.map(({ group, label, fields }) => (
          <section key={group} className={classes.group} data-group={group} aria-label={label}>
            <h3 className="eyebrow">{label}</h3>
            <div className={classes.fields}>
              {fields.map((field) => {
                const shown = shownField(play, field);
                if (editing?.key === field.key)
                  return (
                    <div key={field.key} className={classes.editing}>
                      <span className={classes.label}>{field.label}</span>
                      <FieldEditor
                        field={field}
                        play={play}
                        begun={editing.begin !== undefined}
                        initial={editing.begin ?? formatPlain(field, shown.value)}
                        vocabulary={vocabulary}
                        index={index}
                        onLeave={() => {
                          setEditing(null);
                          focusField(field.key);
                        }}
                        onKeep={(edit) => {
                          void edits.send(play, field, edit);
                          const next =
                            edit.then === 'stay'
                              ? undefined
                              : neighbour(field.key, edit.then === 'next' ? 1 : -1);
                          setEditing(next ? { key: next } : null);
                          if (!next) focusField(field.key);
                        }}
                      />
                    </div>
                  );
                return (
                  <CardField
                    key={field.key}
                    field={field}
                    shown={shown}
                    saving={edits.isSaving(play, field)}
                    tabIndex={field.key === current ? 0 : -1}
                    onEdit={(begin) => setEditing({ key: field.key, begin })}
                    onKeyDown={onFieldKey(field)}
                  />
                );
              })}
            </div>
          </section>
        ))}
        <p className={classes.hint}>
          <kbd>T</kbd> to a field <kbd>↑</kbd>
          <kbd>↓</kbd> move <kbd>Enter</kbd> edit <kbd>Esc</kbd> back to the film
        </p>
        <Button size="compact-xs" variant="subtle" color="gray" onClick={() => setAll((now) => !now)}>
          {all ? 'Fewer fields' : 'All fields'}
        </Button>
      </div>
    </section>
  );
}
