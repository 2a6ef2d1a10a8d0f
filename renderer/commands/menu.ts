import { ALL_COMMANDS } from './all-commands.ts';
import { parseChord } from './chord.ts';
import type { CommandTable } from './command.ts';
import { commandGroups } from './keys-table.ts';

export interface MenuItem {
  readonly name: string;
  readonly label: string;
  /** as a native menu prints it; the page itself listens for the key */
  readonly accelerator: string | null;
}

export interface MenuGroup {
  readonly label: string;
  readonly items: readonly MenuItem[];
}

/** Plain data from which a desktop shell builds its menus; choosing an item sends its name back. */
export function commandMenu(table: CommandTable = ALL_COMMANDS): MenuGroup[] {
  return [...commandGroups(table)]
    .map(([label, commands]) => ({
      label,
      items: commands
        .filter(([, command]) => !command.keysOnly)
        .map(([name, command]) => ({
          name,
          label: command.label,
          accelerator: accelerator(command.keys?.[0]),
        })),
    }))
    .filter((group) => group.items.length > 0);
}

/** Only chords with Ctrl or Command are printed: a menu must not swallow bare letters. */
function accelerator(chord: string | undefined): string | null {
  if (!chord) return null;
  const { mod, alt, shift, key, code } = parseChord(chord);
  if (!mod) return null;
  const name = key ?? code!.replace(/^(Key|Digit)/, '');
  return ['CmdOrCtrl', alt && 'Alt', shift && 'Shift', name.length === 1 ? name.toUpperCase() : name]
    .filter(Boolean)
    .join('+');
}
