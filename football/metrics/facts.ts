import type { PlayRecord } from '../play.ts';
import { rulesFor } from '../rules/index.ts';
import { type PlayReading, readPlay } from './reading.ts';
import { DEFAULT_METRIC_SETTINGS, isSuccess, type MetricSettings } from './settings.ts';

/**
 * The numbers of one play, in this order. Every metric over plays is a formula over sums of these, so a
 * store may keep each as one column and never look at a play again. A number that may be missing comes
 * with a counter of the plays on which it is known. A drive's numbers stand on its first play. New counters
 * go to the end.
 */
export const COUNTERS = [
  'calls',
  'dropbacks',
  'attempts',
  'completions',
  'gainKnown',
  'yards',
  'completionYardsKnown',
  'passYards',
  'afterCatchKnown',
  'yardsAfterCatch',
  'successKnown',
  'successes',
  'explosiveKnown',
  'explosives',
  'firstDowns',
  'touchdowns',
  'interceptions',
  'sacks',
  'throwTimeKnown',
  'throwSeconds',
  'afterCatchPassYards',
  'passTouchdowns',
  'runTouchdowns',
  'sackYardsKnown',
  'sackYards',
  'scrambles',
  'runs',
  'runYardsKnown',
  'runYards',
  'stuffs',
  'lineYards',
  'thirdDowns',
  'thirdDownConversions',
  'fourthDowns',
  'fourthDownConversions',
  'turnovers',
  'lossKnown',
  'losses',
  'forcedFumbles',
  'passBreakups',
  'pressureKnown',
  'pressured',
  'pressuredSacks',
  'targets',
  'targetCompletions',
  'airYardsKnown',
  'airYards',
  'epaKnown',
  'epa',
  'epaSuccesses',
  'sidesKnown',
  'takeaways',
  'giveaways',
  'drives',
  'driveYards',
  'drivePoints',
  'redZoneTrips',
  'redZoneTouchdowns',
  'redZoneScores',
  'threeAndOuts',
] as const;

export type Counter = (typeof COUNTERS)[number];

/** Where each counter stands in a row of facts. */
export const COUNTER_INDEX = Object.fromEntries(COUNTERS.map((name, i) => [name, i])) as Readonly<
  Record<Counter, number>
>;

/**
 * The counters of one play, in the order of `COUNTERS`: 0 or 1, or yards, seconds, points. Those of drives
 * stay 0 here; `gameFacts` adds them.
 * @param epa expected points added by the play, where the next situation is known
 */
export function playFacts(
  play: PlayRecord,
  settings: MetricSettings = DEFAULT_METRIC_SETTINGS,
  epa: number | null = null,
): Float64Array {
  const facts = new Float64Array(COUNTERS.length);
  const reading = readPlay(play, settings.level ? rulesFor(settings.level) : undefined);
  const put = (counter: Counter, value: number | boolean): void => {
    facts[COUNTER_INDEX[counter]] = Number(value);
  };
  if (settings.team !== undefined && play.possession !== null && play.playKind !== 'noPlay') {
    const loser = ballLostBy(play, reading);
    const ours = play.possession === settings.team ? 'offense' : 'defense';
    put('sidesKnown', 1);
    put('giveaways', loser === ours);
    put('takeaways', loser !== null && loser !== ours);
  }
  if (!reading.call) return facts;
  const putKnown = (known: Counter, counter: Counter, value: number | null): void => {
    if (value === null) return;
    put(known, 1);
    put(counter, value);
  };
  const { gain } = reading;

  put('calls', 1);
  putKnown('gainKnown', 'yards', gain);
  put('firstDowns', play.firstDown ?? madeDistance(play, reading));
  put('touchdowns', reading.touchdown);
  put('turnovers', reading.lost);
  if (play.down === 3) {
    put('thirdDowns', 1);
    put('thirdDownConversions', converted(play, reading));
  }
  if (play.down === 4) {
    put('fourthDowns', 1);
    put('fourthDownConversions', converted(play, reading));
  }

  put('dropbacks', reading.dropback);
  put('attempts', reading.attempt);
  put('interceptions', reading.interception);
  put('scrambles', reading.scramble);
  if (reading.complete) {
    put('completions', 1);
    putKnown('completionYardsKnown', 'passYards', gain);
    put('passTouchdowns', reading.touchdown);
    const after = afterCatch(play);
    putKnown('afterCatchKnown', 'yardsAfterCatch', after);
    if (after !== null && gain !== null) put('afterCatchPassYards', gain);
  }
  if (reading.sack) {
    put('sacks', 1);
    putKnown('sackYardsKnown', 'sackYards', gain === null ? null : -gain);
  }
  if (reading.dropback) {
    const { snap, release } = play.moments;
    if (snap !== undefined && release !== undefined && release > snap)
      putKnown('throwTimeKnown', 'throwSeconds', release - snap);
    const pocket = play.tags.pocket;
    if (pocket !== undefined) {
      const pressured = pocket !== 'clean';
      put('pressureKnown', 1);
      put('pressured', pressured);
      put('pressuredSacks', pressured && reading.sack);
    }
  }
  if (reading.attempt && !reading.spike) {
    putKnown('airYardsKnown', 'airYards', play.airYards);
    if (play.tags.target !== undefined) {
      put('targets', 1);
      put('targetCompletions', reading.complete);
    }
  }

  // a kneel and a spike serve the clock, so they are no try to gain that could succeed, burst or be stuffed
  if (reading.kneel || reading.spike) return facts;
  if (epa !== null) {
    putKnown('epaKnown', 'epa', epa);
    put('epaSuccesses', epa > 0);
  }
  const success = isSuccess(play, gain, settings.success);
  if (success !== null) putKnown('successKnown', 'successes', Number(success));
  if (reading.run) {
    put('runs', 1);
    put('runTouchdowns', reading.touchdown);
  }
  if (gain !== null) {
    const explosive = gain >= (reading.run ? settings.explosiveRunYards : settings.explosivePassYards);
    putKnown('explosiveKnown', 'explosives', Number(explosive));
    putKnown('lossKnown', 'losses', Number(reading.sack || gain < 0));
    if (reading.run) {
      putKnown('runYardsKnown', 'runYards', gain);
      put('stuffs', gain <= 0);
      put('lineYards', lineYards(gain));
    }
  }
  put('forcedFumbles', play.tags.forcedBy !== undefined);
  put('passBreakups', play.tags.brokenUpBy !== undefined);
  return facts;
}

/** The sums that metrics are made of, over any plays. */
export function sumFacts(rows: Iterable<ArrayLike<number>>): Float64Array {
  const sums = new Float64Array(COUNTERS.length);
  for (const row of rows) for (let i = 0; i < sums.length; i++) sums[i] = sums[i]! + (row[i] ?? 0);
  return sums;
}

/**
 * The yards of a run that are credited to the line: losses count 120 %, 0 to 4 yards in full, 5 to 10 by
 * half, more not at all (Football Study Hall, 26 April 2011; ESPN stats explainer).
 */
export function lineYards(gain: number): number {
  if (gain < 0) return gain * 1.2;
  return Math.min(gain, 4) + Math.max(0, Math.min(gain, 10) - 4) / 2;
}

function madeDistance(play: PlayRecord, reading: PlayReading): boolean {
  const { distance } = play;
  return !reading.lost && reading.gain !== null && distance !== null && reading.gain >= distance;
}

/**
 * A third or fourth down is converted by its own gain or a touchdown; a recorded first down decides only
 * where the gain can't, because it may have come by a foul after the play, which the books don't count.
 */
function converted(play: PlayRecord, reading: PlayReading): boolean {
  if (reading.touchdown) return true;
  if (reading.interception) return false;
  if (reading.gain === null || play.distance === null) return play.firstDown === true;
  return reading.gain >= play.distance;
}

/**
 * The side that lost the ball to the other by an interception or a fumble, kicks included; offense is the team
 * that put the ball in play. An onside kick and a blocked kick are no turnover.
 */
function ballLostBy(play: PlayRecord, reading: PlayReading): 'offense' | 'defense' | null {
  if (reading.call) return reading.lost ? 'offense' : null;
  if (play.playKind !== 'punt' && play.playKind !== 'kickoff' && play.playKind !== 'fieldGoal') return null;
  const { endPossession } = play.tags;
  if (play.fumble === 'lost') return endPossession === 'defense ball' ? 'offense' : 'defense';
  return play.result === 'muffed' && endPossession === 'offense ball' ? 'defense' : null;
}

function afterCatch(play: PlayRecord): number | null {
  if (play.yardsAfterCatch !== null) return play.yardsAfterCatch;
  return play.gain !== null && play.airYards !== null ? play.gain - play.airYards : null;
}
