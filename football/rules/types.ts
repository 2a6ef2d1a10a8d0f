import type { Level } from '../play.ts';

/**
 * How far a value may be trusted: `read` in a source named beside it, `data` confirmed on open play data,
 * `memory` from memory and not yet checked, `practice` common practice, no source.
 */
export type Standing = 'read' | 'data' | 'memory' | 'practice';

/** A value of the rules with the place in the book it stands on. */
export interface Ruled<T> {
  readonly value: T;
  /** rule, section and article, or the page it was read on */
  readonly rule: string;
  readonly standing: Standing;
}

export function ruled<T>(value: T, rule: string, standing: Standing): Ruled<T> {
  return { value, rule, standing };
}

export interface Rules {
  readonly level: Level;
  /** the season these values hold for; rules change between seasons */
  readonly season: number;
  /** yards from the kicking team's own goal line to its kickoff spot */
  readonly kickoffOwnYardLine: Ruled<number>;
  readonly safetyKickOwnYardLine: Ruled<number>;
  /** own yard line of the receivers after a touchback on a kickoff */
  readonly kickoffTouchbackOwnYardLine: Ruled<number>;
  /** own yard line after any other touchback */
  readonly touchbackOwnYardLine: Ruled<number>;
  /** yards to the goal line of the snap on a kicked try */
  readonly tryKickYardsToGoal: Ruled<number>;
  /** yards to the goal line of the snap on a two-point try */
  readonly tryTwoPointYardsToGoal: Ruled<number>;
  readonly quarterSeconds: Ruled<number>;
}
