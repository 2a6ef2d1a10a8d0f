/** Fields that are worked out from the others and never stored; a staff's limits say where their parts begin. */

import { halfOf } from '../drives/drives.ts';
import type { PlayRecord } from '../play.ts';
import type { FieldDefinition, FieldKind } from './fields.ts';
import { type SituationLimits, toGoOf, zoneOf } from './situation-limits.ts';

function derived(
  key: string,
  label: string,
  kind: FieldKind,
  group: FieldDefinition['group'],
  help: string,
  more: Partial<Pick<FieldDefinition, 'unit' | 'closed'>> = {},
): FieldDefinition {
  return { key, label, kind, home: 'derived', group, help, ...more };
}

export const DERIVED_FIELDS: readonly FieldDefinition[] = [
  derived(
    'timeToThrow',
    'Time to throw',
    'number',
    'outcome',
    'Seconds from the snap to the release, from the stamped moments.',
    { unit: 's' },
  ),
  derived(
    'zone',
    'Zone',
    'term',
    'situation',
    'Part of the field: backed up (in own territory), own territory, midfield, fringe, red zone, goal line (in the red zone).',
    { closed: true },
  ),
  derived('toGo', 'To go', 'term', 'situation', 'Short, medium or long, by the distance.', { closed: true }),
  derived('half', 'Half', 'number', 'situation', 'Half 1 or 2; an overtime period is its own number.'),
  derived(
    'margin',
    'Margin',
    'number',
    'situation',
    'Points of the team in possession less those of the other, before the play.',
  ),
  derived(
    'twoMinutes',
    'Two minutes',
    'flag',
    'situation',
    'The half has no more time left than a two-minute drill.',
  ),
  derived(
    'drivePlay',
    'Play of drive',
    'number',
    'situation',
    'Number of the play within its drive, kickoffs and tries not counted.',
  ),
  derived('explosive', 'Explosive', 'flag', 'outcome', 'A gain that the staff calls explosive.'),
  derived('success', 'Success', 'flag', 'outcome', 'A call that gained enough for its down and distance.'),
];

/** Fields that need the plays around or the staff's count of yards; whoever keeps plays works them out. */
export const COUNTED_FLAGS: Readonly<Record<string, readonly [known: string, counter: string]>> = {
  explosive: ['explosiveKnown', 'explosives'],
  success: ['successKnown', 'successes'],
};

type Situation = Pick<
  PlayRecord,
  'quarter' | 'clock' | 'distance' | 'yardsToGoal' | 'scoreFor' | 'scoreAgainst' | 'moments'
>;

/** The value of a derived field that follows from the play alone; null where it is missing, or needs more. */
export function derivedValue(
  key: string,
  play: Situation,
  limits: SituationLimits,
): string | number | boolean | null {
  switch (key) {
    case 'timeToThrow':
      return timeToThrow(play);
    case 'zone':
      return play.yardsToGoal === null ? null : zoneOf(play.yardsToGoal, limits);
    case 'toGo':
      return play.distance === null ? null : toGoOf(play.distance, limits);
    case 'half':
      return play.quarter === null ? null : halfOf(play.quarter);
    case 'margin':
      return play.scoreFor === null || play.scoreAgainst === null ? null : play.scoreFor - play.scoreAgainst;
    case 'twoMinutes':
      return inTwoMinutes(play, limits);
    default:
      return null;
  }
}

function inTwoMinutes({ quarter, clock }: Situation, limits: SituationLimits): boolean | null {
  if (quarter === null) return null;
  if (quarter !== 2 && quarter !== 4) return false;
  return clock === null ? null : clock <= limits.twoMinuteSeconds;
}

/** Seconds from snap to release. Film times are whole microseconds, so the difference is rounded to one. */
function timeToThrow({ moments: { snap, release } }: Situation): number | null {
  if (snap === undefined || release === undefined || release <= snap) return null;
  return Math.round((release - snap) * 1e6) / 1e6;
}
