import type { PlayColumns } from '../play.ts';
import type { Described, DescribedSpot } from './description.ts';
import { teamOf } from './names.ts';
import { flag, type OpenRow, text } from './open-row.ts';
import { type OutcomeContext, spotToGoal } from './outcome-context.ts';

/** Tags that say who had the ball in the end and where it was dead, wherever the yards alone do not. */
export function ballOf(
  row: OpenRow,
  described: Described,
  context: OutcomeContext,
  columns: Partial<PlayColumns>,
): Record<string, string | number> {
  const { possession } = context;
  if (possession === null) return {};
  const { playKind: kind, result } = columns;
  if (kind === 'try') return triedBack(row) ? { endPossession: 'defense ball' } : {};
  const isKick = kind === 'punt' || kind === 'kickoff' || kind === 'fieldGoal';
  const recovered = typeof described.endedWith === 'object';
  const loose =
    described.fumble ||
    described.muff ||
    described.lateral ||
    result === 'interception' ||
    result === 'blocked' ||
    (kind === 'kickoff' && recovered);
  if (result === 'incomplete' || !(loose || isKick || flag(row, 'fumble'))) return {};

  const tags: Record<string, string | number> = {};
  const team = columns.touchdown
    ? scorerOf(row, context)
    : loose
      ? holderOf(row, described, context, result)
      : null;
  if (team !== null) tags.endPossession = team === possession ? 'offense ball' : 'defense ball';
  if (columns.touchdown || columns.safety || result === 'good') return tags;
  const at = spotToGoal(deadSpot(described, result), context);
  const known = at !== null && at > 0 && at < 100;
  if (known && !(kind === 'kickoff' && result === 'outOfBounds' && !loose)) tags.endYardsToGoal = at;
  else if (loose && !described.touchback && result !== 'blocked')
    context.say('endYardsToGoal', 'No column says where the ball was dead.');
  return tags;
}

function triedBack(row: OpenRow): boolean {
  return flag(row, 'defensive_two_point_conv') || flag(row, 'defensive_extra_point_conv');
}

function scorerOf(row: OpenRow, context: OutcomeContext): string | null {
  const scorer = text(row, 'td_team');
  return scorer === null ? null : teamOf(scorer, context.home, context.away);
}

function holderOf(
  row: OpenRow,
  { endedWith, lastSpot }: Described,
  { home, away, possession }: OutcomeContext,
  result: string | null | undefined,
): string | null {
  if (text(row, 'desc') === null) return null;
  if (typeof endedWith === 'object') return teamOf(endedWith.team, home, away);
  // of a block that nobody is said to have recovered the sentence tells only the spot, if that
  if (result === 'blocked') return lastSpot === null ? null : possession;
  if (endedWith === 'start') return possession;
  return possession === home ? away : home;
}

/** A touchdown that was called back is over where its penalty was marked off from. */
function deadSpot(described: Described, result: string | null | undefined): DescribedSpot | null {
  if (result === 'touchback' || described.touchback) return described.touchbackAt;
  if (described.nullifiedTouchdown)
    return described.penalties.find((penalty) => penalty.ruling === 'accepted')?.at ?? null;
  return described.lastSpot;
}
