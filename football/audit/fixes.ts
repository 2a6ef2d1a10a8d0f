import type { PlayRecord } from '../play.ts';
import type { Rules } from '../rules/index.ts';
import { settledPlay } from '../situation/play-effect.ts';
import { type Follow, followOf, type Step } from './between-plays.ts';
import type { Fix } from './finding.ts';

/**
 * The one change that makes a pair follow, if there is just one: a field of the later play, when the play
 * after it agrees with the change or is not there yet; else the gain of the earlier play, when that explains
 * every difference.
 */
export function fixFor(
  before: Step,
  after: Step,
  next: PlayRecord | undefined,
  follow: Follow,
  rules: Rules,
): Fix | null {
  const { wrong: fields, prediction } = follow;
  if (!prediction.ok) return null;
  const [field] = fields;
  const value = field ? prediction.situation[field] : null;
  const one = fields.length === 1 && field !== undefined && value !== null;
  if (one) {
    const changes = { playId: after.play.playId, field, value };
    if (!next) return changes;
    const worked = follows(changedStep(after, field, value, rules), next, rules);
    if (worked && !follows(after, next, rules)) return changes;
    const gain = gainFix(before, after.play, rules);
    if (gain) return gain;
    return worked ? changes : null;
  }
  return gainFix(before, after.play, rules);
}

function follows(step: Step, next: PlayRecord, rules: Rules): boolean {
  const { prediction, wrong } = followOf(step, next, rules);
  return prediction.ok && wrong.length === 0;
}

/** The step with one field of its play changed, and what the game adds to it changed along. */
function changedStep(step: Step, field: string, value: string | number | boolean, rules: Rules): Step {
  const play: PlayRecord = { ...step.play, [field]: value };
  let { context } = step;
  if (field === 'scoreFor' || field === 'scoreAgainst') context = { ...context, [field]: Number(value) };
  if (field === 'possession' && value !== step.play.possession)
    context = {
      ...context,
      other: step.play.possession,
      scoreFor: context.scoreAgainst,
      scoreAgainst: context.scoreFor,
    };
  return { play, context, effect: settledPlay(play, rules) };
}

/** The gain that would bring the earlier play to the later one's spot. */
function gainFix(before: Step, after: PlayRecord, rules: Rules): Fix | null {
  const { play } = before;
  const carried = play.playKind === 'run' || play.playKind === 'pass' || play.playKind === 'kneel';
  if (!carried || play.gain === null || play.yardsToGoal === null || after.yardsToGoal === null) return null;
  const spot = after.possession === play.possession ? after.yardsToGoal : 100 - after.yardsToGoal;
  const gain = play.yardsToGoal - spot;
  if (gain === play.gain) return null;
  const changed: PlayRecord = { ...play, gain, airYards: null, yardsAfterCatch: null };
  const step: Step = { ...before, play: changed, effect: settledPlay(changed, rules) };
  return follows(step, after, rules) ? { playId: play.playId, field: 'gain', value: gain } : null;
}
