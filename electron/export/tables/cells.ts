/** What a cell of a table may hold. */
export type Cell = string | number | boolean | null;

export interface Table {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
}

/** A formula, also one that is made harmless already: it gets another apostrophe, so that one comes off again. */
const FORMULA_START = /^'*[=+\-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20]/;

/** A spot, or a plain number as people write it: nothing a spreadsheet could run. */
const HARMLESS = /^[+-]\d+(\.\d+)?$/;

/**
 * A text that a spreadsheet would run as a formula gets an apostrophe before it (OWASP, CSV Injection: cells that begin
 * with = + - @, tab or carriage return). Numbers and spots such as -35 and +20 stay as they are.
 */
export function harmless(cell: Cell): Cell {
  if (typeof cell !== 'string' || HARMLESS.test(cell)) return cell;
  return FORMULA_START.test(cell) ? `'${cell}` : cell;
}

/** Takes back what `harmless` put before a text, so that a table written here reads as it was. */
export function unharmed(text: string): string {
  return text.startsWith("'") && FORMULA_START.test(text.slice(1)) ? text.slice(1) : text;
}
