/**
 * What stands before the snap, as few values as plays can be counted by. Besides fields of the playbook these are the
 * groups that coaches speak of, by the limits of the staff.
 */

import type { PlainValue } from '../values.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';
import {
  DEFAULT_SITUATION_LIMITS,
  type SituationLimits,
  TO_GO,
  toGoOf,
  ZONES,
  zoneOf,
} from '../vocabulary/situation-limits.ts';

export interface ContextField {
  readonly key: string;
  readonly label: string;
  /** what the values mean, where they do not say it themselves */
  readonly help: string;
  /** keys of the fields that it is read from */
  readonly reads: readonly string[];
  /** null where it is not known */
  readonly valueOf: (get: (fieldKey: string) => PlainValue) => string | null;
}

function derivedContexts(limits: SituationLimits): ContextField[] {
  return [
    {
      key: 'toGo',
      label: 'To go',
      help: `short up to ${limits.shortTo} yards, medium to ${limits.mediumTo}, long beyond`,
      reads: ['distance'],
      valueOf: (get) => {
        const distance = get('distance');
        return typeof distance === 'number' ? toGoOf(distance, limits) : null;
      },
    },
    {
      key: 'zone',
      label: 'Zone',
      help: 'part of the field, from backed up to goal line, as the staff has set its limits',
      reads: ['yardsToGoal'],
      valueOf: (get) => {
        const spot = get('yardsToGoal');
        return typeof spot === 'number' ? zoneOf(spot, limits) : null;
      },
    },
    {
      key: 'scoreState',
      label: 'Score',
      help: 'of the team with the ball: ahead or behind by more than 8 points, by 1 to 8, or tied',
      reads: ['scoreFor', 'scoreAgainst'],
      valueOf: (get) => {
        const [own, other] = [get('scoreFor'), get('scoreAgainst')];
        if (typeof own !== 'number' || typeof other !== 'number') return null;
        const margin = own - other;
        if (margin === 0) return 'tied';
        if (margin > 0) return margin > 8 ? 'ahead 9+' : 'ahead 1-8';
        return margin < -8 ? 'behind 9+' : 'behind 1-8';
      },
    },
    {
      key: 'halfEnd',
      label: 'End of half',
      help: `the last ${limits.twoMinuteSeconds} seconds of the second and fourth quarter, or not`,
      reads: ['quarter', 'clock'],
      valueOf: (get) => {
        const [quarter, clock] = [get('quarter'), get('clock')];
        if (typeof quarter !== 'number' || typeof clock !== 'number') return null;
        return (quarter === 2 || quarter === 4) && clock <= limits.twoMinuteSeconds
          ? 'two minutes'
          : 'before';
      },
    },
  ];
}

/** Fields of the play that say what stood before the snap. */
const BEFORE_SNAP: readonly string[] = [
  'down',
  'hash',
  'personnel',
  'formation',
  'receivers',
  'motion',
  'quarter',
];

/** Calls that are only seen as the play goes on. */
const DURING_PLAY: readonly string[] = ['route', 'readKey'];

/** What a team with or without the ball shows before the snap and chooses; any term field may be asked for. */
export const OFFENSE_CALLS: readonly string[] = [
  'playKind',
  'concept',
  'formation',
  'personnel',
  'motion',
  'protection',
];
export const DEFENSE_CALLS: readonly string[] = ['coverage', 'front', 'pressure', 'rushers'];

/** The context that a coordinator names first. */
export const USUAL_CONTEXT: readonly string[] = ['down', 'toGo', 'zone', 'hash'];

/** Every context that plays can be counted by, given the fields of the library. */
export function contextFields(
  fields: readonly FieldDefinition[],
  limits: SituationLimits = DEFAULT_SITUATION_LIMITS,
): ContextField[] {
  const own = fields.filter(
    (field) =>
      BEFORE_SNAP.includes(field.key) ||
      (field.home === 'tag' &&
        field.group === 'calls' &&
        !DURING_PLAY.includes(field.key) &&
        (field.kind === 'term' || field.kind === 'flag')) ||
      field.key === 'rushers',
  );
  const plain = own.map(
    (field): ContextField => ({
      key: field.key,
      label: field.label,
      help: field.help,
      reads: [field.key],
      valueOf: (get) => {
        const value = get(field.key);
        if (value === null) return null;
        return field.kind === 'flag' ? (value ? 'yes' : 'no') : String(value);
      },
    }),
  );
  const [down, ...rest] = plain.sort((a, b) => rank(a.key) - rank(b.key));
  return [...(down ? [down] : []), ...derivedContexts(limits), ...rest];
}

function rank(key: string): number {
  const at = BEFORE_SNAP.indexOf(key);
  return at < 0 ? BEFORE_SNAP.length : at;
}

/** Values in the order in which a coach reads them: as the limits run, numbers upward, else by the alphabet. */
export function inCoachOrder(key: string, values: readonly string[]): string[] {
  const order: readonly string[] = key === 'toGo' ? TO_GO : key === 'zone' ? ZONES : SCORE_ORDER;
  return [...values].sort((a, b) => {
    const [x, y] = [order.indexOf(a), order.indexOf(b)];
    if (x >= 0 && y >= 0) return x - y;
    return a.localeCompare(b, 'en', { numeric: true });
  });
}

const SCORE_ORDER: readonly string[] = ['behind 9+', 'behind 1-8', 'tied', 'ahead 1-8', 'ahead 9+'];
