/** Values as text that reads back as exactly that value. */
import {
  type FieldValue,
  formatPlain,
  formatValue,
  type PlainValue,
  type PlayerValue,
  playerLabel,
} from '../values.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';
import { type Entry, spellingKey, type VocabularyIndex } from './index-vocabulary.ts';
import { quote } from './lex.ts';
import { exactEntries } from './lookup.ts';
import type { FieldChange } from './types.ts';

/** What to write before the colon. */
export function fieldName(index: VocabularyIndex, key: string): string {
  return index.shortNames.get(key) ?? key;
}

const isPlainWord = (text: string) => /^[\p{L}\p{N}][\p{L}\p{N}/.'-]*$/u.test(text);

/** `field:value`, quoted where it has to be: settles every doubt. */
export function sayExplicitly(index: VocabularyIndex, field: FieldDefinition, value: FieldValue): string {
  const name = fieldName(index, field.key);
  switch (value.kind) {
    case 'clear':
      return `${name}:-`;
    case 'text':
      return `${name}:${quote(value.text)}`;
    case 'term':
      return `${name}:${isPlainWord(value.name) ? value.name : quote(value.name)}`;
    case 'player':
      return `${name}:${sayPlayer(index, value)}`;
    case 'number':
    case 'flag':
      return `${name}:${formatValue(field, value)}`;
  }
}

/** By number where that is enough, with the side before it; else by number and name. */
function sayPlayer(index: VocabularyIndex, player: PlayerValue): string {
  const { teams } = index.vocabulary;
  const side = player.team === null ? '' : player.team === teams.ours ? 'us' : 'them';
  if (player.number !== null) {
    const wearers = index.playersByNumber.get(player.number) ?? [];
    const sameSide = wearers.filter(({ team }) => player.team === null || team === player.team);
    const isEnough = player.playerId === null ? player.name === null : sameSide.length === 1;
    if (isEnough) return `${wearers.length === sameSide.length && !side ? '' : side}${player.number}`;
  }
  return quote(`${side}${side ? ' ' : ''}${playerLabel(player)}`);
}

/** Whether the text, on its own, can mean this entry only. */
function saysOnly(index: VocabularyIndex, text: string, entry: Entry): boolean {
  if (!/^[\p{L}\p{N}][\p{L}\p{N}\s/.'-]*$/u.test(text)) return false;
  const found = exactEntries(index, spellingKey(text).split(' '));
  return found.length === 1 && found[0] === entry;
}

/** A term or a set flag without its field where that is clear: by its name, or by its shortest spelling. */
export function sayEntry(index: VocabularyIndex, entry: Entry, prefer: 'name' | 'shortest'): string {
  const { value, field } = entry;
  const name = value.kind === 'term' ? value.name : (entry.spellings[0] ?? field.key);
  if (prefer === 'name' && saysOnly(index, name, entry)) return name;
  if (prefer === 'name') return sayExplicitly(index, field, value);
  const bare = entry.spellings.find((spelling) => saysOnly(index, spelling, entry));
  const named = entry.spellings.find(
    (spelling) =>
      isPlainWord(spelling) && exactEntries(index, [spellingKey(spelling)], field.key).length === 1,
  );
  const explicit =
    named === undefined || value.kind === 'flag'
      ? sayExplicitly(index, field, value)
      : `${fieldName(index, field.key)}:${named}`;
  return bare !== undefined && bare.length <= explicit.length ? bare : explicit;
}

/** A number behind its field's letter, as `g7`; spots and clocks need none. */
export function sayNumber(index: VocabularyIndex, field: FieldDefinition, number: number): string {
  const text = formatPlain(field, number);
  if (field.kind !== 'number') return field.kind === 'spot' || field.kind === 'clock' ? text : `${text}`;
  const name = fieldName(index, field.key);
  return /^\p{L}+$/u.test(name) ? `${name}${text}` : `${name}:${text}`;
}

/** For people: `Concept: screen`. */
export function displayOf(index: VocabularyIndex, sets: readonly FieldChange[]): string {
  return sets
    .map(({ field, value }) => {
      const definition = index.fields.get(field);
      if (!definition) return field;
      const text = value.kind === 'clear' ? 'cleared' : formatValue(definition, value);
      return `${definition.label}: ${text}`;
    })
    .join(', ');
}

/** A plain value of a play record as a field value; null where there is nothing to say. */
export function valueFromPlain(
  index: VocabularyIndex,
  field: FieldDefinition,
  plain: PlainValue,
  possession: string | null,
): FieldValue | null {
  if (plain === null) return null;
  if (typeof plain === 'boolean') return { kind: 'flag', flag: plain };
  if (typeof plain === 'number') return { kind: 'number', number: plain };
  if (field.kind === 'text') return { kind: 'text', text: plain };
  if (field.kind === 'player') return playerFromLabel(index, plain, possession);
  const key = spellingKey(plain);
  const entry = index.entriesByField
    .get(field.key)
    ?.find(({ value }) => value.kind === 'term' && spellingKey(value.name) === key);
  return entry?.value ?? { kind: 'term', termId: '', name: plain };
}

function playerFromLabel(index: VocabularyIndex, label: string, possession: string | null): FieldValue {
  const labelled = index.vocabulary.players.filter((player) => playerLabel(player) === label);
  const player = labelled.find(({ team }) => team === possession) ?? labelled[0];
  if (player) {
    const { id, number, name, team } = player;
    return { kind: 'player', playerId: id, number, name, team };
  }
  const match = /^#(\d{1,3})(?:\s+(.*))?$/.exec(label);
  if (!match) return { kind: 'player', playerId: null, number: null, name: label, team: null };
  return { kind: 'player', playerId: null, number: Number(match[1]), name: match[2] ?? null, team: null };
}
