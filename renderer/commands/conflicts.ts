import { chordsCollide, parseChord } from './chord.ts';
import { bindingsOf, type CommandTable, type KeyBinding } from './command.ts';

export interface KeyConflict {
  readonly chord: string;
  readonly names: readonly [string, string];
}

function placesMeet(a: KeyBinding['place'], b: KeyBinding['place']): boolean {
  if (typeof a === 'object' && typeof b === 'object') return a.in === b.in;
  // a marked place is a text field, or holds one
  if (typeof a === 'object') return b === 'text';
  if (typeof b === 'object') return a === 'text';
  return a === b;
}

/** Pairs of commands that one stroke could mean in the same place. */
export function findConflicts(table: CommandTable): KeyConflict[] {
  const bindings = bindingsOf(table).map((binding) => ({ binding, chord: parseChord(binding.chord) }));
  const found: KeyConflict[] = [];
  bindings.forEach((a, index) => {
    for (const b of bindings.slice(index + 1)) {
      const roomsMeet =
        a.binding.room === null || b.binding.room === null || a.binding.room === b.binding.room;
      if (!roomsMeet || !placesMeet(a.binding.place, b.binding.place)) continue;
      if (chordsCollide(a.chord, b.chord))
        found.push({ chord: a.binding.chord, names: [a.binding.name, b.binding.name] });
    }
  });
  return found;
}

/** The table itself, if no stroke in it means two things. */
export function refuseConflicts<T extends CommandTable>(table: T): T {
  const [first] = findConflicts(table);
  if (first) throw new Error(`${first.chord} would mean both ${first.names[0]} and ${first.names[1]}`);
  return table;
}
