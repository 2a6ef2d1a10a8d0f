import type { PlayRecord } from '../play.ts';
import { rulesFor } from '../rules/index.ts';
import { converted, madeFirstDown, type PlayReading, readPlay } from './reading.ts';
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
  'hits',
  'freeRusherKnown',
  'freeRushers',
  'pressureTimeKnown',
  'pressureSeconds',
  'drops',
] as const;

export type Counter = (typeof COUNTERS)[number];

/** Where each counter stands in a row of facts. */
export const COUNTER_INDEX = Object.fromEntries(COUNTERS.map((name, i) => [name, i])) as Readonly<
  Record<Counter, number>
>;

const C = COUNTER_INDEX;

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
  if (settings.team !== undefined && play.possession !== null && play.playKind !== 'noPlay') {
    const loser = ballLostBy(play, reading);
    const ours = play.possession === settings.team ? 'offense' : 'defense';
    facts[C.sidesKnown] = 1;
    facts[C.giveaways] = Number(loser === ours);
    facts[C.takeaways] = Number(loser !== null && loser !== ours);
  }
  if (!reading.call) return facts;
  const { gain } = reading;

  facts[C.calls] = 1;
  putKnown(facts, C.gainKnown, C.yards, gain);
  facts[C.firstDowns] = Number(madeFirstDown(play, reading));
  facts[C.touchdowns] = Number(reading.touchdown);
  facts[C.turnovers] = Number(reading.lost);
  if (play.down === 3 && !reading.replayed) {
    facts[C.thirdDowns] = 1;
    facts[C.thirdDownConversions] = Number(converted(play, reading));
  }
  if (play.down === 4 && !reading.replayed) {
    facts[C.fourthDowns] = 1;
    facts[C.fourthDownConversions] = Number(converted(play, reading));
  }

  facts[C.dropbacks] = Number(reading.dropback);
  facts[C.attempts] = Number(reading.attempt);
  facts[C.interceptions] = Number(reading.interception);
  facts[C.scrambles] = Number(reading.scramble);
  if (reading.complete) {
    facts[C.completions] = 1;
    putKnown(facts, C.completionYardsKnown, C.passYards, gain);
    facts[C.passTouchdowns] = Number(reading.touchdown);
    const after = afterCatch(play);
    putKnown(facts, C.afterCatchKnown, C.yardsAfterCatch, after);
    if (after !== null && gain !== null) facts[C.afterCatchPassYards] = gain;
  }
  if (reading.sack) {
    facts[C.sacks] = 1;
    putKnown(facts, C.sackYardsKnown, C.sackYards, gain === null ? null : -gain);
  }
  if (reading.dropback) {
    const { snap, release } = play.moments;
    if (snap !== undefined && release !== undefined && release > snap)
      putKnown(facts, C.throwTimeKnown, C.throwSeconds, release - snap);
    const pocket = play.tags.pocket;
    if (pocket !== undefined) {
      const pressured = pocket !== 'clean';
      facts[C.pressureKnown] = 1;
      facts[C.pressured] = Number(pressured);
      facts[C.pressuredSacks] = Number(pressured && reading.sack);
      // a sacked passer was hit, whatever else is logged
      facts[C.hits] = Number(pocket === 'hit' || reading.sack);
    }
    const { freeRusher, timeToPressure } = play.tags;
    if (freeRusher !== undefined) putKnown(facts, C.freeRusherKnown, C.freeRushers, Number(freeRusher));
    if (typeof timeToPressure === 'number')
      putKnown(facts, C.pressureTimeKnown, C.pressureSeconds, timeToPressure);
  }
  if (reading.attempt && !reading.spike) {
    putKnown(facts, C.airYardsKnown, C.airYards, play.airYards);
    if (play.tags.target !== undefined) {
      facts[C.targets] = 1;
      facts[C.targetCompletions] = Number(reading.complete);
      facts[C.drops] = Number(!reading.complete && Number(play.tags.dropped ?? 0) === 1);
    }
  }

  // a kneel and a spike serve the clock, so they are no try to gain that could succeed, burst or be stuffed
  if (reading.kneel || reading.spike) return facts;
  if (epa !== null) {
    putKnown(facts, C.epaKnown, C.epa, epa);
    facts[C.epaSuccesses] = Number(epa > 0);
  }
  const success = isSuccess(play, gain, settings.success);
  if (success !== null) putKnown(facts, C.successKnown, C.successes, Number(success));
  if (reading.run) {
    facts[C.runs] = 1;
    facts[C.runTouchdowns] = Number(reading.touchdown);
  }
  if (gain !== null) {
    const explosive = gain >= (reading.run ? settings.explosiveRunYards : settings.explosivePassYards);
    putKnown(facts, C.explosiveKnown, C.explosives, Number(explosive));
    putKnown(facts, C.lossKnown, C.losses, Number(reading.sack || gain < 0));
    if (reading.run) {
      putKnown(facts, C.runYardsKnown, C.runYards, gain);
      facts[C.stuffs] = Number(gain <= 0);
      facts[C.lineYards] = lineYards(gain);
    }
  }
  facts[C.forcedFumbles] = Number(play.tags.forcedBy !== undefined);
  facts[C.passBreakups] = Number(play.tags.brokenUpBy !== undefined);
  return facts;
}

function putKnown(facts: Float64Array, known: number, counter: number, value: number | null): void {
  if (value === null) return;
  facts[known] = 1;
  facts[counter] = value;
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
