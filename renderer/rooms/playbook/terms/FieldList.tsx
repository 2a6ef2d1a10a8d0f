import { Button, Popover } from '@mantine/core';
import { useState } from 'react';
import type { VocabularyView } from '../../../../electron/service/views.ts';
import type { FieldGroup } from '../../../../football/vocabulary/fields.ts';
import { AddField } from './AddField.tsx';
import classes from './terms.module.css';

const GROUPS: readonly (readonly [FieldGroup, string])[] = [
  ['calls', 'Calls'],
  ['situation', 'Situation'],
  ['outcome', 'Outcome'],
  ['people', 'People'],
  ['game', 'Game'],
  ['notes', 'Notes'],
];

interface FieldListProps {
  readonly vocabulary: VocabularyView;
  readonly chosen: string;
  readonly onChoose: (key: string) => void;
}

/** Every field of a play, with how many terms it has. */
export function FieldList({ vocabulary, chosen, onChoose }: FieldListProps) {
  const [adding, setAdding] = useState(false);
  const counts = new Map<string, number>();
  for (const term of vocabulary.terms) counts.set(term.field, (counts.get(term.field) ?? 0) + 1);
  return (
    <nav className={classes.fields} aria-label="Fields">
      {GROUPS.map(([group, label]) => (
        <section key={group} aria-label={label}>
          <h2 className={`eyebrow ${classes.group}`}>{label}</h2>
          {vocabulary.fields
            .filter((field) => field.group === group)
            .map((field) => (
              <button
                key={field.key}
                type="button"
                className={classes.field}
                aria-current={field.key === chosen}
                onClick={() => onChoose(field.key)}
              >
                <span>{field.label}</span>
                <span className={classes.count}>{counts.get(field.key) ?? ''}</span>
              </button>
            ))}
        </section>
      ))}
      <Popover opened={adding} onChange={setAdding} position="right-end" width={300} trapFocus shadow="md">
        <Popover.Target>
          <Button m={12} onClick={() => setAdding((now) => !now)}>
            Add a field of our own
          </Button>
        </Popover.Target>
        <Popover.Dropdown aria-label="A new field">
          {adding && (
            <AddField
              onAdded={(key) => {
                setAdding(false);
                onChoose(key);
              }}
            />
          )}
        </Popover.Dropdown>
      </Popover>
    </nav>
  );
}
