/** The order of a cut-up's clips, as keys and dragging change it. */

/** The list with one item taken to another place; the same list where nothing moves. */
export function moved<T>(list: readonly T[], from: number, to: number): readonly T[] {
  const item = list[from];
  const place = Math.max(0, Math.min(list.length - 1, to));
  if (item === undefined || place === from) return list;
  const rest = list.filter((_, i) => i !== from);
  return [...rest.slice(0, place), item, ...rest.slice(place)];
}

/** The id after which the item comes when it stands at `to`; null for the top. */
export function afterFor<T>(
  list: readonly T[],
  from: number,
  to: number,
  idOf: (item: T) => string,
): string | null {
  const after = moved(list, from, to);
  const place = Math.max(0, Math.min(list.length - 1, to));
  const before = after[place - 1];
  return before === undefined ? null : idOf(before);
}

/** Which item to stand on once one is gone: the next, or the last. */
export function afterDrop(count: number, gone: number): number {
  return Math.max(0, Math.min(gone, count - 2));
}
