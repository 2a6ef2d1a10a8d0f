/** What the readers of bare words and of `field:value` share. */
import type { FormReading } from './forms.ts';
import type { Piece } from './lex.ts';
import type { Draft } from './readings.ts';

/** A draft, and how much of the line went into it. */
export interface Step {
  readonly draft: Draft;
  /** pieces taken */
  readonly count: number;
}

const isBareWord = (piece: Piece) => piece.kind === 'word' && piece.name === undefined;

/** The run of bare words at the head of `pieces`, which a phrase may be made of. */
export function bareRun(pieces: readonly Piece[]): Piece[] {
  const end = pieces.findIndex((piece) => !isBareWord(piece));
  return end < 0 ? [...pieces] : pieces.slice(0, end);
}

export function fromForm(form: FormReading, start: number, end: number, word: string): Draft {
  const { readings, incomplete, trouble, remark } = form;
  return {
    start,
    end,
    readings,
    ...(incomplete ? { incomplete } : {}),
    ...(trouble ? { trouble, unknown: { word, fields: [] } } : {}),
    ...(remark ? { remark } : {}),
  };
}

/** A stretch that is not finished yet. */
export function unfinished(start: number, end: number, message: string): Draft {
  return { start, end, readings: [], incomplete: { code: 'incomplete', message } };
}
