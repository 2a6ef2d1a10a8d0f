import type { PlayRecord } from '../play.ts';
import type { Rules, Side } from '../rules/types.ts';
import { type Gap, gap } from './gap.ts';
import { kickEnding } from './kick-ending.ts';
import type { Recorded } from './record.ts';
import { tryEnding } from './try-ending.ts';

/**
 * How a play ended, before any penalty. Sides are the team that put the ball in play (`offense`, on kicks
 * too) and the other; `at` is the offense's yards to goal, and may lie between two stripes.
 */
export type Ending =
  | {
      readonly what: 'spot';
      readonly holder: Side;
      readonly at: number;
      /** the ball changed hands on the way, so that a new series begins even if it came back */
      readonly changed: boolean;
    }
  | { readonly what: 'touchdown'; readonly by: Side }
  | { readonly what: 'safety'; readonly on: Side }
  | { readonly what: 'fieldGoal' }
  | { readonly what: 'try'; readonly offensePoints: number; readonly defensePoints: number }
  /** the play did not count */
  | { readonly what: 'replay' };

export function endingOf(play: PlayRecord, recorded: Recorded, rules: Rules): Ending | Gap {
  const { yardsToGoal } = play;
  if (yardsToGoal === null) return gap('spot-missing', 'The spot of the play is not logged.', 'yardsToGoal');
  if (yardsToGoal < 1 || yardsToGoal > 99)
    return gap('spot-off-field', 'The spot of the play is not on the field.', 'yardsToGoal');
  if (recorded.deadAt !== null && (recorded.deadAt <= 0 || recorded.deadAt >= 100))
    return gap(
      'spot-off-field',
      'The ball cannot be dead there: the spot is not on the field.',
      'endYardsToGoal',
    );
  switch (recorded.kind) {
    case null:
      return gap('kind-missing', 'What kind of play it was is not logged.', 'playKind');
    case 'noPlay':
      return { what: 'replay' };
    case 'try':
      return tryEnding(play, recorded, rules);
    case 'kickoff':
    case 'punt':
    case 'fieldGoal':
      return kickEnding(play, recorded, rules, yardsToGoal);
    default:
      return scrimmageEnding(play, recorded, rules, yardsToGoal);
  }
}

/** Runs, passes, kneels and spikes. */
function scrimmageEnding(
  play: PlayRecord,
  recorded: Recorded,
  rules: Rules,
  yardsToGoal: number,
): Ending | Gap {
  const { result, fumble, endedWith, deadAt } = recorded;
  const intercepted = result === 'interception';
  if (intercepted && fumble !== null && endedWith === null)
    return gap(
      'fumble-open',
      'A fumble after the interception: who had the ball in the end?',
      'endPossession',
    );
  const holder = endedWith ?? (intercepted || fumble === 'lost' ? 'defense' : 'offense');
  const changed = intercepted || fumble === 'lost' || holder === 'defense';
  if (play.touchdown && play.safety)
    return gap('score-contradicts', 'One play cannot be both a touchdown and a safety.', 'safety');
  if (play.touchdown) return { what: 'touchdown', by: holder };
  if (play.safety) return { what: 'safety', on: holder };
  if (recorded.touchbackRuling) {
    if (!changed)
      return gap('touchback-contradicts', 'A touchback needs a change of possession.', 'endPossession');
    const line = rules.touchbackOwnYardLine.value;
    return { what: 'spot', holder, at: holder === 'defense' ? line : 100 - line, changed };
  }
  if (deadAt !== null) return { what: 'spot', holder, at: deadAt, changed };

  const gain = gainOf(play, recorded);
  if (!changed) {
    if (gain === null) return gap('gain-missing', 'The gain is not logged.', 'gain');
    if ((result === 'incomplete' || result === 'throwaway') && gain !== 0)
      return gap('gain-contradicts', 'An incomplete pass gains nothing.', 'gain');
    const at = yardsToGoal - gain;
    if (at <= 0)
      return play.touchdown === false
        ? gap('touchdown-missing', 'The gain reaches the goal line, yet it is no touchdown.', 'touchdown')
        : { what: 'touchdown', by: 'offense' };
    if (at >= 100)
      return gap('safety-missing', 'The loss ends behind the own goal line, yet it is no safety.', 'safety');
    return { what: 'spot', holder, at, changed };
  }
  if (intercepted && fumble === null && play.airYards !== null && play.returnYards !== null) {
    const at = yardsToGoal - play.airYards + play.returnYards;
    if (at > 0 && at < 100) return { what: 'spot', holder, at, changed };
    return gap('touchdown-missing', 'The return ends beyond a goal line.', 'touchdown');
  }
  return gap('end-missing', 'The ball changed hands: where it was dead is not logged.', 'endYardsToGoal');
}

/** The gain of a play whose ball never changed hands; plays that gain nothing need no entry. */
function gainOf(play: PlayRecord, { kind, result }: Recorded): number | null {
  if (play.gain !== null) return play.gain;
  if (kind === 'spike' || result === 'incomplete' || result === 'throwaway') return 0;
  if (result === 'complete' && play.airYards !== null && play.yardsAfterCatch !== null)
    return play.airYards + play.yardsAfterCatch;
  return null;
}
