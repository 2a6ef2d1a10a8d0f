import { Spotlight, type SpotlightActionData, spotlight } from '@mantine/spotlight';
import { useState } from 'react';
import { useStore } from '../state/store.ts';
import { ALL_COMMANDS } from './all-commands.ts';
import { dispatcher, isMac, useCommand } from './Commands.tsx';
import { formatChord, parseChord } from './chord.ts';
import { keyChoicesStore, withChoices } from './key-settings.ts';

/** Every command that can be done now, found by typing. */
export function Palette() {
  const [actions, setActions] = useState<SpotlightActionData[]>([]);
  const choices = useStore(keyChoicesStore);
  useCommand('palette.open', () => {
    const offered = Object.entries(withChoices(ALL_COMMANDS, choices)).filter(
      ([name, command]) => !command.keysOnly && dispatcher.handlerOf(name),
    );
    setActions(
      offered.map(([name, command]) => ({
        id: name,
        label: command.label,
        keywords: command.group,
        rightSection: (command.keys ?? [])
          .slice(0, 1)
          .map((chord) => <kbd key={chord}>{formatChord(parseChord(chord), isMac)}</kbd>),
        // the palette closes first, so that the command finds the focus where it was
        onClick: () => setTimeout(() => dispatcher.run(name)),
      })),
    );
    spotlight.open();
  });
  return (
    <Spotlight
      actions={actions}
      shortcut={null}
      highlightQuery
      scrollable
      maxHeight={420}
      nothingFound="No command of that name here"
      searchProps={{ placeholder: 'What do you want to do?', 'aria-label': 'Find a command' }}
    />
  );
}
