/** What to offer for a word that means nothing: near terms, numbers of fields, new terms. */
import { formatValue, numberTrouble, parseNumber } from '../values.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';
import { type Entry, spellingKey, type VocabularyIndex } from './index-vocabulary.ts';
import { quote } from './lex.ts';
import type { Draft } from './readings.ts';
import { isSettable } from './shorthand.ts';
import { fieldName, sayEntry, sayNumber } from './spell.ts';
import type { Candidate } from './types.ts';

const MOST_NEAR = 4;
/** Fields a bare number may have been meant for, the likeliest slip first. */
const NUMBER_FIELDS = ['gain', 'rushers', 'airYards', 'yardsAfterCatch', 'kickYards', 'returnYards'];

/** Edits between two words (a letter more, less, other, or two swapped), or more than `limit`. */
function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, at) => at);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, before[j - 2]! + 1);
      row.push(least);
    }
    before = last;
    last = row;
  }
  return last[b.length]!;
}

function nearEntries(index: VocabularyIndex, word: string, fields: readonly FieldDefinition[] | undefined) {
  const key = spellingKey(word);
  if (key.length < 3 || /^\d/.test(key)) return [];
  const limit = key.length < 6 ? 1 : 2;
  const near = new Map<Entry, number>();
  for (const [spelling, entries] of index.exact) {
    if (Math.abs(spelling.length - key.length) > limit) continue;
    const distance = editDistance(key, spelling, limit);
    if (distance > limit) continue;
    for (const entry of entries) {
      if (fields && !fields.includes(entry.field)) continue;
      near.set(entry, Math.min(distance, near.get(entry) ?? limit));
    }
  }
  return [...near]
    .sort((a, b) => a[1] - b[1])
    .slice(0, MOST_NEAR)
    .map(([entry]) => entry);
}

/** Fields whose name is nearly what stands before the colon. */
function nearFields(index: VocabularyIndex, word: string): Candidate[] {
  const colon = word.indexOf(':');
  if (colon < 3) return [];
  const name = word.slice(0, colon).toLowerCase();
  const limit = name.length < 6 ? 1 : 2;
  const near = index.fieldWords.filter((known) => editDistance(name, known.word, limit) <= limit);
  return [...new Set(near.map(({ field }) => field))].slice(0, MOST_NEAR).map(({ key, label }) => ({
    kind: 'field',
    field: key,
    display: label,
    insert: `${fieldName(index, key)}${word.slice(colon)}`,
  }));
}

/** The field a new word looks like, by its shape; it only sets the order of the offers. */
function likelyField(word: string): string | undefined {
  if (/^\d+x\d+$/i.test(word)) return 'receivers';
  return /^\d\d$/.test(word) ? 'personnel' : undefined;
}

/** The fields a number may have been meant for, as `g7`. */
export function numberOffers(index: VocabularyIndex, word: string, taken: ReadonlySet<string>): Candidate[] {
  const number = parseNumber(word);
  if (number === null) return [];
  return NUMBER_FIELDS.flatMap((key) => {
    const field = index.fields.get(key);
    if (!field || taken.has(key) || numberTrouble(field, number)) return [];
    const value = { kind: 'number' as const, number };
    const display = `${field.label}: ${formatValue(field, value)}`;
    return [{ kind: 'value' as const, field: key, value, display, insert: sayNumber(index, field, number) }];
  });
}

/** Offers for an unknown word, the nearest first; fields that the line has taken are left out. */
export function offersFor(index: VocabularyIndex, draft: Draft, taken: ReadonlySet<string>): Candidate[] {
  const { unknown } = draft;
  if (!unknown) return [];
  const { word, fields } = unknown;
  const valueOffer = (entry: Entry): Candidate => ({
    kind: 'value',
    field: entry.field.key,
    value: entry.value,
    display: `${entry.field.label}: ${formatValue(entry.field, entry.value)}`,
    insert: sayEntry(index, entry, 'name'),
  });
  const named = fields ? [] : nearFields(index, word);
  if (named.length > 0) return named;
  const near = nearEntries(index, word, fields).map(valueOffer);

  // A closed field takes no new term, so it shows the ones it has.
  const closed = (fields ?? []).filter((field) => field.closed);
  const takes = closed.flatMap((field) => index.entriesByField.get(field.key) ?? []).map(valueOffer);
  if (takes.length > 0) return takes;
  const numbers = numberOffers(index, word, taken);
  const likely = likelyField(word);
  const open = (fields ?? [...index.fields.values()])
    .filter((field) => field.kind === 'term' && !field.closed && isSettable(field.home))
    .filter((field) => field.key !== 'possession' && (fields !== undefined || !taken.has(field.key)))
    .sort((a, b) => Number(b.key === likely) - Number(a.key === likely));
  const terms = word.replace(/[^\p{L}\p{N}]/gu, '')
    ? open.map((field) => ({
        kind: 'newTerm' as const,
        field: field.key,
        display: `${field.label}: ${word} (new)`,
        insert: `${fieldName(index, field.key)}:${/^[\p{L}\p{N}-]+$/u.test(word) ? word : quote(word)}`,
      }))
    : [];
  return likely && terms.length > 0
    ? [...near, terms[0]!, ...numbers, ...terms.slice(1)]
    : [...near, ...numbers, ...terms];
}
