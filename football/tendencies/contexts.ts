/**
 * What stands before the snap, as few values as plays can be counted by. Besides fields of the playbook these are the
 * groups that coaches speak of; their limits are common practice, no source, and are shown wherever they are used.
 */

import type { PlainValue } from '../values.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';

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

/** Yards up to which a distance is called so. */
const DISTANCES: readonly (readonly [upTo: number, name: string])[] = [
  [2, 'short 1-2'],
  [6, 'medium 3-6'],
  [10, 'long 7-10'],
  [Number.POSITIVE_INFINITY, 'very long 11+'],
];

/** Yards to the goal up to which a zone reaches. */
const ZONES: readonly (readonly [upTo: number, name: string])[] = [
  [5, 'goal line'],
  [20, 'red zone'],
  [40, 'fringe'],
  [59, 'midfield'],
  [89, 'own side'],
  [99, 'backed up'],
];

function upTo(limits: readonly (readonly [number, string])[], value: PlainValue): string | null {
  if (typeof value !== 'number') return null;
  return limits.find(([limit]) => value <= limit)?.[1] ?? null;
}

const DERIVED: readonly ContextField[] = [
  {
    key: 'distanceGroup',
    label: 'Distance group',
    help: 'short up to 2 yards, medium to 6, long to 10, very long beyond',
    reads: ['distance'],
    valueOf: (get) => upTo(DISTANCES, get('distance')),
  },
  {
    key: 'zone',
    label: 'Zone',
    help: 'goal line within 5 yards of the goal, red zone to 20, fringe to 40, midfield to the own 41, own side to the own 11, backed up behind it',
    reads: ['yardsToGoal'],
    valueOf: (get) => upTo(ZONES, get('yardsToGoal')),
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
    help: 'the last two minutes of the second and fourth quarter, or not',
    reads: ['quarter', 'clock'],
    valueOf: (get) => {
      const [quarter, clock] = [get('quarter'), get('clock')];
      if (typeof quarter !== 'number' || typeof clock !== 'number') return null;
      return (quarter === 2 || quarter === 4) && clock <= 120 ? 'two minutes' : 'before';
    },
  },
];

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
export const USUAL_CONTEXT: readonly string[] = ['down', 'distanceGroup', 'zone', 'hash'];

/** Every context that plays can be counted by, given the fields of the library. */
export function contextFields(fields: readonly FieldDefinition[]): ContextField[] {
  const own = fields.filter(
    (field) =>
      BEFORE_SNAP.includes(field.key) ||
      (field.home === 'tag' && field.group === 'calls' && (field.kind === 'term' || field.kind === 'flag')) ||
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
  return [...(down ? [down] : []), ...DERIVED, ...rest];
}

function rank(key: string): number {
  const at = BEFORE_SNAP.indexOf(key);
  return at < 0 ? BEFORE_SNAP.length : at;
}

/** Values in the order in which a coach reads them: as the limits run, numbers upward, else by the alphabet. */
export function inCoachOrder(key: string, values: readonly string[]): string[] {
  const limits = key === 'distanceGroup' ? DISTANCES : key === 'zone' ? ZONES : null;
  const order = limits?.map(([, name]) => name) ?? SCORE_ORDER;
  return [...values].sort((a, b) => {
    const [x, y] = [order.indexOf(a), order.indexOf(b)];
    if (x >= 0 && y >= 0) return x - y;
    return a.localeCompare(b, 'en', { numeric: true });
  });
}

const SCORE_ORDER: readonly string[] = ['behind 9+', 'behind 1-8', 'tied', 'ahead 1-8', 'ahead 9+'];
