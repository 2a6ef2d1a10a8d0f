/** Looks words up in an indexed vocabulary: whole spellings, beginnings of words, names of fields. */
import type { FieldDefinition } from '../vocabulary/fields.ts';
import { type Entry, spellingKey, type Tail, type VocabularyIndex } from './index-vocabulary.ts';

/** The fields a name before a colon can mean; a full name beats the beginning of one. */
export function fieldsNamed(index: VocabularyIndex, name: string): readonly FieldDefinition[] {
  const key = spellingKey(name).replaceAll(' ', '');
  const full = index.fieldNames.get(name.toLowerCase()) ?? index.fieldNames.get(key);
  if (full) return full;
  const fields = new Set<FieldDefinition>();
  if (key) for (const { word, field } of index.fieldWords) if (word.startsWith(key)) fields.add(field);
  return [...fields];
}

/** Entries of which a spelling is these words, in the field if one is given. */
export function exactEntries(
  index: VocabularyIndex,
  words: readonly string[],
  field?: string,
): readonly Entry[] {
  const key = words.join(' ');
  const found = index.exact.get(key) ?? index.compact.get(words.join(''));
  if (!found) return [];
  return field === undefined ? found : found.filter((entry) => entry.field.key === field);
}

const isNumeral = (word: string) => /^\d+$/.test(word);
const begins = (word: string, part: string) => (isNumeral(part) ? word === part : word.startsWith(part));

function lowerBound(tails: readonly Tail[], text: string): number {
  let low = 0;
  let high = tails.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (tails[middle]!.text < text) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Tails that begin with the word, found by halving. */
function* tailsFrom(index: VocabularyIndex, first: string, field: string | undefined): Generator<Tail> {
  for (let at = lowerBound(index.tails, first); at < index.tails.length; at += 1) {
    const tail = index.tails[at]!;
    if (!tail.text.startsWith(first)) return;
    if (field === undefined || tail.spelling.entry.field.key === field) yield tail;
  }
}

/** How many of the words begin words of the spelling, in their order. */
function countInOrder(tail: Tail, words: readonly string[]): number {
  const own = tail.spelling.words;
  let at = tail.from;
  for (let count = 0; count < words.length; count += 1) {
    while (at < own.length && !begins(own[at]!, words[count]!)) at += 1;
    if (at === own.length) return count;
    at += 1;
  }
  return words.length;
}

/** A word inside a spelling needs three letters, and a number some company, to be the beginning of a term. */
const mayBegin = (tail: Tail, words: readonly string[], count: number) =>
  count > 1 || (!isNumeral(words[0]!) && (tail.from === 0 || words[0]!.length >= 3));

/**
 * Entries whose words begin with these, in their order: `cov sk` finds Cover 3 sky. A single word that is
 * not the first of a spelling needs three letters, and a bare number is never the beginning of anything.
 */
export function begunEntries(index: VocabularyIndex, words: readonly string[], field?: string): Entry[] {
  const [first] = words;
  if (!first) return [];
  const found = new Set<Entry>();
  for (const tail of tailsFrom(index, first, field))
    if (mayBegin(tail, words, words.length) && countInOrder(tail, words) === words.length)
      found.add(tail.spelling.entry);
  return [...found];
}

/** `begunEntries` for as many pieces as can be taken in, each with its words. */
export function longestBegun(
  index: VocabularyIndex,
  pieces: readonly { readonly words: readonly string[] }[],
  field?: string,
): { count: number; entries: readonly Entry[] } {
  const words: string[] = [];
  const ends = new Map<number, number>();
  for (let at = 0; at < pieces.length && words.length < index.longestSpelling; at += 1) {
    words.push(...pieces[at]!.words);
    ends.set(words.length, at + 1);
  }
  const [first] = words;
  const found = new Set<Entry>();
  let best = 0;
  if (first)
    for (const tail of tailsFrom(index, first, field)) {
      let count = countInOrder(tail, words);
      while (count > 0 && !ends.has(count)) count -= 1;
      if (count === 0 || count < best || !mayBegin(tail, words, count)) continue;
      if (count > best) found.clear();
      best = count;
      found.add(tail.spelling.entry);
    }
  return { count: ends.get(best) ?? 0, entries: [...found] };
}
