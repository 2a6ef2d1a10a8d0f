/** By which fields a table can be made: the ones with few values first, the ones that are never repeated left out. */

import type { FieldDefinition, FieldGroup } from '../../../football/vocabulary/fields.ts';

const NOT_GROUPED: ReadonlySet<string> = new Set(['note', 'playNumber', 'timeToThrow']);

const GROUPS: readonly (readonly [FieldGroup, string])[] = [
  ['calls', 'Calls'],
  ['situation', 'Situation'],
  ['outcome', 'Outcome'],
  ['people', 'People'],
  ['game', 'Game'],
];

export interface FieldChoices {
  readonly group: string;
  readonly items: { readonly value: string; readonly label: string }[];
}

export function fieldsToGroup(fields: readonly FieldDefinition[]): FieldChoices[] {
  return GROUPS.map(([group, label]) => ({
    group: label,
    items: fields
      .filter((field) => field.group === group && !NOT_GROUPED.has(field.key))
      .map((field) => ({ value: field.key, label: field.label })),
  })).filter((choices) => choices.items.length > 0);
}
