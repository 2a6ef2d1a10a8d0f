import type { Spot } from './space.ts';

/**
 * The field of NCAA rule 1-2-1, in yards: 160 feet wide, hash marks 60 feet from each sideline, end zones of ten
 * yards. Goal posts: crossbar ten feet up, 18 feet 6 inches wide, uprights to thirty feet (rule 1-2-5). The place and
 * size of the field numbers (six feet by four, tops nine yards in) and of the marks are from memory.
 */
export const FIELD = {
  goalToGoalYards: 100,
  widthYards: 160 / 3,
  endZoneYards: 10,
  hashFromSidelineYards: 20,
  lineWidthYards: 4 / 36,
  goalLineWidthYards: 8 / 36,
  shortMarkYards: 2 / 3,
  numberTopFromSidelineYards: 9,
  numberHeightYards: 2,
  numberWidthYards: 4 / 3,
  crossbarHeightYards: 10 / 3,
  uprightHeightYards: 10,
  goalWidthYards: 18.5 / 3,
} as const;

export const HALF_WIDTH_YARDS = FIELD.widthYards / 2;
/** distance of a hash mark from the long middle line */
export const HASH_OFFSET_YARDS = HALF_WIDTH_YARDS - FIELD.hashFromSidelineYards;

/**
 * A point of the stadium in yards: x from the west goal line (0) to the east (100), y from the press-box sideline (0)
 * to the far one (53 1/3), z up.
 */
export interface WorldPoint {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** Where and which way a play is run: east is 1. */
export interface PlayPlace {
  readonly yardsToGoal: number;
  readonly direction: 1 | -1;
}

export function lineOfScrimmageX(place: PlayPlace): number {
  return place.direction === 1 ? FIELD.goalToGoalYards - place.yardsToGoal : place.yardsToGoal;
}

/** The offense's right hand is towards the press box when it drives east, away from it when it drives west. */
export function toWorld(place: PlayPlace, at: Spot, heightYards = 0): WorldPoint {
  return {
    x: lineOfScrimmageX(place) + place.direction * at.downfield,
    y: HALF_WIDTH_YARDS - place.direction * at.across,
    z: heightYards,
  };
}
