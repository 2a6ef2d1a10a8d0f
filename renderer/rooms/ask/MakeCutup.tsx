import { Autocomplete, Button, Popover } from '@mantine/core';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { useCommand } from '../../commands/Commands.tsx';
import { cache, keys } from '../../service/cache.ts';
import { service } from '../../service/client.ts';
import { cutupCalls } from '../../service/cutup-calls.ts';
import { gesture } from '../../service/gesture.ts';
import { tellDone } from '../../service/problems.ts';
import { useCutups } from '../../service/queries.ts';
import classes from './ask.module.css';

interface MakeCutupProps {
  readonly label: string;
  /** the key that opens it */
  readonly command: 'ask.cutup' | 'ask.cutupOfFilm';
  readonly variant?: 'filled';
  /** the name that is suggested */
  readonly name: string;
  readonly where?: string;
  readonly playIds?: readonly string[];
}

/** Asks for a name and makes the cut-up, or adds to the one of that name. */
export function MakeCutup(props: MakeCutupProps) {
  const [open, setOpen] = useState(false);
  useCommand(props.command, () => setOpen(true));
  return (
    <Popover opened={open} onChange={setOpen} position="bottom-end" width={320} trapFocus shadow="md">
      <Popover.Target>
        <Button variant={props.variant ?? 'default'} onClick={() => setOpen(true)}>
          {props.label}
        </Button>
      </Popover.Target>
      <Popover.Dropdown aria-label={props.label}>
        {open && <NameForm {...props} onDone={() => setOpen(false)} />}
      </Popover.Dropdown>
    </Popover>
  );
}

function NameForm({
  name: suggested,
  where,
  playIds,
  onDone,
}: MakeCutupProps & { readonly onDone: () => void }) {
  const { data: cutups = [] } = useCutups();
  const [name, setName] = useState(suggested);
  const [sending, setSending] = useState(false);
  const [, navigate] = useLocation();
  const wanted = name.trim();
  const known = cutups.find((cutup) => cutup.name.toLowerCase() === wanted.toLowerCase());

  const send = async () => {
    if (!known)
      return cutupCalls.make({
        name: wanted,
        ...(where === undefined ? {} : { where }),
        ...(playIds ? { playIds } : {}),
      });
    const more = playIds ?? (await service.answer(where ?? '', ['calls'])).playIds;
    return cutupCalls.add(known.cutupId, more);
  };

  const make = async (thenOpen: boolean) => {
    if (wanted === '' || sending) return;
    setSending(true);
    const cutup = await gesture(send);
    setSending(false);
    if (!cutup) return;
    cache.setQueryData(keys.cutup(cutup.cutupId), cutup);
    void cache.invalidateQueries({ queryKey: keys.cutups, exact: true });
    onDone();
    if (thenOpen) navigate(`/teach/${encodeURIComponent(cutup.cutupId)}`);
    else tellDone(`Cut-up “${cutup.name}” has ${cutup.items} clips. It stands in the Teach room.`);
  };

  return (
    <form
      className={classes.form}
      onSubmit={(event) => {
        event.preventDefault();
        void make(false);
      }}
    >
      <Autocomplete
        size="xs"
        label="Name of the cut-up"
        description={
          known ? `It is there; the plays join its ${known.items} clips.` : 'A new one, or one that is there'
        }
        data={cutups.map((cutup) => cutup.name)}
        value={name}
        onChange={setName}
        comboboxProps={{ withinPortal: false }}
        openOnFocus={false}
        data-autofocus
      />
      <div className={classes.formButtons}>
        <Button loading={sending} disabled={wanted === ''} onClick={() => void make(true)}>
          {known ? 'Add and open' : 'Make and open'}
        </Button>
        <Button type="submit" variant="filled" loading={sending} disabled={wanted === ''}>
          {known ? 'Add' : 'Make'}
        </Button>
      </div>
    </form>
  );
}
