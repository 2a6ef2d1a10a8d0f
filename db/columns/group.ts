/** Rows brought into groups by the values of fields. */

import type { Families } from '../../football/question/vocabulary.ts';
import type { FieldDefinition } from '../../football/vocabulary/fields.ts';
import type { Column, NumberColumn, WordColumn } from './column.ts';

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
  let axis: Axis = { groupOf: new Int32Array(rows.length), keys: rows.length ? [[]] : [] };
  for (const part of by) {
    const { field, column } = source.fieldOf(part.field);
    const next =
      column.kind === 'words'
        ? wordAxis(rows, column, part.families && field.kind === 'term' ? [field.key, source.families] : null)
        : numberAxis(rows, column, field.kind === 'flag');
    axis = cross(axis, next);
  }
  return inKeyOrder(axis);
}

/** The groups of both sides together, only those in which there are rows, in the order of both. */
export function cross(a: Axis, b: Axis): Axis {
  const width = b.keys.length;
  const keyOf = (pair: number) => [...a.keys[Math.floor(pair / width)]!, ...b.keys[pair % width]!];
  const pairs = new Int32Array(a.groupOf.length);
  for (let i = 0; i < pairs.length; i++) pairs[i] = a.groupOf[i]! * width + b.groupOf[i]!;
  const { codes, found } = compact(pairs, a.keys.length * width);
  return { groupOf: codes, keys: found.map(keyOf) };
}

/** Small numbers for whichever of `0..size` occur, rising with them. */
export function compact(values: Int32Array, size: number): { codes: Int32Array; found: number[] } {
  const codeOf = new Int32Array(size).fill(-1);
  for (let i = 0; i < values.length; i++) codeOf[values[i]!] = 0;
  const found: number[] = [];
  for (let value = 0; value < size; value++) {
    if (codeOf[value] === 0) codeOf[value] = found.push(value) - 1;
  }
  const codes = new Int32Array(values.length);
  for (let i = 0; i < values.length; i++) codes[i] = codeOf[values[i]!]!;
  return { codes, found };
}

function wordAxis(rows: Int32Array, column: WordColumn, roots: [field: string, Families] | null): Axis {
  const keys: GroupValue[] = [];
  const keyAt = new Map<GroupValue, number>();
  const groupOfCode = new Int32Array(column.words.length).fill(-1);
  const groupOf = new Int32Array(rows.length);
  for (let i = 0; i < rows.length; i++) {
    const code = column.codes[rows[i]!]!;
    let group = groupOfCode[code]!;
    if (group < 0) {
      const word = column.words[code]!;
      const key = code === 0 ? null : roots ? roots[1].rootOf(roots[0], word) : word;
      group = keyAt.get(key) ?? keys.push(key) - 1;
      keyAt.set(key, group);
      groupOfCode[code] = group;
    }
    groupOf[i] = group;
  }
  return { groupOf, keys: keys.map((key) => [key]) };
}

/** Whole numbers of this size have their group looked up in a list, which is much faster than in a map. */
const SMALL = 1_024;

function numberAxis(rows: Int32Array, column: NumberColumn, isFlag: boolean): Axis {
  const keys: GroupValue[] = [];
  const groupOfSmall = new Int32Array(2 * SMALL).fill(-1);
  const groupOfOther = new Map<number, number>();
  const groupOf = new Int32Array(rows.length);
  const add = (value: number) => keys.push(numberKey(value, isFlag)) - 1;
  for (let i = 0; i < rows.length; i++) {
    const value = column.values[rows[i]!]!;
    let group: number;
    if (value >= -SMALL && value < SMALL && Number.isInteger(value)) {
      group = groupOfSmall[value + SMALL]!;
      if (group < 0) {
        group = add(value);
        groupOfSmall[value + SMALL] = group;
      }
    } else {
      group = groupOfOther.get(value) ?? -1;
      if (group < 0) {
        group = add(value);
        groupOfOther.set(value, group);
      }
    }
    groupOf[i] = group;
  }
  return { groupOf, keys: keys.map((key) => [key]) };
}

export function numberKey(value: number, isFlag: boolean): GroupValue {
  if (Number.isNaN(value)) return null;
  return isFlag ? value === 1 : value;
}

function inKeyOrder(axis: Axis): Axis {
  const order = axis.keys.map((_, group) => group).sort((a, b) => compareKeys(axis.keys[a]!, axis.keys[b]!));
  const place = new Int32Array(order.length);
  for (const [at, group] of order.entries()) place[group] = at;
  const groupOf = axis.groupOf.map((group) => place[group]!);
  return { groupOf, keys: order.map((group) => axis.keys[group]!) };
}

const ALPHABET = new Intl.Collator('en', { numeric: true });

export function compareKeys(a: readonly GroupValue[], b: readonly GroupValue[]): number {
  for (const [i, left] of a.entries()) {
    const right = b[i]!;
    if (left === right) continue;
    if (left === null) return 1;
    if (right === null) return -1;
    if (typeof left === 'string' && typeof right === 'string') {
      const order = ALPHABET.compare(left, right) || (left < right ? -1 : 1);
      return order;
    }
    return Number(left) - Number(right);
  }
  return 0;
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
