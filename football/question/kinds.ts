/** What may be asked of a field of each kind, and how a written value is read for it. */

import { parseClock, parseSpot } from '../values.ts';
import type { FieldDefinition, FieldKind } from '../vocabulary/fields.ts';
import type { Operator, QuestionValue } from './ast.ts';
import { isSavedField } from './saved.ts';

const EQUALITY: readonly Operator[] = ['=', '<>', 'in', 'notIn'];
const MISSING: readonly Operator[] = ['isNull', 'isNotNull'];
const SAME: readonly Operator[] = ['=field', '<>field'];
const WORDS: readonly Operator[] = [...EQUALITY, 'like', 'notLike', ...MISSING, ...SAME];
const NUMBERS: readonly Operator[] = [
  ...EQUALITY,
  ...(['<', '<=', '>', '>=', 'between', 'notBetween'] as const),
  ...MISSING,
  ...SAME,
  ...(['<field', '<=field', '>field', '>=field'] as const),
];

const OPERATORS: Readonly<Record<FieldKind, readonly Operator[]>> = {
  number: NUMBERS,
  clock: NUMBERS,
  spot: NUMBERS,
  text: WORDS,
  player: WORDS,
  term: [...WORDS, 'exactly', 'notExactly', 'exactlyIn', 'notExactlyIn'],
  flag: ['=', '<>', 'isTrue', 'isNotTrue', 'isFalse', 'isNotFalse', ...MISSING, ...SAME],
};

export function operatorsFor(kind: FieldKind): readonly Operator[] {
  return OPERATORS[kind];
}

/** The operators of a field; a saved question only holds or does not. */
export function operatorsOf(field: FieldDefinition): readonly Operator[] {
  return isSavedField(field) ? EQUALITY : OPERATORS[field.kind];
}

/** Whether two fields can be held against each other: numbers, flags, or words. */
export function areComparable(a: FieldDefinition, b: FieldDefinition): boolean {
  if (isSavedField(a) || isSavedField(b)) return false;
  return classOf(a.kind) === classOf(b.kind);
}

function classOf(kind: FieldKind): 'number' | 'flag' | 'words' {
  return isNumeric(kind) ? 'number' : kind === 'flag' ? 'flag' : 'words';
}

/** Kinds that are ordered and kept as a number. */
export function isNumeric(kind: FieldKind): boolean {
  return kind === 'number' || kind === 'clock' || kind === 'spot';
}

export type ReadValue =
  | { readonly ok: true; readonly value: QuestionValue }
  /** `says` follows the field's name in a sentence */
  | { readonly ok: false; readonly says: string; readonly next: string };

const read = (value: QuestionValue): ReadValue => ({ ok: true, value });
const refuse = (says: string, next: string): ReadValue => ({ ok: false, says, next });

function readNumber(value: QuestionValue): number | null {
  if (typeof value === 'boolean') return null;
  if (typeof value === 'string' && value.trim() === '') return null;
  const number = Number(value);
  // adding 0 makes -0 the 0 that prints and compares as one
  return Number.isFinite(number) ? number + 0 : null;
}

function readClock(value: QuestionValue): ReadValue {
  const written = typeof value === 'string' ? parseClock(value) : null;
  const seconds = written ?? readNumber(value);
  if (seconds === null || seconds < 0) return refuse('takes a time', "Write seconds, or '2:00'.");
  return read(seconds);
}

function readSpot(value: QuestionValue): ReadValue {
  const yards = typeof value === 'string' ? parseSpot(value) : readNumber(value);
  if (yards !== null && yards >= 0 && yards <= 100) return read(yards);
  return refuse(
    'takes a spot on the field',
    "Write yards to the goal from 1 to 99, or '-35' for the own 35 and '+20' for the opponent’s 20.",
  );
}

function readFlag(value: QuestionValue): ReadValue {
  if (typeof value === 'boolean') return read(value);
  if (value === 1 || value === 0) return read(value === 1);
  const word = typeof value === 'string' ? value.trim().toLowerCase() : '';
  if (word === 'true' || word === 'false') return read(word === 'true');
  return refuse('is either true or false', 'Write TRUE or FALSE.');
}

/** A value as this field keeps it: numbers for number, clock and spot, true or false for flags, else text. */
export function readValue(field: FieldDefinition, value: QuestionValue): ReadValue {
  switch (field.kind) {
    case 'number': {
      const number = readNumber(value);
      return number === null ? refuse('takes a number', 'Write digits, as in 7 or 2.5.') : read(number);
    }
    case 'clock':
      return readClock(value);
    case 'spot':
      return readSpot(value);
    case 'flag':
      return readFlag(value);
    default: {
      if (typeof value === 'boolean') return refuse('takes text', "Write it in quotes, as in 'stick'.");
      const text = String(value);
      // SQLite ends a text at a zero character, so the two answers could differ
      if (text.includes('\0')) return refuse('takes text', 'Leave out the zero character.');
      return read(text);
    }
  }
}
