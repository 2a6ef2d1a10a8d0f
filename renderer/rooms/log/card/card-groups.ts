import type { FieldDefinition, FieldGroup } from '../../../../football/vocabulary/fields.ts';

export interface CardGroup {
  readonly group: FieldGroup;
  readonly label: string;
  readonly fields: readonly FieldDefinition[];
}

const LABELS: readonly (readonly [FieldGroup, string])[] = [
  ['situation', 'Situation'],
  ['calls', 'Calls'],
  ['outcome', 'Outcome'],
  ['people', 'People'],
  ['notes', 'Notes'],
];

/** Fields that stand on the card even when they are missing; the rest comes up when it has a value or is asked for. */
const ALWAYS: ReadonlySet<string> = new Set(
  (
    'drive quarter clock possession down distance yardsToGoal hash scoreFor scoreAgainst ' +
    'personnel formation motion concept protection front coverage pressure rushers route ' +
    'playKind result gain airYards yardsAfterCatch firstDown touchdown penalty timeToThrow ' +
    'passer target carrier tackler note'
  ).split(' '),
);

/** The card's fields by group, in the order of the playbook. The play's number heads the card and is not among them. */
export function cardGroups(
  fields: readonly FieldDefinition[],
  isSet: (field: FieldDefinition) => boolean,
  all: boolean,
): CardGroup[] {
  const shown = (field: FieldDefinition) =>
    field.home !== 'game' && field.key !== 'playNumber' && (all || ALWAYS.has(field.key) || isSet(field));
  return LABELS.map(([group, label]) => ({
    group,
    label,
    fields: fields.filter((field) => field.group === group && shown(field)),
  })).filter((each) => each.fields.length > 0);
}
