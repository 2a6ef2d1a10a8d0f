/** One row of a sheet by column name, as text; open data writes missing values as `NA` or leaves them empty. */
export type OpenRow = Readonly<Record<string, string | null | undefined>>;

export function text(row: OpenRow, column: string): string | null {
  const value = row[column];
  if (value === undefined || value === null) return null;
  const trimmed = value.trim();
  return trimmed === '' || trimmed === 'NA' ? null : trimmed;
}

export function number(row: OpenRow, column: string): number | null {
  const value = text(row, column);
  if (value === null) return null;
  const parsed = Number(value);
  return Number.isFinite(parsed) ? parsed : null;
}

/** The dictionary's binary indicators: 1, 1.0, TRUE. */
export function flag(row: OpenRow, column: string): boolean {
  const value = text(row, column);
  return value !== null && (Number(value) === 1 || value.toUpperCase() === 'TRUE');
}
