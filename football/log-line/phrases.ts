/** Finds the longest run of words that the vocabulary knows, and the places where words divide in two ways. */
import {
  begunEntries,
  type Entry,
  exactEntries,
  spellingKey,
  type VocabularyIndex,
} from './index-vocabulary.ts';
import type { Piece } from './lex.ts';

export interface Phrase {
  /** pieces taken */
  readonly count: number;
  readonly entries: readonly Entry[];
  /** whole spellings, not beginnings of words */
  readonly exact: boolean;
  /** the same words divided differently: two phrases, one after the other */
  readonly otherwise?: { readonly first: readonly Entry[]; readonly second: readonly Entry[]; count: number };
}

const wordsOf = (pieces: readonly Piece[]) => pieces.flatMap((piece) => spellingKey(piece.value).split(' '));

function longest(
  index: VocabularyIndex,
  pieces: readonly Piece[],
  look: (words: readonly string[]) => readonly Entry[],
): { count: number; entries: readonly Entry[] } {
  for (let count = Math.min(pieces.length, index.longestSpelling); count > 0; count -= 1) {
    const words = wordsOf(pieces.slice(0, count));
    const entries = words.length > 0 ? look(words) : [];
    if (entries.length > 0) return { count, entries };
  }
  return { count: 0, entries: [] };
}

/** Whether whole spellings, or words `isForm` knows, cover all pieces. */
function covers(
  index: VocabularyIndex,
  pieces: readonly Piece[],
  isForm: (word: string) => boolean,
): boolean {
  let at = 0;
  while (at < pieces.length) {
    const { count } = longest(index, pieces.slice(at), (words) => exactEntries(index, words));
    if (count > 0) at += count;
    else if (isForm(pieces[at]!.value)) at += 1;
    else return false;
  }
  return true;
}

const fieldOf = (entry: Entry | undefined) => entry?.field.key;

/** `pressure field` + `goal line`, or `field goal` + `line`: whole spellings that lap over each other. */
function overlap(
  index: VocabularyIndex,
  pieces: readonly Piece[],
  count: number,
  field: string | undefined,
): Phrase['otherwise'] {
  for (let split = 1; split < count; split += 1) {
    const first = exactEntries(index, wordsOf(pieces.slice(0, split)), field);
    if (first.length === 0) continue;
    const second = longest(index, pieces.slice(split), (words) => exactEntries(index, words));
    if (split + second.count > count) return { first, second: second.entries, count: split + second.count };
  }
  return undefined;
}

/**
 * The longest phrase at the head of `pieces`, in one field if given. Whole spellings beat beginnings of words,
 * unless the beginning takes in more words that would otherwise mean nothing.
 */
export function findPhrase(
  index: VocabularyIndex,
  pieces: readonly Piece[],
  isForm: (word: string) => boolean,
  field?: string,
): Phrase | null {
  const exact = longest(index, pieces, (words) => exactEntries(index, words, field));
  const begun = longest(index, pieces, (words) => begunEntries(index, words, field));
  if (begun.count > exact.count && exact.count > 0) {
    const rest = pieces.slice(exact.count, begun.count);
    if (!covers(index, rest, isForm)) {
      const alone = begunEntries(index, wordsOf(rest));
      const otherField = alone.length === 1 && begun.entries.every((e) => fieldOf(e) !== fieldOf(alone[0]));
      return {
        ...begun,
        exact: false,
        ...(otherField ? { otherwise: { first: exact.entries, second: alone, count: begun.count } } : {}),
      };
    }
  } else if (begun.count > 0 && exact.count === 0) {
    return { ...begun, exact: false };
  }
  if (exact.count === 0) return null;
  const otherwise = exact.count > 1 ? overlap(index, pieces, exact.count, field) : undefined;
  return { ...exact, exact: true, ...(otherwise ? { otherwise } : {}) };
}
