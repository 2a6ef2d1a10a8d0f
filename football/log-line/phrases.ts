/** Finds the longest run of words that the vocabulary knows, and the places where words divide in two ways. */
import type { Entry, VocabularyIndex } from './index-vocabulary.ts';
import type { Piece } from './lex.ts';
import { begunEntries, exactEntries, longestBegun } from './lookup.ts';

export interface Phrase {
  /** pieces taken */
  readonly count: number;
  readonly entries: readonly Entry[];
  /** whole spellings, not beginnings of words */
  readonly exact: boolean;
  /** the same words divided differently: two phrases, one after the other */
  readonly otherwise?: { readonly first: readonly Entry[]; readonly second: readonly Entry[]; count: number };
}

interface Found {
  readonly count: number;
  readonly entries: readonly Entry[];
}

const NOTHING: Found = { count: 0, entries: [] };

function wordsOf(pieces: readonly Piece[], from: number, to: number): readonly string[] {
  if (to - from === 1) return pieces[from]!.words;
  const words: string[] = [];
  for (let at = from; at < to; at += 1) words.push(...pieces[at]!.words);
  return words;
}

function longestExact(index: VocabularyIndex, pieces: readonly Piece[], from: number, field?: string): Found {
  const first = pieces[from]?.words[0];
  if (first === undefined) return NOTHING;
  const most = Math.max(1, index.longestFrom.get(first) ?? 1);
  for (let count = Math.min(pieces.length - from, most); count > 0; count -= 1) {
    const entries = exactEntries(index, wordsOf(pieces, from, from + count), field);
    if (entries.length > 0) return { count, entries };
  }
  return NOTHING;
}

/** Whether whole spellings, or words `isForm` knows, cover the pieces from `from` to `to`. */
function covers(
  index: VocabularyIndex,
  pieces: readonly Piece[],
  from: number,
  to: number,
  isForm: (word: string) => boolean,
): boolean {
  let at = from;
  while (at < to) {
    const { count } = longestExact(index, pieces, at);
    if (count > 0) at += count;
    else if (isForm(pieces[at]!.value)) at += 1;
    else return false;
  }
  return true;
}

/** `pressure field` + `goal line`, or `field goal` + `line`: whole spellings that lap over each other. */
function overlap(
  index: VocabularyIndex,
  pieces: readonly Piece[],
  count: number,
  field: string | undefined,
): Phrase['otherwise'] {
  for (let split = 1; split < count; split += 1) {
    const first = exactEntries(index, wordsOf(pieces, 0, split), field);
    if (first.length === 0) continue;
    const second = longestExact(index, pieces, split);
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
  const exact = longestExact(index, pieces, 0, field);
  const begun = longestBegun(index, pieces, field);
  if (begun.count > exact.count) {
    if (exact.count === 0) return { ...begun, exact: false };
    if (!covers(index, pieces, exact.count, begun.count, isForm)) {
      const second = begunEntries(index, wordsOf(pieces, exact.count, begun.count));
      const [only] = second;
      const parts = second.length === 1 && begun.entries.every((entry) => entry.field !== only!.field);
      return {
        ...begun,
        exact: false,
        ...(parts ? { otherwise: { first: exact.entries, second, count: begun.count } } : {}),
      };
    }
  }
  if (exact.count === 0) return null;
  const otherwise = exact.count > 1 ? overlap(index, pieces, exact.count, field) : undefined;
  return { ...exact, exact: true, ...(otherwise ? { otherwise } : {}) };
}
