/** The shapes that go into the log line and come out of it. */
import type { PlayColumns } from '../play.ts';
import type { Problem } from '../result.ts';
import type { FieldValue } from '../values.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';

export interface VocabularyTerm {
  readonly id: string;
  /** field key */
  readonly field: string;
  readonly name: string;
  readonly parentId?: string | null;
  readonly aliases: readonly string[];
}

export interface VocabularyPlayer {
  readonly id: string;
  readonly number: number | null;
  readonly name: string;
  /** name of the team, as in `Vocabulary.teams` */
  readonly team: string;
  readonly position?: string | null;
}

/** All that a line can be understood by. Possession needs no terms of its own: the two teams are its terms. */
export interface Vocabulary {
  readonly fields: readonly FieldDefinition[];
  readonly terms: readonly VocabularyTerm[];
  readonly players: readonly VocabularyPlayer[];
  readonly teams: { readonly ours: string; readonly opponent: string | null };
}

/** What is known about the play apart from the line: stored values over predicted ones. */
export interface LogLineContext {
  readonly play?: Partial<PlayColumns> & { readonly tags?: Readonly<Record<string, string | number>> };
}

export type TokenStatus =
  | 'understood'
  /** means two or more things; `candidates` lists them */
  | 'ambiguous'
  /** means nothing; `candidates` lists near terms, and fields that could take it as a new term */
  | 'unknown'
  /** the start of something, as `2&` */
  | 'incomplete'
  /** gives a field another value than some other word of the line */
  | 'conflict';

/** One field set or cleared. */
export interface FieldChange {
  readonly field: string;
  readonly value: FieldValue;
}

/** A way to settle a word: put `insert` in its place. */
export interface Candidate {
  readonly kind:
    | 'value'
    /** the word becomes a term of `field`; the caller adds the term, then reads the line again */
    | 'newTerm'
    /** the field is meant, its value is still to be typed */
    | 'field';
  readonly field: string;
  readonly value?: FieldValue;
  /** for people, as `Concept: screen` */
  readonly display: string;
  readonly insert: string;
}

export interface LogToken {
  /** `line.slice(start, end)` */
  readonly text: string;
  readonly start: number;
  readonly end: number;
  readonly status: TokenStatus;
  /** the first field the token sets */
  readonly field?: string;
  readonly value?: FieldValue;
  /** all that the token sets: `2&7` sets two fields */
  readonly sets: readonly FieldChange[];
  /** for people, as `Down: 2, Distance: 7` */
  readonly display?: string;
  readonly candidates: readonly Candidate[];
}

export interface LineChange extends FieldChange {
  /** index of the token that said it */
  readonly via: number;
}

export interface LineProblem extends Problem {
  /** index of the token */
  readonly token: number;
  /** whether the line cannot be committed while this stands */
  readonly blocks: boolean;
}

export interface LogLineReading {
  /** in the order of the line; what lies between two tokens is blank */
  readonly tokens: readonly LogToken[];
  /** one per field; empty for fields in conflict */
  readonly changes: readonly LineChange[];
  readonly problems: readonly LineProblem[];
  /** every word was understood: the line may be committed */
  readonly ready: boolean;
}

/** Shares of a field's values, by `valueKey`, 0..1; empty where nothing is known. */
export type Likelihood = (fieldKey: string) => ReadonlyMap<string, number>;

export interface Suggestion {
  /** replaces `line.slice(start, end)`, and reads as this value alone */
  readonly insert: string;
  readonly start: number;
  readonly end: number;
  readonly field: string;
  readonly value?: FieldValue;
  readonly display: string;
  /** how often this play's like had it, 0..1 */
  readonly share?: number;
}
