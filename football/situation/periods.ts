import type { Hash, PlayKind, PlayRecord } from '../play.ts';
import type { Rules } from '../rules/index.ts';
import type { Context } from './context.ts';
import { type Gap, gap } from './gap.ts';
import type { PlayEffect } from './play-effect.ts';

/** How play starts next, seen by the team that had the ball before. */
export interface Start {
  /** that team puts the ball in play again */
  readonly keeps: boolean;
  readonly playKind: PlayKind | null;
  readonly yardsToGoal: number;
  readonly down?: number;
  readonly distance?: number;
  readonly hash?: Hash | null;
  readonly quarter?: number;
  readonly clock?: number | null;
  readonly sameDrive: boolean;
  /** fields given here that the teams choose */
  readonly asks?: readonly string[];
}

/** After the second and the fourth quarter, and after a timed overtime period. */
export function afterPeriod(
  play: PlayRecord,
  context: Context,
  rules: Rules,
  effect: PlayEffect,
): Start | Gap {
  const { quarter } = play;
  if (quarter === 2) {
    if (context.openingKicker === null)
      return gap(
        'half-open',
        'Who kicks off the second half follows from the opening kickoff, which is not logged.',
      );
    return {
      keeps: context.openingKicker !== play.possession,
      playKind: 'kickoff',
      yardsToGoal: 100 - rules.kickoffOwnYardLine.value,
      quarter: 3,
      clock: rules.quarterSeconds.value,
      sameDrive: false,
      // the winner of the toss may have chosen a goal to defend
      asks: ['possession'],
    };
  }
  const score = scoreAfter(context, effect);
  if (score === null)
    return gap('score-missing', 'Whether the game is over depends on the score.', 'scoreFor');
  if (score[0] !== score[1] || (quarter ?? 4) > 4) return gap('game-over', 'The game is over.');
  return gap('overtime-toss', 'Overtime starts with a toss: who has the ball is on the film.');
}

function scoreAfter(context: Context, effect: PlayEffect): [number, number] | null {
  if (context.scoreFor === null || context.scoreAgainst === null || !effect.ok) return null;
  return [context.scoreFor + effect.points.offense, context.scoreAgainst + effect.points.defense];
}

/** Whether a score in overtime decides the game at once. */
export function overtimeIsOver(
  play: PlayRecord,
  context: Context,
  rules: Rules,
  effect: Extract<PlayEffect, { ok: true }>,
): boolean {
  const { kind, answer } = rules.overtime.value;
  const { ending } = effect.settled;
  if (kind === 'series' || (play.quarter ?? 0) < 5) return false;
  if (ending.what === 'safety') return true;
  if (ending.what !== 'touchdown' && ending.what !== 'fieldGoal' && ending.what !== 'try') return false;
  const score = scoreAfter(context, effect);
  if (score === null || answer === 'never') return true;
  const byDefense = effect.points.defense > 0;
  if (ending.what === 'touchdown' && (answer === 'afterFieldGoal' || byDefense)) return true;
  const bothHadIt = context.overtimeHolders.length >= 2;
  if (!bothHadIt) return false;
  return score[0] !== score[1] && !(ending.what === 'touchdown' && score[0] < score[1]);
}

/** College and high school: each team has a series from the same spot, then the next period begins. */
export function afterOvertimePossession(
  play: PlayRecord,
  context: Context,
  rules: Rules,
  effect: PlayEffect,
): Start | Gap {
  const { seriesYardsToGoal, triesOnlyFrom } = rules.overtime.value;
  const spot = seriesYardsToGoal ?? rules.kickoffOwnYardLine.value;
  const period = (play.quarter ?? 5) - 4;
  const starts = (keeps: boolean, overtime: number, asks: readonly string[]): Start => {
    const tries = triesOnlyFrom !== null && overtime >= triesOnlyFrom;
    const yardsToGoal = tries ? rules.tryTwoPointYardsToGoal.value : spot;
    return {
      keeps,
      playKind: tries ? 'try' : null,
      yardsToGoal,
      ...(tries ? {} : { down: 1, distance: Math.min(rules.lineToGainYards.value, yardsToGoal) }),
      quarter: overtime + 4,
      sameDrive: false,
      asks,
    };
  };
  if (context.overtimeHolders.length < 2) return starts(false, period, []);
  const score = scoreAfter(context, effect);
  if (score === null)
    return gap('score-missing', 'Whether the game is over depends on the score.', 'scoreFor');
  if (score[0] !== score[1]) return gap('game-over', 'The game is over.');
  // the choice passes to the other team in each period; nearly all start on defense if they may
  return starts(true, period + 1, ['possession']);
}
