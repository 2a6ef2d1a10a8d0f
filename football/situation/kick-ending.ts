import type { PlayRecord } from '../play.ts';
import type { Rules, Side } from '../rules/types.ts';
import type { Ending } from './ending.ts';
import { type Gap, gap } from './gap.ts';
import type { Recorded } from './record.ts';

/** A place kick is held this deep behind the posts' goal line: the end zone's ten yards are part of its length. */
const END_ZONE_YARDS = 10;

/** Punts, kickoffs and field goals. Spots are the kicking team's yards to goal. */
export function kickEnding(
  play: PlayRecord,
  recorded: Recorded,
  rules: Rules,
  yardsToGoal: number,
): Ending | Gap {
  const { kind, result, endedWith } = recorded;
  if (play.touchdown && play.safety)
    return gap('score-contradicts', 'One play cannot be both a touchdown and a safety.', 'safety');
  if (kind === 'fieldGoal' && result === 'good' && !play.touchdown && !play.safety)
    return { what: 'fieldGoal' };
  if (play.touchdown)
    return { what: 'touchdown', by: endedWith ?? (result === 'onsideRecovered' ? 'offense' : 'defense') };
  if (play.safety) return { what: 'safety', on: endedWith ?? (kind === 'kickoff' ? 'defense' : 'offense') };
  if (kind === 'fieldGoal') return missedFieldGoal(play, recorded, rules, yardsToGoal);

  if (result === null && play.returnYards === null)
    return gap('result-missing', 'What became of the kick is not logged.', 'result');
  if (result === 'touchback' || recorded.touchbackRuling) {
    const line = kind === 'punt' ? rules.touchbackOwnYardLine : rules.kickoffTouchbackOwnYardLine;
    return { what: 'spot', holder: 'defense', at: recorded.deadAt ?? line.value, changed: true };
  }
  const holder = kickHolder(recorded);
  if (holder === null)
    return gap('holder-missing', 'Who had the ball after the kick is not logged.', 'endPossession');
  // a blocked punt that stays with the punting team is its down still
  const changed = !(kind === 'punt' && result === 'blocked' && holder === 'offense');
  if (recorded.deadAt !== null) return fairCaught(recorded, rules, holder, recorded.deadAt, changed);
  if (kind === 'kickoff' && result === 'outOfBounds') {
    // the receivers may take the spot where the ball went out, if that is better for them
    const at = Math.max(
      yardsToGoal - rules.kickoffOutOfBoundsYards.value,
      yardsToGoal - (play.kickYards ?? 99),
    );
    return { what: 'spot', holder: 'defense', at: Math.max(1, at), changed };
  }
  const returned = play.returnYards ?? (result === 'returned' || result === null ? null : 0);
  if (play.kickYards === null)
    return gap('kick-missing', 'The length of the kick is not logged.', 'kickYards');
  if (returned === null) return gap('return-missing', 'The return is not logged.', 'returnYards');
  if (recorded.fumble !== null || result === 'muffed' || result === 'blocked')
    return gap('end-missing', 'The ball was loose: where it was dead is not logged.', 'endYardsToGoal');
  const at = yardsToGoal - play.kickYards + returned;
  if (at <= 0)
    return gap('touchback-missing', 'The kick ends behind the goal line, yet it is no touchback.', 'result');
  if (at >= 100)
    return gap('touchdown-missing', 'The return reaches the goal line, yet it is no touchdown.', 'touchdown');
  return fairCaught(recorded, rules, holder, at, changed);
}

/** Some levels put a kickoff fair-caught close to the goal where a touchback would be put. */
function fairCaught(recorded: Recorded, rules: Rules, holder: Side, at: number, changed: boolean): Ending {
  const line = rules.kickoffFairCatchInside.value;
  const counts = recorded.kind === 'kickoff' && recorded.result === 'fairCatch' && line !== null && at < line;
  return { what: 'spot', holder, at: counts ? line : at, changed };
}

function kickHolder({ result, fumble, endedWith }: Recorded): Side | null {
  if (endedWith !== null) return endedWith;
  if (result === 'onsideRecovered') return 'offense';
  if (result === 'blocked') return null;
  if (fumble !== null) return fumble === 'lost' ? 'offense' : 'defense';
  return result === 'muffed' ? null : 'defense';
}

function missedFieldGoal(
  play: PlayRecord,
  recorded: Recorded,
  rules: Rules,
  yardsToGoal: number,
): Ending | Gap {
  const { result, deadAt } = recorded;
  const holder = recorded.endedWith ?? 'defense';
  if (result === null) return gap('result-missing', 'What became of the kick is not logged.', 'result');
  if (deadAt !== null) return { what: 'spot', holder, at: deadAt, changed: holder === 'defense' };
  if (result === 'touchback' || recorded.touchbackRuling)
    return { what: 'spot', holder: 'defense', at: rules.touchbackOwnYardLine.value, changed: true };
  const where = rules.missedFieldGoal.value;
  const untouched = result === 'missed' || (result === 'blocked' && where === 'spotOfKick');
  if (!untouched || holder === 'offense' || where === 'whereDead' || play.returnYards !== null)
    return gap('end-missing', 'Where the kick was dead is not logged.', 'endYardsToGoal');
  if (where === 'spotOfKick' && play.kickYards === null)
    return gap('kick-missing', 'The length of the kick is not logged.', 'kickYards');
  const at = where === 'spotOfKick' ? (play.kickYards ?? 0) - END_ZONE_YARDS : yardsToGoal;
  return {
    what: 'spot',
    holder: 'defense',
    at: Math.max(rules.touchbackOwnYardLine.value, at),
    changed: true,
  };
}
