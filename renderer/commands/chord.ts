/**
 * A chord as it is written in the command tables: modifiers, then one key, joined by `+`.
 * A key in brackets is a place on the keyboard (`[KeyA]`, the browser's `code`), for keys that are chosen by
 * where they lie; a bare one is what the key types or is called (`k`, `?`, `Enter`, `Space`).
 * `Mod` is Ctrl, or Command on a Mac.
 */
export interface Chord {
  readonly mod: boolean;
  readonly alt: boolean;
  readonly shift: boolean;
  readonly key: string | null;
  readonly code: string | null;
}

/** The parts of a keyboard event that a chord is matched against. */
export interface KeyStroke {
  readonly key: string;
  readonly code: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly shiftKey: boolean;
}

export function parseChord(text: string): Chord {
  // a trailing plus sign is the key itself
  const parts = text.endsWith('++') ? [...text.slice(0, -2).split('+'), '+'] : text.split('+');
  const last = parts.at(-1) ?? '';
  const modifiers = new Set(parts.slice(0, -1));
  for (const modifier of modifiers) {
    if (!['Mod', 'Alt', 'Shift'].includes(modifier))
      throw new Error(`No such modifier: ${modifier} in ${text}`);
  }
  const place = /^\[(\w+)\]$/.exec(last);
  return {
    mod: modifiers.has('Mod'),
    alt: modifiers.has('Alt'),
    shift: modifiers.has('Shift'),
    key: place ? null : last === 'Space' ? ' ' : last.length === 1 ? last.toLowerCase() : last,
    code: place?.[1] ?? null,
  };
}

/** A sign such as `?` is typed with or without Shift depending on the keyboard, so Shift says nothing there. */
const shiftIsPartOfKey = (key: string) => key.length === 1 && key !== ' ' && !/[\p{L}\d]/u.test(key);

export function matchesChord(chord: Chord, stroke: KeyStroke, mac: boolean): boolean {
  const mod = mac ? stroke.metaKey : stroke.ctrlKey;
  const other = mac ? stroke.ctrlKey : stroke.metaKey;
  if (other || mod !== chord.mod || stroke.altKey !== chord.alt) return false;
  if (chord.code !== null) return chord.code === stroke.code && chord.shift === stroke.shiftKey;
  const key = stroke.key.length === 1 ? stroke.key.toLowerCase() : stroke.key;
  if (key !== chord.key) return false;
  return shiftIsPartOfKey(key) || chord.shift === stroke.shiftKey;
}

/** The place that types a letter or digit on the commonest layout; how a named and a placed key can collide. */
function usualCode(key: string): string | null {
  if (/^[a-z]$/.test(key)) return `Key${key.toUpperCase()}`;
  if (/^\d$/.test(key)) return `Digit${key}`;
  return key === ' ' ? 'Space' : null;
}

/** Whether one stroke could mean both. */
export function chordsCollide(a: Chord, b: Chord): boolean {
  if (a.mod !== b.mod || a.alt !== b.alt) return false;
  const codes = [a, b].map((chord) => chord.code ?? usualCode(chord.key ?? ''));
  const same = codes[0] !== null ? codes[0] === codes[1] : a.key !== null && a.key === b.key;
  if (!same) return false;
  return (a.key !== null && shiftIsPartOfKey(a.key)) || a.shift === b.shift;
}

const KEY_NAMES: Readonly<Record<string, string>> = {
  ' ': 'Space',
  ArrowLeft: '←',
  ArrowRight: '→',
  ArrowUp: '↑',
  ArrowDown: '↓',
  PageUp: 'Page Up',
  PageDown: 'Page Down',
  Escape: 'Esc',
  Delete: 'Del',
};

const CODE_NAMES: Readonly<Record<string, string>> = {
  Backquote: '`',
  Minus: '-',
  Equal: '=',
  BracketLeft: '[',
  BracketRight: ']',
  Comma: ',',
  Period: '.',
  Slash: '/',
  Semicolon: ';',
};

function codeName(code: string): string {
  return CODE_NAMES[code] ?? code.replace(/^(Key|Digit)/, '');
}

/** The chord as it is printed on a key cap; `layout` names what a place types on this keyboard. */
export function formatChord(chord: Chord, mac: boolean, layout?: ReadonlyMap<string, string>): string {
  const key =
    chord.code !== null
      ? (layout?.get(chord.code)?.toUpperCase() ?? codeName(chord.code))
      : (KEY_NAMES[chord.key ?? ''] ?? (chord.key?.length === 1 ? chord.key.toUpperCase() : chord.key));
  return [
    chord.mod ? (mac ? 'Cmd' : 'Ctrl') : '',
    chord.alt ? (mac ? 'Option' : 'Alt') : '',
    chord.shift ? 'Shift' : '',
    key,
  ]
    .filter(Boolean)
    .join('+');
}

/** The chord that a stroke makes, by place for letters and digits, else by name; null for a bare modifier. */
export function chordText(stroke: KeyStroke, mac: boolean): string | null {
  if (['Control', 'Shift', 'Alt', 'Meta', 'AltGraph', 'Dead'].includes(stroke.key)) return null;
  const placed = /^(Key[A-Z]|Digit\d)$/.test(stroke.code);
  const key = placed ? `[${stroke.code}]` : stroke.key === ' ' ? 'Space' : stroke.key;
  const shift = stroke.shiftKey && (placed || !shiftIsPartOfKey(stroke.key));
  return [
    (mac ? stroke.metaKey : stroke.ctrlKey) ? 'Mod' : '',
    stroke.altKey ? 'Alt' : '',
    shift ? 'Shift' : '',
    key,
  ]
    .filter(Boolean)
    .join('+');
}
