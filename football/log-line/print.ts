/** Prints a play as its shortest log line, one that reads back as the same values. */
import type { PlayColumns } from '../play.ts';
import { type FieldValue, type PlainValue, plainValue } from '../values.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';
import { spellingKey, type VocabularyIndex } from './index-vocabulary.ts';
import { quote } from './lex.ts';
import { readLogLine } from './read.ts';
import { isSettable } from './shorthand.ts';
import { fieldName, sayEntry, sayExplicitly, sayNumber, valueFromPlain } from './spell.ts';

type PrintedPlay = Partial<PlayColumns> & { readonly tags?: Readonly<Record<string, string | number>> };

/** The order of a printed line; the staff's own fields come before the note. */
const ORDER = (
  'quarter clock possession scoreFor scoreAgainst down distance yardsToGoal hash ' +
  'personnel formation receivers motion concept protection front coverage pressure rushers ' +
  'playKind result gain airYards yardsAfterCatch passer target carrier route readKey ' +
  'firstDown touchdown turnover safety fumble kickYards returnYards ' +
  'penalty penaltyOn penaltyYards penaltyOutcome'
).split(' ');

/** Which play it is, and where it belongs, is no part of what happened on it. */
const NOT_PRINTED = new Set(['playNumber', 'drive']);

/** A part of the line: the ways to write it, the shortest first, the surest last. */
interface Part {
  readonly values: ReadonlyMap<string, PlainValue>;
  readonly ways: readonly string[];
  way: number;
}

function plainOf(play: PrintedPlay, key: string): PlainValue {
  const column = (play as Readonly<Record<string, PlainValue | undefined>>)[key];
  return column ?? (play.tags && Object.hasOwn(play.tags, key) ? play.tags[key]! : null);
}

function waysOf(index: VocabularyIndex, field: FieldDefinition, value: FieldValue): string[] {
  const explicit = sayExplicitly(index, field, value);
  const name = fieldName(index, field.key);
  switch (value.kind) {
    case 'term': {
      const entry = index.terms.get(value.termId);
      return [
        ...(entry ? [sayEntry(index, entry, 'shortest')] : []),
        explicit,
        `${name}:${quote(value.name)}`,
      ];
    }
    case 'number':
      return [sayNumber(index, field, value.number), explicit];
    case 'flag': {
      const entry = index.entriesByField.get(field.key)?.[0];
      const word = entry ? sayEntry(index, entry, 'shortest') : explicit;
      return entry && !word.includes(':') ? [value.flag ? word : `!${word}`, explicit] : [explicit];
    }
    case 'player': {
      const { number } = value;
      const bare = number === null ? [] : [/^\p{L}+$/u.test(name) ? `${name}${number}` : `${name}:${number}`];
      const side = value.team === index.vocabulary.teams.ours ? 'us' : 'them';
      const sided = number === null || value.team === null ? [] : [`${name}:${side}${number}`];
      const label = quote(String(plainValue(value)));
      return [...bare, ...sided, `${name}:${label}`, explicit];
    }
    case 'text':
      return field.key === 'note' && /^\S(.*\S)?$/.test(value.text)
        ? [`; ${value.text}`, explicit]
        : [explicit];
    case 'clear':
      return [explicit];
  }
}

/** Two fields in one word, in front of the ways that say them apart. */
function join(a: Part | undefined, b: Part | undefined, word: string): Part | null {
  if (!a || !b) return null;
  return {
    values: new Map([...a.values, ...b.values]),
    ways: [word, `${a.ways[0]} ${b.ways[0]}`, `${a.ways.at(-1)} ${b.ways.at(-1)}`],
    way: 0,
  };
}

function joinParts(index: VocabularyIndex, parts: Map<string, Part>): void {
  const number = (key: string) => parts.get(key)?.values.get(key);
  const merge = (first: string, second: string, word: string) => {
    const joined = join(parts.get(first), parts.get(second), word);
    if (!joined) return;
    parts.set(first, joined);
    parts.delete(second);
  };
  merge('down', 'distance', `${number('down')}&${number('distance')}`);
  merge('scoreFor', 'scoreAgainst', `s${number('scoreFor')}-${number('scoreAgainst')}`);
  const digits = (key: string) => /^\p{L}+(\d+)$/u.exec(parts.get(key)?.ways[0] ?? '')?.[1];
  if (digits('passer') && digits('target'))
    merge('passer', 'target', `${digits('passer')}@${digits('target')}`);
  const by = parts.get('penaltyOn')?.values.get('penaltyOn');
  const side =
    by === plainTerm(index, 'penaltyOn:offense')
      ? 'o'
      : by === plainTerm(index, 'penaltyOn:defense')
        ? 'd'
        : null;
  if (side) merge('penaltyOn', 'penaltyYards', `${side}${number('penaltyYards')}`);
}

function plainTerm(index: VocabularyIndex, termId: string): PlainValue | undefined {
  const entry = index.terms.get(termId);
  return entry && plainValue(entry.value);
}

function partsOf(play: PrintedPlay, index: VocabularyIndex): Part[] {
  const own = [...index.fields.keys()].filter((key) => !ORDER.includes(key) && key !== 'note');
  const parts = new Map<string, Part>();
  for (const key of [...ORDER, ...own, 'note']) {
    const field = index.fields.get(key);
    if (!field || !isSettable(field.home) || NOT_PRINTED.has(key)) continue;
    const plain = plainOf(play, key);
    const value = valueFromPlain(index, field, plain, play.possession ?? null);
    if (value) parts.set(key, { values: new Map([[key, plain]]), ways: waysOf(index, field, value), way: 0 });
  }
  joinParts(index, parts);
  return [...parts.values()];
}

function saysPlain(
  field: FieldDefinition | undefined,
  read: PlainValue | undefined,
  plain: PlainValue,
): boolean {
  if (read === plain) return true;
  if (field?.kind !== 'term' || typeof read !== 'string' || typeof plain !== 'string') return false;
  return spellingKey(read) === spellingKey(plain);
}

/**
 * The shortest line that says the play, in a fixed order, without its number and drive. Reading it gives the
 * same values; terms and players that the vocabulary does not have are written out in quotes.
 */
export function printLogLine(play: PrintedPlay, index: VocabularyIndex): string {
  const parts = partsOf(play, index);
  for (;;) {
    const line = parts.map((part) => part.ways[part.way]).join(' ');
    const read = new Map(
      readLogLine(line, index).changes.map(({ field, value }) => [field, plainValue(value)]),
    );
    const wrong = parts.filter((part) =>
      [...part.values].some(([key, plain]) => !saysPlain(index.fields.get(key), read.get(key), plain)),
    );
    const movable = wrong.filter((part) => part.way < part.ways.length - 1);
    if (movable.length === 0) return line;
    for (const part of movable) part.way += 1;
  }
}
