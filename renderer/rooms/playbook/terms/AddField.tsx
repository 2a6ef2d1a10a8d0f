import { Button, Select, TextInput } from '@mantine/core';
import { useState } from 'react';
import { cache, keys } from '../../../service/cache.ts';
import { gesture } from '../../../service/gesture.ts';
import { type NewField, playbookCalls } from '../../../service/playbook-calls.ts';
import { fieldKeyFor } from '../field-key.ts';
import classes from '../playbook.module.css';

const KINDS = [
  { value: 'term', label: 'one of a list of terms' },
  { value: 'number', label: 'a number' },
  { value: 'text', label: 'free text' },
  { value: 'player', label: 'a player' },
  { value: 'flag', label: 'yes or no' },
];

/** A field of the staff's own. */
export function AddField({ onAdded }: { readonly onAdded: (key: string) => void }) {
  const [label, setLabel] = useState('');
  const [kind, setKind] = useState<NewField['kind']>('term');
  const [help, setHelp] = useState('');
  const key = fieldKeyFor(label);
  const add = async () => {
    if (key === '') return;
    const done = await gesture(() =>
      playbookCalls.addField({ key, label: label.trim(), kind, help: help.trim() }),
    );
    if (!done) return;
    cache.setQueryData(keys.vocabulary, done);
    onAdded(key);
  };
  return (
    <form
      className={classes.form}
      onSubmit={(event) => {
        event.preventDefault();
        void add();
      }}
    >
      <TextInput
        label="Name"
        description={key === '' ? 'as the play card will show it' : `in questions: ${key}`}
        value={label}
        onChange={(event) => setLabel(event.currentTarget.value)}
        data-autofocus
      />
      <Select
        label="Its value is"
        data={KINDS}
        allowDeselect={false}
        value={kind}
        onChange={(value) => value && setKind(value as NewField['kind'])}
      />
      <TextInput
        label="What it means"
        value={help}
        onChange={(event) => setHelp(event.currentTarget.value)}
      />
      <Button type="submit" variant="filled" disabled={key === ''}>
        Add the field
      </Button>
    </form>
  );
}
