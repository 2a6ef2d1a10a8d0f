/** Rows brought into groups by the values of fields. */

import { splitStep } from '../../football/question/neighbour.ts';
import type { Families } from '../../football/question/vocabulary.ts';
import type { FieldDefinition } from '../../football/vocabulary/fields.ts';
import type { Column } from './column.ts';

/** A value that groups plays: a term's name, a label, a number, a flag; null where it is missing. */
export type GroupValue = string | number | boolean | null;

export interface GroupBy {
  readonly field: string;
  /** terms by the family at the top, so that Cover 3 sky counts as Cover 3 */
  readonly families?: boolean;
}

/** One side of a table: which group each row is in, and what the groups are called, in order. */
export interface Axis {
  /** one for each of the rows asked, from 0 */
  readonly groupOf: Int32Array;
  readonly keys: readonly (readonly GroupValue[])[];
}

export interface GroupSource {
  readonly families: Families;
  fieldOf(key: string): { readonly field: FieldDefinition; readonly column: Column };
}

/** Groups in the order of their keys: numbers upward, words by the alphabet, missing last. No field: one group. */
export function axisOf(rows: Int32Array, by: readonly GroupBy[], source: GroupSource): Axis {
  let axis: Axis | null = null;
  for (const part of by) {
    const next = fieldAxis(rows, part, source);
    axis = axis ? cross(axis, next) : next;
  }
  return axis ?? { groupOf: new Int32Array(rows.length), keys: rows.length > 0 ? [[]] : [] };
}

/** The groups of both sides together, only those in which there are rows, in the order of both. */
export function cross(a: Axis, b: Axis): Axis {
  const width = b.keys.length;
  if (width === 1 && b.keys[0]!.length === 0) return a;
  const pairs = new Float64Array(a.groupOf.length);
  for (let i = 0; i < pairs.length; i++) pairs[i] = a.groupOf[i]! * width + b.groupOf[i]!;
  const { groupOf, found } = compact(pairs, a.keys.length * width);
  return {
    groupOf,
    keys: found.map((pair) => [...a.keys[Math.floor(pair / width)]!, ...b.keys[pair % width]!]),
  };
}

/** More pairs than this are found by a set, so that two long lists don't ask for the memory of their product. */
const LISTED = 1 << 22;

/** Numbers from 0 for whichever of `0..size` occur, rising with them. */
function compact(values: Float64Array, size: number): { groupOf: Int32Array; found: number[] } {
  const groupOf = new Int32Array(values.length);
  if (size > LISTED) {
    const found = [...new Set(values)].sort((a, b) => a - b);
    const place = new Map(found.map((value, at) => [value, at]));
    for (let i = 0; i < values.length; i++) groupOf[i] = place.get(values[i]!)!;
    return { groupOf, found };
  }
  const place = new Int32Array(size);
  for (let i = 0; i < values.length; i++) place[values[i]!] = 1;
  const found: number[] = [];
  for (let value = 0; value < size; value++) if (place[value] === 1) place[value] = found.push(value) - 1;
  for (let i = 0; i < values.length; i++) groupOf[i] = place[values[i]!]!;
  return { groupOf, found };
}

/** A field's values as small codes: which one each row has, how many rows have each, and what each is. */
interface Coded {
  readonly codes: Int32Array;
  readonly counts: Int32Array;
  readonly keyOf: (code: number) => GroupValue;
}

function fieldAxis(rows: Int32Array, part: GroupBy, source: GroupSource): Axis {
  const { codes, counts, keyOf } = codesOf(rows, part, source);
  const groups = new Map<GroupValue, number[]>();
  for (let code = 0; code < counts.length; code++) {
    if (counts[code] === 0) continue;
    const key = keyOf(code);
    const members = groups.get(key);
    if (members) members.push(code);
    else groups.set(key, [code]);
  }
  const keys = inOrder([...groups.keys()]);
  const place = new Int32Array(counts.length);
  for (const [at, key] of keys.entries()) for (const code of groups.get(key)!) place[code] = at;
  for (let i = 0; i < codes.length; i++) codes[i] = place[codes[i]!]!;
  return { groupOf: codes, keys: keys.map((key) => [key]) };
}

function codesOf(rows: Int32Array, { field: key, families }: GroupBy, source: GroupSource): Coded {
  const { field, column } = source.fieldOf(key);
  const { codes: all, values } = column;
  const codes = new Int32Array(rows.length);
  const counts = new Int32Array(values.length);
  for (let i = 0; i < rows.length; i++) {
    const code = all[rows[i]!]!;
    codes[i] = code;
    counts[code] = counts[code]! + 1;
  }
  return { codes, counts, keyOf: keysOf(field, column, families === true, source) };
}

/** What the codes of a column are called: a term by its family where that is asked, a flag as true or false. */
export function keysOf(
  field: FieldDefinition,
  { values }: Column,
  families: boolean,
  source: GroupSource,
): (code: number) => GroupValue {
  if (field.kind === 'flag') return (code) => (code === 0 ? null : values[code] === 1);
  if (!families || field.kind !== 'term') return (code) => (code === 0 ? null : values[code]!);
  const { key } = splitStep(field.key);
  return (code) => (code === 0 ? null : source.families.rootOf(key, String(values[code])));
}

const ALPHABET = new Intl.Collator('en', { numeric: true });
/** Of more words than this nobody reads the list, and the rules of the alphabet would take longer than the count. */
const READABLE = 2_000;

export function inOrder(keys: GroupValue[]): GroupValue[] {
  const words = keys.length > READABLE ? () => 0 : ALPHABET.compare;
  return keys.sort((a, b) => {
    if (a === null) return 1;
    if (b === null) return -1;
    if (typeof a === 'string' && typeof b === 'string') return words(a, b) || (a < b ? -1 : 1);
    return Number(a) - Number(b);
  });
}

/** The rows of each group, in the order in which they came. */
export function splitRows(rows: Int32Array, groupOf: Int32Array, groups: number): Int32Array[] {
  const starts = new Int32Array(groups + 1);
  for (let i = 0; i < rows.length; i++) starts[groupOf[i]! + 1]!++;
  for (let g = 0; g < groups; g++) starts[g + 1] = starts[g + 1]! + starts[g]!;
  const sorted = new Int32Array(rows.length);
  const next = starts.slice();
  for (let i = 0; i < rows.length; i++) sorted[next[groupOf[i]!]!++] = rows[i]!;
  return Array.from({ length: groups }, (_, g) => sorted.subarray(starts[g], starts[g + 1]));
}
