import { Button, Popover, TextInput } from '@mantine/core';
import { useRef, useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { CutupView } from '../../../electron/service/views.ts';
import { useCommand } from '../../commands/Commands.tsx';
import { cache, keys } from '../../service/cache.ts';
import { cutupCalls } from '../../service/cutup-calls.ts';
import { gesture } from '../../service/gesture.ts';
import { byFolder } from './folders.ts';
import classes from './teach.module.css';

/** The staff's cut-ups by folder. */
export function CutupList({
  cutups,
  open,
}: {
  readonly cutups: readonly CutupView[];
  readonly open: string | null;
}) {
  const [adding, setAdding] = useState(false);
  const list = useRef<HTMLElement>(null);
  useCommand('cutup.new', () => setAdding(true));
  useCommand('cutup.list', () =>
    list.current?.querySelector<HTMLElement>('a[aria-current=true], a')?.focus(),
  );
  return (
    <nav className={classes.side} aria-label="Cut-ups" ref={list} data-noprint>
      <div className={classes.sideHead}>
        <h2>Cut-ups</h2>
        <Popover
          opened={adding}
          onChange={setAdding}
          position="bottom-start"
          width={260}
          trapFocus
          shadow="md"
        >
          <Popover.Target>
            <Button onClick={() => setAdding((now) => !now)}>New</Button>
          </Popover.Target>
          <Popover.Dropdown aria-label="A new cut-up">
            {adding && <NewCutup onDone={() => setAdding(false)} />}
          </Popover.Dropdown>
        </Popover>
      </div>
      <div className={classes.sideList}>
        {byFolder(cutups).map(({ folder, items }) => (
          <section key={folder ?? ''} aria-label={folder ?? 'Without a folder'}>
            {folder && <h3 className={`eyebrow ${classes.folder}`}>{folder}</h3>}
            {items.map((cutup) => (
              <Link
                key={cutup.cutupId}
                href={`/teach/${encodeURIComponent(cutup.cutupId)}`}
                className={classes.cutup}
                aria-current={cutup.cutupId === open}
              >
                <span>{cutup.name}</span>
                <span className={classes.count}>{cutup.items}</span>
              </Link>
            ))}
          </section>
        ))}
      </div>
    </nav>
  );
}

function NewCutup({ onDone }: { readonly onDone: () => void }) {
  const [name, setName] = useState('');
  const [, navigate] = useLocation();
  const make = async () => {
    const cutup = name.trim() && (await gesture(() => cutupCalls.make({ name: name.trim() })));
    if (!cutup) return;
    await cache.invalidateQueries({ queryKey: keys.cutups, exact: true });
    navigate(`/teach/${encodeURIComponent(cutup.cutupId)}`);
    onDone();
  };
  return (
    <form
      className={classes.form}
      onSubmit={(event) => {
        event.preventDefault();
        void make();
      }}
    >
      <TextInput
        label="Name"
        value={name}
        onChange={(event) => setName(event.currentTarget.value)}
        data-autofocus
      />
      <Button type="submit" variant="filled" disabled={name.trim() === ''}>
        Make it
      </Button>
    </form>
  );
}
