import type { PlayRecord } from '../play.ts';
import type { Rules } from '../rules/index.ts';
import type { Context } from '../situation/context.ts';
import type { PlayEffect } from '../situation/play-effect.ts';
import { predictAfter } from '../situation/predict.ts';
import type { Prediction, Situation } from '../situation/situation.ts';
import type { Finding, Fix } from './finding.ts';
import { capital, playName, shownOutcome, shownSituation } from './words.ts';

/** A play with what the game adds to it, as the auditor hands it on. */
export interface Step {
  readonly play: PlayRecord;
  readonly context: Context;
  readonly effect: PlayEffect;
}

const SERIES = ['possession', 'down', 'distance', 'yardsToGoal'] as const;
const SCORE = ['scoreFor', 'scoreAgainst'] as const;

/** What must come after a play, and which fields of the next one differ from it. */
export interface Follow {
  readonly prediction: Prediction;
  /** empty where all of it fits, or where nothing is predicted */
  readonly wrong: readonly (keyof Situation)[];
}

export function followOf(before: Step, after: PlayRecord, rules: Rules): Follow {
  const newQuarter =
    before.play.quarter !== null && after.quarter !== null && after.quarter > before.play.quarter;
  const prediction = predictAfter(before.play, before.context, rules, newQuarter, before.effect);
  if (!prediction.ok) return { prediction, wrong: [] };
  const { situation, asks } = prediction;
  const wrong: (keyof Situation)[] = [];
  const kind = after.playKind;
  const wanted = situation.playKind;
  // a play that does not count keeps its kind to itself
  if (wanted !== null && kind !== null && kind !== 'noPlay' && kind !== wanted) wrong.push('playKind');
  if (wanted === null && (kind === 'kickoff' || kind === 'try')) wrong.push('playKind');
  for (const key of SERIES) {
    if (after[key] === null || situation[key] === null || asks.includes(key)) continue;
    if (situation[key] !== after[key] && !betweenStripes(before, situation, after, key)) wrong.push(key);
  }
  // a down that is missing is still to be logged; a down where there is none is wrong
  if (wanted !== null && after.down !== null && !wrong.includes('playKind')) wrong.push('down');
  if (!wrong.includes('possession'))
    for (const key of SCORE)
      if (after[key] !== null && situation[key] !== null && situation[key] !== after[key]) wrong.push(key);
  return { prediction, wrong };
}

/** Lost on downs between two stripes, the ball counts for each offense at the stripe ahead of it. */
function betweenStripes(
  before: Step,
  situation: Situation,
  after: PlayRecord,
  key: (typeof SERIES)[number],
): boolean {
  if (key !== 'yardsToGoal' || situation.yardsToGoal === null || after.yardsToGoal === null) return false;
  const onDowns =
    before.play.down === 4 && situation.down === 1 && situation.possession !== before.play.possession;
  return onDowns && after.yardsToGoal === situation.yardsToGoal - 1;
}

const CODES: Readonly<Record<string, string>> = {
  playKind: 'kind-cannot-follow',
  possession: 'possession-cannot-follow',
  down: 'down-cannot-follow',
  distance: 'distance-cannot-follow',
  yardsToGoal: 'spot-cannot-follow',
  scoreFor: 'score-does-not-add-up',
  scoreAgainst: 'score-does-not-add-up',
};

/** The finding for a pair whose second play cannot follow from the first. */
export function pairFinding(
  before: Step,
  after: PlayRecord,
  situation: Situation,
  fields: readonly (keyof Situation)[],
  fix: Fix | null,
): Finding {
  const first = fields[0] ?? 'down';
  const scoreOnly = first === 'scoreFor' || first === 'scoreAgainst';
  const then = `${playName(before.play)} (${shownSituation({ ...before.play, playKind: null })}: ${shownOutcome(before.play)})`;
  const message = scoreOnly
    ? `The score does not add up: after ${then} it is ${situation.scoreFor ?? '?'} to ${situation.scoreAgainst ?? '?'} for ${situation.possession}, but ${playName(after)} says ${after.scoreFor ?? '?'} to ${after.scoreAgainst ?? '?'}.`
    : `After ${then} comes ${shownSituation(situation)}, but ${playName(after)} says ${shownSituation({ ...after, playKind: after.playKind as Situation['playKind'] })}.`;
  return {
    code: CODES[first] ?? 'situation-cannot-follow',
    playId: after.playId,
    playNumber: after.playNumber,
    fields,
    message,
    settle: settleWords(before, after, first, fix),
    ...(fix ? { fix } : {}),
  };
}

function settleWords(before: Step, after: PlayRecord, first: string, fix: Fix | null): string {
  const both = `${playName(before.play)} and ${playName(after)}`;
  if (fix && fix.playId === before.play.playId)
    return `${capital(playName(before.play))} fits with ${fix.field} ${fix.value}; its film settles it.`;
  if (first === 'playKind' || first === 'possession')
    return `A play between ${both} may be missing, or who had the ball is wrong; the film settles it.`;
  return `Either what came of ${playName(before.play)} or the situation of ${playName(after)} is wrong, or a play between is missing; the film of both settles it.`;
}
