import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';

export interface GridColumn {
  readonly field: FieldDefinition;
  /** px */
  readonly width: number;
}

/** The fields that are mended for many plays at once, in the order of a call sheet. */
const COLUMNS =
  'quarter clock possession down distance yardsToGoal hash personnel formation motion concept protection front coverage pressure playKind result gain passer target note'.split(
    ' ',
  );

const WIDTHS: Readonly<Record<FieldDefinition['kind'], number>> = {
  term: 118,
  number: 66,
  clock: 62,
  spot: 66,
  text: 220,
  player: 150,
  flag: 62,
};

export function gridColumns(fields: readonly FieldDefinition[]): GridColumn[] {
  const known = new Map(fields.map((field) => [field.key, field]));
  const builtIn = COLUMNS.flatMap((key) => known.get(key) ?? []);
  return builtIn.map((field) => ({ field, width: field.key === 'hash' ? 52 : WIDTHS[field.kind] }));
}
