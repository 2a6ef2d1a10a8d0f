/** What a stretch of the line may mean, before the rest of the line has had its say. */
import type { FieldValue } from '../values.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';
import type { Entry, VocabularyIndex } from './index-vocabulary.ts';
import { sayExplicitly } from './spell.ts';
import type { Candidate, FieldChange } from './types.ts';

export interface Reading {
  readonly sets: readonly FieldChange[];
  /** the text that means this and nothing else */
  readonly insert: string;
  /** the families of the term it sets */
  readonly families?: readonly string[];
  /** only means this where the line or the play has a foul */
  readonly needsFoul?: boolean;
}

export interface Trouble {
  readonly code: string;
  readonly message: string;
  readonly next?: string;
}

/** A stretch of the line and all it may mean. */
export interface Draft {
  readonly start: number;
  readonly end: number;
  readonly readings: readonly Reading[];
  /** two ways to divide the words: only the coach can say which */
  readonly fixed?: boolean;
  /** the start of something */
  readonly incomplete?: Trouble;
  /** why it means nothing */
  readonly trouble?: Trouble;
  /** said beside a word that was understood */
  readonly remark?: Trouble;
  /** what to offer where there is no reading */
  readonly offers?: readonly Candidate[];
  /** the word as it would become a new term, and the field it was said to be of */
  readonly unknown?: { readonly word: string; readonly fields?: readonly FieldDefinition[] };
}

/** What readings depend on from outside their own words. */
export interface Scope {
  readonly possession: string | null;
  readonly yardsToGoal: number | null;
}

export function readingOf(index: VocabularyIndex, field: FieldDefinition, value: FieldValue): Reading {
  return { sets: [{ field: field.key, value }], insert: sayExplicitly(index, field, value) };
}

export function entryReading(index: VocabularyIndex, entry: Entry): Reading {
  return { ...readingOf(index, entry.field, entry.value), families: entry.families };
}
