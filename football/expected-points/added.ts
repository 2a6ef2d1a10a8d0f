import { halfOf } from '../drives/drives.ts';
import { readPlay } from '../metrics/reading.ts';
import type { PlayRecord } from '../play.ts';
import { expectedPointsValue } from './model.ts';

/** What of the next play's situation is needed; a play record and a predicted situation both will do. */
export type NextSituation = Pick<
  PlayRecord,
  'possession' | 'down' | 'distance' | 'yardsToGoal' | 'quarter' | 'clock' | 'playKind'
>;

export interface ExpectedPointsOptions {
  /** length of a quarter by the rules, 900 or 720 */
  readonly quarterSeconds: number;
  /** season of a professional game; missing for all others */
  readonly season?: number;
}

export const DEFAULT_EP_OPTIONS: ExpectedPointsOptions = { quarterSeconds: 900 };

/**
 * Expected points of the team with the ball before a play. Null on kickoffs and tries, in overtime (the model
 * knows halves only) and where down, distance or spot is missing. Without a clock the middle of the quarter is taken.
 */
export function situationPoints(at: NextSituation, options = DEFAULT_EP_OPTIONS): number | null {
  const { down, distance, yardsToGoal, quarter, clock, playKind } = at;
  if (playKind === 'kickoff' || playKind === 'try') return null;
  if (down === null || distance === null || yardsToGoal === null || distance <= 0) return null;
  if (quarter !== null && quarter > 4) return null;
  const { quarterSeconds, season } = options;
  const halfSecondsRemaining =
    quarter === null ? null : (clock ?? quarterSeconds / 2) + (quarter % 2 === 1 ? quarterSeconds : 0);
  return expectedPointsValue(
    season === undefined
      ? { down, distance, yardsToGoal, halfSecondsRemaining }
      : { down, distance, yardsToGoal, halfSecondsRemaining, season },
  );
}

/**
 * Expected points added by a play for the team with the ball: what the next situation, or the score, is worth,
 * less what the situation was worth. A touchdown counts seven, a field goal three, a safety two, the end of a
 * half nothing.
 * @param next the situation after it, from the next play or predicted; 'endOfHalf' where none follows in the
 *   half; null where it is not known
 * @returns null where either side is not known, and for plays that are no scrimmage plays
 */
export function expectedPointsAdded(
  play: PlayRecord,
  next: NextSituation | 'endOfHalf' | null,
  options = DEFAULT_EP_OPTIONS,
): number | null {
  const after = next === null || next === 'endOfHalf' ? null : situationPoints(next, options);
  return addedBetween(play, situationPoints(play, options), next, after);
}

/** The same from points worked out before, so that a run of plays needs each situation's points once. */
export function addedBetween(
  play: PlayRecord,
  before: number | null,
  next: NextSituation | 'endOfHalf' | null,
  after: number | null,
): number | null {
  if (before === null || play.possession === null) return null;
  const scored = pointsScored(play);
  if (scored !== null) return scored - before;
  if (next === null) return null;
  if (next === 'endOfHalf') return -before;
  if (play.quarter !== null && next.quarter !== null && halfOf(play.quarter) !== halfOf(next.quarter))
    return -before;
  if (after === null || next.possession === null) return null;
  return (next.possession === play.possession ? after : -after) - before;
}

/** Points that the play itself scored for the team with the ball, a touchdown with its try; null where none. */
function pointsScored(play: PlayRecord): number | null {
  if (play.safety === true) return -2;
  if (play.touchdown !== false && readPlay(play).touchdown) return 7;
  if (play.touchdown === true) return play.tags.endPossession === 'offense ball' ? 7 : -7;
  return play.playKind === 'fieldGoal' && play.result === 'good' ? 3 : null;
}
