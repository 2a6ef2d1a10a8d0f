import { Button } from '@mantine/core';
import { useEffect, useState } from 'react';
import { Dialog } from '../parts/Dialog.tsx';
import { useStore } from '../state/store.ts';
import { ALL_COMMANDS, commandNamed } from './all-commands.ts';
import { isMac, useCommand } from './Commands.tsx';
import { chordText, formatChord, parseChord } from './chord.ts';
import type { CommandDefinition } from './command.ts';
import classes from './HelpSheet.module.css';
import { chooseKeys, keyChoicesStore, withChoices } from './key-settings.ts';
import { commandGroups } from './keys-table.ts';

/** All keys on one sheet; each can be changed there. */
export function HelpSheet() {
  const [open, setOpen] = useState(false);
  useCommand('help.open', () => setOpen((now) => !now));
  return (
    <Dialog opened={open} onClose={() => setOpen(false)} title="Keys" size="min(1180px, 94vw)">
      <Sheet />
    </Dialog>
  );
}

function Sheet() {
  const choices = useStore(keyChoicesStore);
  const [changing, setChanging] = useState<string | null>(null);
  const [refusal, setRefusal] = useState<string | null>(null);

  useEffect(() => {
    if (!changing) return;
    // before the registry hears it: the next stroke is the key that is being chosen
    const onKey = (event: KeyboardEvent) => {
      event.preventDefault();
      event.stopPropagation();
      const chord = chordText(event, isMac);
      if (!chord) return;
      setChanging(null);
      if (chord === 'Escape') return;
      const conflict = chooseKeys(changing, [chord]);
      const other = conflict?.names.find((name) => name !== changing);
      setRefusal(
        conflict
          ? `${formatChord(parseChord(chord), isMac)} is taken by “${commandNamed(other ?? '')?.label ?? other}”.`
          : null,
      );
    };
    window.addEventListener('keydown', onKey, { capture: true });
    return () => window.removeEventListener('keydown', onKey, { capture: true });
  }, [changing]);

  return (
    <>
      <p className={classes.lead}>
        Bare keys act while no text field has the focus. On the log line the same film keys work with{' '}
        <kbd>{isMac ? 'Option' : 'Alt'}</kbd> held; <kbd>Esc</kbd> leaves the line and <kbd>Enter</kbd> comes
        back to it.
      </p>
      <p role="status" className={classes.refusal}>
        {refusal}
      </p>
      <div className={classes.groups}>
        {[...commandGroups(withChoices(ALL_COMMANDS, choices))].map(([group, commands]) => (
          <section key={group} className={classes.group} aria-label={group}>
            <h3 className="eyebrow">{group}</h3>
            <dl className={classes.list}>
              {commands.map(([name, command]) => (
                <div key={name} className={classes.row}>
                  <dt>
                    <Keys command={command} />
                  </dt>
                  <dd>
                    {command.label}
                    {command.help && <span className={classes.help}> {command.help}</span>}
                  </dd>
                  <dd>
                    <Change
                      name={name}
                      command={command}
                      changed={name in choices}
                      waiting={changing === name}
                      onChange={() => setChanging(name)}
                    />
                  </dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
      </div>
    </>
  );
}

function Keys({ command }: { readonly command: CommandDefinition }) {
  const outside = command.keys ?? [];
  const rest = [...(command.keysInText ?? []), ...Object.values(command.keysIn ?? {}).flat()];
  const chords = outside.length ? outside : [...new Set(rest)].slice(0, 2);
  return chords.map((chord) => <kbd key={chord}>{formatChord(parseChord(chord), isMac)}</kbd>);
}

function Change(props: {
  readonly name: string;
  readonly command: CommandDefinition;
  readonly changed: boolean;
  readonly waiting: boolean;
  readonly onChange: () => void;
}) {
  if (!props.command.keys) return <span />;
  if (props.waiting) return <span className={classes.waiting}>press a key</span>;
  return (
    <span className={classes.change}>
      {props.changed && (
        <Button
          size="compact-xs"
          variant="subtle"
          aria-label={`Take back the key of: ${props.command.label}`}
          onClick={() => chooseKeys(props.name, null)}
        >
          Reset
        </Button>
      )}
      <Button
        size="compact-xs"
        variant="subtle"
        color="gray"
        aria-label={`Change the key of: ${props.command.label}`}
        onClick={props.onChange}
      >
        Change
      </Button>
    </span>
  );
}
