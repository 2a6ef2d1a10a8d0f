import { Button, Select, TextInput } from '@mantine/core';
import { useEffect, useState } from 'react';
import type { TermView } from '../../../../electron/service/views.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { cache, keys } from '../../../service/cache.ts';
import { gesture } from '../../../service/gesture.ts';
import { playbookCalls } from '../../../service/playbook-calls.ts';
import { familyPath, possibleFamilies } from '../term-tree.ts';
import classes from './terms.module.css';

interface AddTermProps {
  readonly field: FieldDefinition;
  readonly terms: readonly TermView[];
  /** the chosen term, whose family a new one most likely joins */
  readonly under: TermView | null;
  readonly onAdded: (termId: string) => void;
}

/** A new term, into a family or on its own. */
export function AddTerm({ field, terms, under, onAdded }: AddTermProps) {
  const [name, setName] = useState('');
  const [family, setFamily] = useState<string | null>(null);
  useEffect(() => setFamily(likelyFamily(under, terms)), [under, terms]);

  const add = async () => {
    if (name.trim() === '') return;
    const term = await gesture(() => playbookCalls.addTerm(field.key, name.trim(), { parent: family }));
    if (!term) return;
    await cache.invalidateQueries({ queryKey: keys.vocabulary });
    setName('');
    onAdded(term.id);
  };

  return (
    <form
      className={classes.add}
      onSubmit={(event) => {
        event.preventDefault();
        void add();
      }}
    >
      <TextInput
        data-playbook-add
        label={`New ${field.label.toLowerCase()}`}
        value={name}
        onChange={(event) => setName(event.currentTarget.value)}
        className={classes.addName}
      />
      <Select
        label="in the family of"
        searchable
        clearable
        placeholder="none"
        data={possibleFamilies(terms, null).map((term) => ({
          value: term.name,
          label: familyPath(terms, term),
        }))}
        value={family}
        onChange={setFamily}
        className={classes.addName}
      />
      <Button type="submit" variant="filled" disabled={name.trim() === ''}>
        Add
      </Button>
    </form>
  );
}

/** The chosen term where it heads a family, else the family that it belongs to. */
function likelyFamily(under: TermView | null, terms: readonly TermView[]): string | null {
  if (!under) return null;
  if (terms.some((term) => term.parentId === under.id)) return under.name;
  return terms.find((term) => term.id === under.parentId)?.name ?? null;
}
