/**
 * Where the keyboard stands in the table, and where a key takes it. Column -1 is the row names, row -1 the metrics'
 * heads, row -2 the heads of the column field's values, where a place is the first column of its group.
 */

export interface CellPlace {
  readonly row: number;
  readonly column: number;
}

export interface GridSize {
  /** rows with the row of totals */
  readonly rows: number;
  readonly columns: number;
  /** columns that each value of the column field takes; 0 where the table has no column field */
  readonly groupWidth: number;
}

export interface CursorKey {
  readonly key: string;
  readonly ctrlKey: boolean;
}

const PAGE = 10;

/** The place after the key; null for a key that moves nothing. */
export function moveCursor(at: CellPlace, pressed: CursorKey, size: GridSize): CellPlace | null {
  const top = size.groupWidth > 0 ? -2 : -1;
  const last = { row: size.rows - 1, column: size.columns - 1 };
  const step = at.row === -2 ? size.groupWidth : 1;
  const far = pressed.ctrlKey ? Number.POSITIVE_INFINITY : 1;
  const to = (row: number, column: number): CellPlace =>
    settle({ row: clamp(row, top, last.row), column: clamp(column, -1, last.column) }, size);
  switch (pressed.key) {
    case 'ArrowUp':
      return to(at.row - far, at.column);
    case 'ArrowDown':
      return to(at.row + far, at.column);
    case 'ArrowLeft':
      return to(at.row, at.column - step * far);
    case 'ArrowRight':
      return to(at.row, at.column + step * far);
    case 'Home':
      return to(pressed.ctrlKey ? top : at.row, -1);
    case 'End':
      return to(pressed.ctrlKey ? last.row : at.row, last.column);
    case 'PageUp':
      return to(at.row - PAGE, at.column);
    case 'PageDown':
      return to(at.row + PAGE, at.column);
    default:
      return null;
  }
}

/** Heads of groups stand at their first column, and there is none over the row names. */
function settle(place: CellPlace, size: GridSize): CellPlace {
  if (place.row !== -2) return place;
  const group = Math.floor(Math.max(0, place.column) / size.groupWidth);
  return { row: -2, column: group * size.groupWidth };
}

function clamp(value: number, low: number, high: number): number {
  return Math.max(low, Math.min(high, value));
}

/** `data-cell` of the element at a place, and back. */
export function placeName(place: CellPlace): string {
  return `${place.row},${place.column}`;
}

export function placeOf(element: Element | null): CellPlace | null {
  const name = element?.closest('[data-cell]')?.getAttribute('data-cell');
  const [row, column] = name?.split(',').map(Number) ?? [];
  return row === undefined || column === undefined ? null : { row, column };
}
