import { readSetting, writeSetting } from '../state/settings.ts';
import { createStore } from '../state/store.ts';
import { ALL_COMMANDS } from './all-commands.ts';
import type { CommandTable } from './command.ts';
import { findConflicts, type KeyConflict } from './conflicts.ts';

/** Keys that the user chose, by command; they take the place of `keys`, the rest of a command stays. */
export type KeyChoices = Readonly<Record<string, readonly string[]>>;

export function withChoices(table: CommandTable, choices: KeyChoices): CommandTable {
  return Object.fromEntries(
    Object.entries(table).map(([name, command]) => {
      const keys = choices[name];
      return [name, keys ? { ...command, keys } : command];
    }),
  );
}

/** Choices kept from another version may collide with what the tables say now; those are dropped, one by one. */
export function soundChoices(table: CommandTable, choices: KeyChoices): KeyChoices {
  let sound: KeyChoices = {};
  for (const [name, keys] of Object.entries(choices)) {
    if (!table[name]) continue;
    const more = { ...sound, [name]: keys };
    try {
      if (findConflicts(withChoices(table, more)).length === 0) sound = more;
    } catch {
      // a chord that cannot be read is dropped as well
    }
  }
  return sound;
}

export const keyChoicesStore = createStore<KeyChoices>(
  soundChoices(ALL_COMMANDS, readSetting<KeyChoices>('keys', {})),
);

/** Gives a command other keys and keeps them; answers with the conflict, and changes nothing, where there is one. */
export function chooseKeys(name: string, keys: readonly string[] | null): KeyConflict | null {
  const { [name]: _old, ...rest } = keyChoicesStore.get();
  const choices: KeyChoices = keys ? { ...rest, [name]: keys } : rest;
  const [conflict] = findConflicts(withChoices(ALL_COMMANDS, choices));
  if (conflict) return conflict;
  keyChoicesStore.set(choices);
  writeSetting('keys', choices);
  return null;
}
