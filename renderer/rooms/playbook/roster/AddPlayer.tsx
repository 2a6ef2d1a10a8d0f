import { Autocomplete, Button, TextInput } from '@mantine/core';
import { useEffect, useState } from 'react';
import { cache, keys } from '../../../service/cache.ts';
import { gesture } from '../../../service/gesture.ts';
import { playbookCalls } from '../../../service/playbook-calls.ts';
import { jerseyNumber } from './players.ts';
import classes from './roster.module.css';

interface AddPlayerProps {
  readonly team: string;
  readonly teams: readonly string[];
}

/** A line for one player after the other: Enter adds him and begins the next. */
export function AddPlayer({ team, teams }: AddPlayerProps) {
  const [number, setNumber] = useState('');
  const [name, setName] = useState('');
  const [position, setPosition] = useState('');
  const [side, setSide] = useState(team);
  useEffect(() => setSide(team), [team]);
  const jersey = jerseyNumber(number);
  const ready = jersey !== undefined && (jersey !== null || name.trim() !== '');

  const add = async () => {
    if (!ready) return;
    const player = await gesture(() =>
      playbookCalls.addPlayer({
        number: jersey ?? null,
        name: name.trim() || null,
        position: position.trim() || null,
        team: side.trim() || null,
      }),
    );
    if (!player) return;
    void cache.invalidateQueries({ queryKey: keys.vocabulary });
    setNumber('');
    setName('');
    setPosition('');
    document.querySelector<HTMLInputElement>('[data-playbook-add]')?.focus();
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
        label="Number"
        w={70}
        value={number}
        error={jersey === undefined ? '0 to 99' : undefined}
        onChange={(event) => setNumber(event.currentTarget.value)}
      />
      <TextInput label="Name" w={170} value={name} onChange={(event) => setName(event.currentTarget.value)} />
      <TextInput
        label="Position"
        w={80}
        value={position}
        onChange={(event) => setPosition(event.currentTarget.value)}
      />
      <Autocomplete size="xs" label="Team" w={180} data={[...teams]} value={side} onChange={setSide} />
      <Button type="submit" variant="filled" disabled={!ready}>
        Add player
      </Button>
    </form>
  );
}
