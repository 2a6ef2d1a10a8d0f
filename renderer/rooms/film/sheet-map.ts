/** The mapping of a breakdown sheet onto our fields, as the screen changes it. */

import type { SheetMapping } from '../../service/sheet-calls.ts';

/** What stands for a column, or a value, that is left out. */
export const LEFT_OUT = '';

/** A column sent to another field, or left out. Two columns never fill the same field: the earlier one gives it up. */
export function mapColumn(map: SheetMapping, column: string, field: string): SheetMapping {
  const columns = Object.fromEntries(
    Object.entries(map.columns).map(([name, mapped]) => [
      name,
      field !== LEFT_OUT && mapped === field ? LEFT_OUT : mapped,
    ]),
  );
  return { ...map, columns: { ...columns, [column]: field } };
}

/** Their value said to mean one of ours, or left out; null takes the saying away, so that it comes in as it stands. */
export function mapValue(
  map: SheetMapping,
  field: string,
  theirs: string,
  ours: string | null,
): SheetMapping {
  const others = Object.entries(map.values[field] ?? {}).filter(([value]) => value !== theirs);
  if (ours !== null) others.push([theirs, ours]);
  const values = Object.entries(map.values).filter(([key]) => key !== field);
  if (others.length > 0) values.push([field, Object.fromEntries(others)]);
  return { ...map, values: Object.fromEntries(values) };
}
