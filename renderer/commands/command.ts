export type RoomName = 'film' | 'log' | 'ask' | 'teach' | 'playbook';

export type CommandGroup =
  | 'Station'
  | 'Film'
  | 'Plays'
  | 'Moments'
  | 'Log line'
  | 'Film room'
  | 'Ask'
  | 'Teach'
  | 'Playbook';

/** A thing that can be done, once for keys, palette, menus, help sheet and README. */
export interface CommandDefinition {
  /** as a button or menu says it */
  readonly label: string;
  readonly group: CommandGroup;
  /** chords that act while no text field has the focus */
  readonly keys?: readonly string[];
  /** chords that act while any text field has the focus */
  readonly keysInText?: readonly string[];
  /** chords that act while the focus is inside an element marked `data-keys` with that name */
  readonly keysIn?: Readonly<Record<string, readonly string[]>>;
  /** the one room it belongs to; missing where it can act in any */
  readonly room?: RoomName;
  /** a sentence for the help sheet where the label does not say all */
  readonly help?: string;
  /** not offered in the palette: it needs the place where the cursor is */
  readonly keysOnly?: boolean;
}

export type CommandTable = Readonly<Record<string, CommandDefinition>>;

/** Where a chord acts: outside of text, in any text field, or in a marked place. */
export interface KeyBinding {
  readonly name: string;
  readonly chord: string;
  readonly place: 'outside' | 'text' | { readonly in: string };
  readonly room: RoomName | null;
}

export function bindingsOf(table: CommandTable): KeyBinding[] {
  return Object.entries(table).flatMap(([name, command]) => {
    const room = command.room ?? null;
    const at = (chords: readonly string[] | undefined, place: KeyBinding['place']) =>
      (chords ?? []).map((chord) => ({ name, chord, place, room }));
    return [
      ...at(command.keys, 'outside'),
      ...at(command.keysInText, 'text'),
      ...Object.entries(command.keysIn ?? {}).flatMap(([place, chords]) => at(chords, { in: place })),
    ];
  });
}
