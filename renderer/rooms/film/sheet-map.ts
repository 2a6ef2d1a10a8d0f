/** The mapping of a breakdown sheet onto our fields, as the screen changes it. */

/** Their column to our field key, and per field their value to ours. */
export interface SheetMap {
  readonly columns: Readonly<Record<string, string>>;
  readonly values: Readonly<Record<string, Readonly<Record<string, string>>>>;
}

/** A column sent to another field, or to none. Two columns never fill the same field: the earlier one gives it up. */
export function mapColumn(map: SheetMap, column: string, field: string | null): SheetMap {
  const columns = Object.entries(map.columns).filter(
    ([name, mapped]) => name !== column && (field === null || mapped !== field),
  );
  if (field !== null) columns.push([column, field]);
  return { ...map, columns: Object.fromEntries(columns) };
}

/** Their value said to mean one of ours; null takes the saying away, so that it comes in as it stands. */
export function mapValue(map: SheetMap, field: string, theirs: string, ours: string | null): SheetMap {
  const others = Object.entries(map.values[field] ?? {}).filter(([value]) => value !== theirs);
  if (ours !== null) others.push([theirs, ours]);
  const values = Object.entries(map.values).filter(([key]) => key !== field);
  if (others.length > 0) values.push([field, Object.fromEntries(others)]);
  return { ...map, values: Object.fromEntries(values) };
}
