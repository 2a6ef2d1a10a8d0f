/** Which angles of a play a cut-up shows, and in which order. */

import type { Angle } from '../../../electron/service/views.ts';

export interface AngleChoice {
  readonly value: string;
  readonly label: string;
}

/** The trade's habit first: sideline, then end zone. */
export const ANGLE_CHOICES: readonly AngleChoice[] = [
  { value: 'sideline,endzone', label: 'Sideline, then end zone' },
  { value: 'endzone,sideline', label: 'End zone, then sideline' },
  { value: 'sideline', label: 'Sideline' },
  { value: 'endzone', label: 'End zone' },
  { value: 'other', label: 'Other angle' },
  { value: 'sideline,endzone,other', label: 'Every angle' },
];

export const choiceOf = (angles: readonly Angle[]): string => angles.join(',');

export const anglesOf = (choice: string): Angle[] => choice.split(',') as Angle[];

/** The choices, and the one in use where it is none of them. */
export function choicesWith(angles: readonly Angle[]): AngleChoice[] {
  const value = choiceOf(angles);
  const known = ANGLE_CHOICES.some((choice) => choice.value === value);
  return known ? [...ANGLE_CHOICES] : [...ANGLE_CHOICES, { value, label: angles.join(', ') }];
}
