import { Button, Popover, TextInput } from '@mantine/core';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { useCommand } from '../../commands/Commands.tsx';
import { cache, keys } from '../../service/cache.ts';
import { cutupCalls } from '../../service/cutup-calls.ts';
import { gesture } from '../../service/gesture.ts';
import { tellDone } from '../../service/problems.ts';

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

/** Asks for a name and makes the cut-up, then offers to go to it. */
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
  const [name, setName] = useState(suggested);
  const [sending, setSending] = useState(false);
  const [, navigate] = useLocation();

  const make = async (thenOpen: boolean) => {
    if (name.trim() === '' || sending) return;
    setSending(true);
    const cutup = await gesture(() =>
      cutupCalls.make({
        name: name.trim(),
        ...(where === undefined ? {} : { where }),
        ...(playIds ? { playIds } : {}),
      }),
    );
    setSending(false);
    if (!cutup) return;
    cache.setQueryData(keys.cutup(cutup.cutupId), cutup);
    void cache.invalidateQueries({ queryKey: keys.cutups, exact: true });
    onDone();
    if (thenOpen) navigate(`/teach/${cutup.cutupId}`);
    else tellDone(`Cut-up “${cutup.name}” has ${cutup.items} clips. It stands in the Teach room.`);
  };

  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        void make(false);
      }}
      style={{ display: 'grid', gap: 8 }}
    >
      <TextInput
        label="Name of the cut-up"
        value={name}
        onChange={(event) => setName(event.currentTarget.value)}
        data-autofocus
      />
      <div style={{ display: 'flex', gap: 8, justifyContent: 'flex-end' }}>
        <Button loading={sending} onClick={() => void make(true)}>
          Make and open
        </Button>
        <Button type="submit" variant="filled" loading={sending}>
          Make
        </Button>
      </div>
    </form>
  );
}
