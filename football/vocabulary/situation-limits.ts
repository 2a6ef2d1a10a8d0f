/**
 * Where the named parts of the field and of a down begin. They differ from staff to staff, so a library keeps its own;
 * these are common practice, no source.
 */
export interface SituationLimits {
  /** yards to the goal at which each part of the field begins, seen from the own goal */
  readonly backedUpFrom: number;
  readonly midfieldFrom: number;
  readonly fringeFrom: number;
  readonly redZoneFrom: number;
  readonly goalLineFrom: number;
  /** yards to gain up to which a down is short, and up to which it is medium */
  readonly shortTo: number;
  readonly mediumTo: number;
  /** seconds left in a half at which the two-minute drill begins */
  readonly twoMinuteSeconds: number;
}

export const DEFAULT_SITUATION_LIMITS: SituationLimits = {
  backedUpFrom: 90,
  midfieldFrom: 60,
  fringeFrom: 40,
  redZoneFrom: 20,
  goalLineFrom: 5,
  shortTo: 3,
  mediumTo: 6,
  twoMinuteSeconds: 120,
};

/** The parts of the field from the own goal on, and the family of those that lie within another. */
export const ZONES = ['backed up', 'own territory', 'midfield', 'fringe', 'red zone', 'goal line'] as const;
export type Zone = (typeof ZONES)[number];

export const TO_GO = ['short', 'medium', 'long'] as const;

/** Terms of fields that are worked out. Nobody can rename them, and every question knows them. */
export const DERIVED_TERMS: readonly {
  readonly field: string;
  readonly name: string;
  readonly parent?: string;
}[] = [
  ...ZONES.map((name) => ({
    field: 'zone',
    name,
    ...(name === 'backed up' ? { parent: 'own territory' } : {}),
    ...(name === 'goal line' ? { parent: 'red zone' } : {}),
  })),
  ...TO_GO.map((name) => ({ field: 'toGo', name })),
];

/** The narrowest part of the field that a spot lies in. */
export function zoneOf(yardsToGoal: number, limits: SituationLimits): Zone {
  if (yardsToGoal >= limits.backedUpFrom) return 'backed up';
  if (yardsToGoal > limits.midfieldFrom) return 'own territory';
  if (yardsToGoal > limits.fringeFrom) return 'midfield';
  if (yardsToGoal > limits.redZoneFrom) return 'fringe';
  return yardsToGoal > limits.goalLineFrom ? 'red zone' : 'goal line';
}

export function toGoOf(distance: number, limits: SituationLimits): (typeof TO_GO)[number] {
  if (distance <= limits.shortTo) return 'short';
  return distance <= limits.mediumTo ? 'medium' : 'long';
}

/** What does not fit together, in words; null where the limits can be used. */
export function unfitLimits(limits: SituationLimits): string | null {
  const { backedUpFrom, midfieldFrom, fringeFrom, redZoneFrom, goalLineFrom } = limits;
  const spots = [backedUpFrom, midfieldFrom, fringeFrom, redZoneFrom, goalLineFrom];
  if (![...spots, limits.shortTo, limits.mediumTo].every((yards) => Number.isInteger(yards) && yards >= 1))
    return 'Limits are whole yards from 1.';
  if (spots.some((spot) => spot > 99)) return 'No part of the field begins beyond 99 yards from the goal.';
  if (spots.some((spot, i) => i > 0 && spot >= spots[i - 1]!))
    return 'The parts of the field follow one another: backed up, midfield, fringe, red zone, goal line.';
  if (limits.shortTo >= limits.mediumTo) return 'Short ends before medium does.';
  const { twoMinuteSeconds } = limits;
  return Number.isInteger(twoMinuteSeconds) && twoMinuteSeconds >= 1 && twoMinuteSeconds <= 900
    ? null
    : 'The two-minute drill begins between 1 and 900 seconds before the half ends.';
}
