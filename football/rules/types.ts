import type { Level } from '../play.ts';

/**
 * How far a value may be trusted: `read` in the source named beside it, `data` confirmed on open play data,
 * `memory` from memory and not checked against a book, `practice` common practice, no source.
 */
export type Standing = 'read' | 'data' | 'memory' | 'practice';

/** A value of the rules with the place it stands on. */
export interface Ruled<T> {
  readonly value: T;
  /** rule-section-article of the level's book, and where it was read */
  readonly rule: string;
  readonly standing: Standing;
}

export function ruled<T>(value: T, rule: string, standing: Standing): Ruled<T> {
  return { value, rule, standing };
}

export type Side = 'offense' | 'defense';

/**
 * Where a penalty is marked off from when nobody recorded it. `snap`: the spot of the snap. `end`: where the
 * play ended. `depends`: on the spot of the foul against the end of the run, so it has to be recorded.
 */
export type MarkedFrom = 'snap' | 'end' | 'depends';

export interface FoulRule {
  /** term of the field `penalty` */
  readonly foul: string;
  readonly by: Side | 'either';
  /** `spot` where the yards run to the spot of the foul and no fixed number exists */
  readonly yards: number | 'spot';
  readonly automaticFirstDown: boolean;
  readonly lossOfDown: boolean;
  /** may take the ball to the spot of the foul, past half the distance to the goal */
  readonly toSpot: boolean;
  /**
   * `before` the snap, so that there is no play; `live` while the ball is; `after` the play. `either` stands
   * for fouls called in both cases: marked off from where the play ended, they are taken as after it.
   */
  readonly when: 'before' | 'live' | 'after' | 'either';
  readonly from: MarkedFrom;
  readonly rule: string;
  readonly standing: Standing;
}

export interface Overtime {
  /** `series` alternates possessions from a spot; `period` plays on with a kickoff */
  readonly kind: 'series' | 'period';
  /** yards to goal where each series starts */
  readonly seriesYardsToGoal: number | null;
  /** first overtime in which a touchdown must be followed by a two-point try, and in which only tries are played */
  readonly twoPointFrom: number | null;
  readonly triesOnlyFrom: number | null;
  readonly periodSeconds: number | null;
  /** which first possession still lets the other team answer */
  readonly answer: 'always' | 'afterFieldGoal' | 'never';
}

export interface Rules {
  readonly level: Level;
  /** the season these values hold for; rules change between seasons */
  readonly season: number;
  readonly fieldWidthYards: Ruled<number>;
  /** yards from the middle of the field to a hash mark */
  readonly hashOffsetYards: Ruled<number>;
  readonly goalPostWidthFeet: Ruled<number>;
  readonly quarterSeconds: Ruled<number>;
  readonly downs: Ruled<number>;
  readonly lineToGainYards: Ruled<number>;
  /** yards from the kicking team's own goal line to its kickoff spot */
  readonly kickoffOwnYardLine: Ruled<number>;
  readonly safetyKickOwnYardLine: Ruled<number>;
  /** own yard line of the receivers after a kickoff that is a touchback */
  readonly kickoffTouchbackOwnYardLine: Ruled<number>;
  /** a fair catch of a kickoff inside this own yard line counts as a touchback; null where it stays put */
  readonly kickoffFairCatchInside: Ruled<number | null>;
  /** how far from the spot of the kick the receivers start when a kickoff goes out of bounds */
  readonly kickoffOutOfBoundsYards: Ruled<number>;
  /** own yard line after any other touchback */
  readonly touchbackOwnYardLine: Ruled<number>;
  /** where the other team takes over after a missed field goal, never closer to its goal than its own 20 */
  readonly missedFieldGoal: Ruled<'spotOfKick' | 'previousSpot' | 'whereDead'>;
  readonly tryKickYardsToGoal: Ruled<number>;
  readonly tryTwoPointYardsToGoal: Ruled<number>;
  readonly defenseScoresOnTry: Ruled<boolean>;
  /**
   * a foul of the offense after a play that made a first down is marked off before the new line to gain is
   * set, so that it is first and ten; or after, so that it is first and twenty-five
   */
  readonly foulAfterFirstDown: Ruled<'beforeLine' | 'afterLine'>;
  readonly overtime: Ruled<Overtime>;
  /** who a sack's lost yards are charged to */
  readonly sackYardsBelongTo: Ruled<'teamPassing' | 'rushing'>;
  /** a spike or a thrown-away ball is a pass attempt */
  readonly spikeIsAttempt: Ruled<boolean>;
  /** a kneel is a rushing attempt of the one who kneels */
  readonly kneelIsRush: Ruled<boolean>;
  /** a play nullified by a penalty has no statistics */
  readonly nullifiedPlayCounts: Ruled<boolean>;
  /** two-point tries are kept out of passing and rushing statistics */
  readonly tryCountsInStatistics: Ruled<boolean>;
  readonly fouls: readonly FoulRule[];
}
