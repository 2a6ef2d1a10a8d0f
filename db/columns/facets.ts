/** How often each value of a field occurs. */

import { countValues, type GroupSource, type GroupValue } from './group.ts';

export interface FieldCounts {
  readonly field: string;
  /** in the order of values, a missing one last */
  readonly values: readonly { readonly value: GroupValue; readonly plays: number }[];
}

export function countFields(
  rows: Int32Array,
  fieldKeys: readonly string[],
  source: GroupSource,
): FieldCounts[] {
  return fieldKeys.map((field) => ({ field, values: countValues(rows, { field }, source) }));
}
