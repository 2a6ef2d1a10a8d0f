import type { PlayRecord } from '../play.ts';
import type { Rules } from '../rules/index.ts';
import { type Gap, gap, isGap } from './gap.ts';
import type { Settled } from './settle.ts';

/** Who has the ball where, on which down. */
export interface Series {
  /** the team in possession before the play keeps it */
  readonly keeps: boolean;
  readonly down: number;
  readonly distance: number;
  readonly yardsToGoal: number;
  /** the down is played again from the spot of the snap, so that the ball need not move sideways */
  readonly replay: boolean;
}

/** The series after a play that ended at a spot or was called back. */
export function seriesAfter(play: PlayRecord, settled: Settled, rules: Rules): Series | Gap {
  const { ending, finalAt } = settled;
  const replay = ending.what === 'replay';
  if (ending.what !== 'spot' && !replay)
    return gap('series-missing', 'The play ended in a score, not at a spot.');
  const holder = ending.what === 'spot' ? ending.holder : 'offense';
  if (ending.what === 'spot' && (ending.changed || holder === 'defense'))
    return newSeries(holder === 'offense', finalAt, rules, false);

  const { down, distance, yardsToGoal } = play;
  if (down === null) return gap('down-missing', 'The down is not logged.', 'down');
  if (distance === null) return gap('distance-missing', 'The distance is not logged.', 'distance');
  const lastDown = rules.downs.value;
  if (!Number.isInteger(down) || down < 1 || down > lastDown)
    return gap('down-impossible', 'There is no such down.', 'down');
  if (distance < 1 || yardsToGoal === null || distance > yardsToGoal)
    return gap('distance-impossible', 'The line to gain cannot lie there.', 'distance');
  const lineToGain = yardsToGoal - distance;
  const reached = settled.seriesAt <= lineToGain;
  if (reached || settled.down === 'first') return firstDown(settled, rules, replay);
  const again = settled.down === 'replay';
  if (!again && down === lastDown) return newSeries(false, finalAt, rules, replay);
  if (settled.firstAfter || finalAt <= lineToGain) return newSeries(true, finalAt, rules, replay);
  const spot = stripe(finalAt);
  if (isGap(spot)) return spot;
  // short of the line by any length at least one yard remains
  const toGoal = Math.max(spot, lineToGain + 1);
  return {
    keeps: true,
    down: again ? down : down + 1,
    distance: toGoal - lineToGain,
    yardsToGoal: toGoal,
    replay,
  };
}

/** A first down made on the play; a foul of the offense after it may count against the new series. */
function firstDown(settled: Settled, rules: Rules, replay: boolean): Series | Gap {
  const { seriesAt, finalAt } = settled;
  const series = newSeries(true, finalAt, rules, replay);
  const set = rules.foulAfterFirstDown.value === 'afterLine' && finalAt > seriesAt && !settled.firstAfter;
  if (!set || isGap(series)) return series;
  const lineToGain = Math.max(0, seriesAt - rules.lineToGainYards.value);
  return { ...series, distance: series.yardsToGoal - lineToGain };
}

function newSeries(keeps: boolean, at: number, rules: Rules, replay: boolean): Series | Gap {
  const spot = stripe(keeps ? at : 100 - at);
  if (isGap(spot)) return spot;
  const yardsToGoal = spot;
  const distance = Math.min(rules.lineToGainYards.value, yardsToGoal);
  return { keeps, down: 1, distance, yardsToGoal, replay };
}

/** A ball between two stripes counts at the first one ahead of the offense; at least one yard remains. */
function stripe(yardsToGoal: number): number | Gap {
  const spot = Math.max(1, Math.floor(yardsToGoal));
  return spot <= 99
    ? spot
    : gap('spot-off-field', 'The ball would be put behind the goal line.', 'endYardsToGoal');
}
