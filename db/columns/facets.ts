/** How often each value of a field occurs. */

import type { Column } from './column.ts';
import { type GroupSource, type GroupValue, inOrder, keysOf } from './group.ts';

export interface FieldCounts {
  readonly field: string;
  /** in the order of values, a missing one last */
  readonly values: readonly { readonly value: GroupValue; readonly plays: number }[];
}

export interface FacetSource extends GroupSource {
  /** rows of a bitmap, in any order */
  rowsIn(found: Int32Array): Int32Array;
}

/** Looking at every play costs about as much as this many bitmaps do per 32 plays. */
const WORD_COST = 1.2;

/** @param found a bit for each play that is counted */
export function countFields(
  found: Int32Array,
  fieldKeys: readonly string[],
  source: FacetSource,
): FieldCounts[] {
  const rows = source.rowsIn(found);
  return fieldKeys.map((key) => {
    const { field, column } = source.fieldOf(key);
    const counts = countCodes(column, found, rows);
    const keyOf = keysOf(field, column, false, source);
    const plays = new Map<GroupValue, number>();
    for (let code = 0; code < counts.length; code++)
      if (counts[code]! > 0) plays.set(keyOf(code), counts[code]!);
    return {
      field: key,
      values: inOrder([...plays.keys()]).map((value) => ({ value, plays: plays.get(value)! })),
    };
  });
}

/** How many of the plays have each code, by whichever way is shorter. */
export function countCodes(column: Column, found: Int32Array, rows: Int32Array): Int32Array {
  if (column.values.length * found.length * WORD_COST < rows.length) {
    const counts = column.countWithin(found);
    if (counts) return counts;
  }
  const { codes } = column;
  const counts = new Int32Array(column.values.length);
  for (let i = 0; i < rows.length; i++) {
    const code = codes[rows[i]!]!;
    counts[code] = counts[code]! + 1;
  }
  return counts;
}
