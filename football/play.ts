/**
 * A play as the football code sees it: plain values, no ids of rows, no film.
 * Everything but its identity may be missing, because a play is logged bit by bit.
 */

export type Level = 'ncaa' | 'nfhs' | 'nfl';

export type Hash = 'L' | 'M' | 'R';

export const MOMENT_KINDS = ['snap', 'release', 'catch', 'contact', 'whistle'] as const;
export type MomentKind = (typeof MOMENT_KINDS)[number];

export type PlayKind =
  | 'pass'
  | 'run'
  | 'punt'
  | 'kickoff'
  | 'fieldGoal'
  | 'try'
  | 'kneel'
  | 'spike'
  | 'noPlay';

/** Typed columns of a play. Terms are written by name, spots as yards to the opponent's goal (1..99). */
export interface PlayColumns {
  readonly playNumber: number | null;
  readonly drive: number | null;
  readonly quarter: number | null;
  /** seconds left in the quarter, field key `clock` */
  readonly clock: number | null;
  /** name of the team that puts the ball in play */
  readonly possession: string | null;
  readonly down: number | null;
  readonly distance: number | null;
  readonly yardsToGoal: number | null;
  readonly hash: string | null;
  readonly scoreFor: number | null;
  readonly scoreAgainst: number | null;
  readonly playKind: string | null;
  readonly result: string | null;
  readonly gain: number | null;
  readonly airYards: number | null;
  readonly yardsAfterCatch: number | null;
  readonly firstDown: boolean | null;
  readonly touchdown: boolean | null;
  readonly turnover: boolean | null;
  readonly safety: boolean | null;
  readonly fumble: string | null;
  readonly kickYards: number | null;
  readonly returnYards: number | null;
  readonly penalty: string | null;
  readonly penaltyOn: string | null;
  readonly penaltyYards: number | null;
  readonly penaltyOutcome: string | null;
  readonly note: string | null;
}

export interface PlayRecord extends PlayColumns {
  readonly playId: string;
  readonly gameId: string;
  /** the staff's fields by key: term names, numbers, text, player labels */
  readonly tags: Readonly<Record<string, string | number>>;
  /** seconds on the film's own clock, all of one film */
  readonly moments: Readonly<Partial<Record<MomentKind, number>>>;
}

/** A play with nothing known but its identity; tests and importers spread over it. */
export function blankPlay(playId: string, gameId: string): PlayRecord {
  return {
    playId,
    gameId,
    playNumber: null,
    drive: null,
    quarter: null,
    clock: null,
    possession: null,
    down: null,
    distance: null,
    yardsToGoal: null,
    hash: null,
    scoreFor: null,
    scoreAgainst: null,
    playKind: null,
    result: null,
    gain: null,
    airYards: null,
    yardsAfterCatch: null,
    firstDown: null,
    touchdown: null,
    turnover: null,
    safety: null,
    fumble: null,
    kickYards: null,
    returnYards: null,
    penalty: null,
    penaltyOn: null,
    penaltyYards: null,
    penaltyOutcome: null,
    note: null,
    tags: {},
    moments: {},
  };
}
