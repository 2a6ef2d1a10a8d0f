/** How often each value of a field occurs. */

import { axisOf, type GroupSource, type GroupValue } from './group.ts';

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
  return fieldKeys.map((field) => {
    const { groupOf, keys } = axisOf(rows, [{ field }], source);
    const counts = new Int32Array(keys.length);
    for (let i = 0; i < groupOf.length; i++) counts[groupOf[i]!]!++;
    return { field, values: keys.map(([value = null], group) => ({ value, plays: counts[group]! })) };
  });
}
