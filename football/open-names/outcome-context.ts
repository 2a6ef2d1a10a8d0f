import type { DescribedSpot } from './description.ts';
import { teamOf } from './names.ts';

export interface OutcomeContext {
  readonly home: string;
  readonly away: string;
  readonly possession: string | null;
  readonly yardsToGoal: number | null;
  readonly kickoff: boolean;
  /** lists what no column says */
  say(field: string, reason: string): void;
}

/** A spot as the team in possession sees it. */
export function spotToGoal(spot: DescribedSpot | null, context: OutcomeContext): number | null {
  if (spot === null || context.possession === null) return null;
  if (spot.team === null) return 50;
  const team = teamOf(spot.team, context.home, context.away);
  if (team === null) return null;
  return team === context.possession ? 100 - spot.line : spot.line;
}
