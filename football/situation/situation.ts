import type { Hash, PlayKind } from '../play.ts';

/**
 * What is known before a play. Spots are yards to the goal ahead of the team in possession (1..99); on a
 * kickoff that is the kicking team, and down and distance are missing, as they are on a try.
 */
export interface Situation {
  /** 1 to 4; 5 and up are overtime periods */
  readonly quarter: number | null;
  /** seconds left in the quarter */
  readonly clock: number | null;
  readonly possession: string | null;
  readonly down: number | null;
  readonly distance: number | null;
  readonly yardsToGoal: number | null;
  readonly hash: Hash | null;
  /** `kickoff` or `try` where the rules leave no choice, else missing */
  readonly playKind: PlayKind | null;
  readonly scoreFor: number | null;
  readonly scoreAgainst: number | null;
  /** number of the drive; missing on a kickoff, which belongs to no drive */
  readonly drive: number | null;
}

/** The names of the two teams as the plays write them in `possession`. */
export interface Teams {
  readonly home?: string;
  readonly away?: string;
}

/**
 * The situation of the next play, or why it cannot be known. A prediction never fills a gap by a guess:
 * `asks` lists the fields that only film or the staff can tell (most often the clock and the hash), also
 * where a value is given because the other choice is rare (the spot of a professional try, say).
 */
export type Prediction =
  | {
      readonly ok: true;
      readonly situation: Situation;
      readonly asks: readonly string[];
      /** false where the next play starts a new drive, or belongs to no drive */
      readonly sameDrive: boolean;
    }
  | {
      readonly ok: false;
      /** stable name of the reason, e.g. `gain-missing` */
      readonly code: string;
      /** the reason in a coach's words */
      readonly reason: string;
      /** the field of the play before whose value would settle it, where one would */
      readonly field?: string;
    };
