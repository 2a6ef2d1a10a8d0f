/**
 * Fields of the play before and the play after within the drive: `previous.result`, `next.concept`.
 * They are the plain field as another play has it, and missing where the drive has no such play.
 */

import type { FieldDefinition } from '../vocabulary/fields.ts';

export type Step = 'previous' | 'next';

export const STEPS: readonly Step[] = ['previous', 'next'];

const WORDS: Readonly<Record<Step, string>> = { previous: 'play before', next: 'play after' };

/** The field that a key names, and of which play: null is the play itself. */
export function splitStep(key: string): { readonly step: Step | null; readonly key: string } {
  for (const step of STEPS) {
    if (key.startsWith(`${step}.`)) return { step, key: key.slice(step.length + 1) };
  }
  return { step: null, key };
}

export function stepKey(step: Step, key: string): string {
  return `${step}.${key}`;
}

/** A field as the play before or after has it. What the whole game has is no field of a neighbour. */
export function neighbourField(field: FieldDefinition, step: Step): FieldDefinition | undefined {
  if (field.home === 'game') return undefined;
  return {
    ...field,
    key: stepKey(step, field.key),
    label: `${field.label}, ${WORDS[step]}`,
    help: `${field.help} Of the ${WORDS[step]} within the drive.`,
  };
}
