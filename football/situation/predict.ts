import { inOrder } from '../drives/drives.ts';
import type { Hash, PlayKind, PlayRecord } from '../play.ts';
import type { Rules } from '../rules/index.ts';
import { type Context, contextOf } from './context.ts';
import { type Gap, gap, isGap } from './gap.ts';
import { afterOvertimePossession, afterPeriod, overtimeIsOver, type Start } from './periods.ts';
import { type PlayEffect, settledPlay } from './play-effect.ts';
import { seriesAfter } from './series.ts';
import type { Prediction, Situation, Teams } from './situation.ts';

export type { Prediction, Situation, Teams } from './situation.ts';

/**
 * The situation of the play after the last of `previous`, or the reason why it cannot be known.
 * @param previous the plays of one game logged so far, in any order; they are read by play number
 * @param rules the level's rules
 * @param teams the two names as `possession` writes them; where missing they are taken from the plays
 */
export function predictNext(previous: readonly PlayRecord[], rules: Rules, teams: Teams = {}): Prediction {
  const plays = inOrder(previous);
  const play = plays.at(-1);
  if (!play) return refusal(gap('no-play', 'There is no play before this one.'));
  return predictAfter(play, contextOf(plays, rules, teams), rules);
}

/**
 * The prediction as far as the play before decides it alone: a refusal, with its words, where the teams
 * choose who has the ball or where. For reports that hold a prediction against the record.
 */
export function decidedOnly(prediction: Prediction): Prediction {
  if (!prediction.ok) return prediction;
  const { situation, asks } = prediction;
  if (situation.playKind === 'try' && asks.includes('yardsToGoal'))
    return refusal(
      gap('team-chooses', 'The team chooses to kick the try or to go for two, and with it the spot.'),
    );
  if (asks.includes('possession'))
    return refusal(gap('team-chooses', 'Who has the ball next is a choice that follows from the toss.'));
  return prediction;
}

/**
 * The engine proper: one play, what the game so far adds to it, and the rules.
 * @param periodEnded the quarter ran out after this play, for callers who see that from the next one
 */
export function predictAfter(
  play: PlayRecord,
  context: Context,
  rules: Rules,
  periodEnded = false,
  effect: PlayEffect = settledPlay(play, rules),
): Prediction {
  if (play.possession === null)
    return refusal(gap('possession-missing', 'Who had the ball is not logged.', 'possession'));
  if (context.other === null)
    return refusal(gap('teams-unknown', 'The other team is not known yet.', 'possession'));
  const start = startAfter(play, context, rules, periodEnded, effect);
  return isGap(start) ? refusal(start) : predicted(play, context, effect, start);
}

function startAfter(
  play: PlayRecord,
  context: Context,
  rules: Rules,
  periodEnded: boolean,
  effect: PlayEffect,
): Start | Gap {
  const ended = periodEnded || effect.recorded.timeExpired;
  const quarter = play.quarter;
  // the second half starts afresh, whatever the last play of the first half was
  if (ended && quarter === 2 && !scores(effect)) return afterPeriod(play, context, rules, effect);
  if (!effect.ok) return effect.gap;
  const next = startInPeriod(play, context, rules, effect);
  if (isGap(next)) return next;
  if (ended && next.playKind !== 'try') {
    if (quarter === null) return gap('quarter-missing', 'The quarter is not logged.', 'quarter');
    if (quarter === 1 || quarter === 3)
      return { ...next, quarter: quarter + 1, clock: rules.quarterSeconds.value };
    return afterPeriod(play, context, rules, effect);
  }
  return next;
}

function scores(effect: PlayEffect): boolean {
  return effect.ok && effect.settled.ending.what === 'touchdown';
}

/** Where play starts next within the same quarter, seen by the team that had the ball. */
function startInPeriod(
  play: PlayRecord,
  context: Context,
  rules: Rules,
  effect: Extract<PlayEffect, { ok: true }>,
): Start | Gap {
  const { settled } = effect;
  const { ending } = settled;
  const inOvertime = (play.quarter ?? 0) >= 5;
  const inSeries = inOvertime && rules.overtime.value.kind === 'series';
  if (inOvertime && overtimeIsOver(play, context, rules, effect))
    return gap('game-over', 'That score ends the game.');
  switch (ending.what) {
    case 'touchdown': {
      if (inSeries && ending.by === 'defense') return gap('game-over', 'That score ends the game.');
      const against = ending.by === 'offense' ? settled.onTry : -settled.onTry;
      const twoPoint =
        inSeries &&
        rules.overtime.value.twoPointFrom !== null &&
        (play.quarter ?? 0) - 4 >= rules.overtime.value.twoPointFrom;
      const base = twoPoint ? rules.tryTwoPointYardsToGoal.value : rules.tryKickYardsToGoal.value;
      const spot = against < 0 ? Math.max(1, base + against, Math.floor(base / 2)) : base + against;
      const chosen = rules.tryKickYardsToGoal.value !== rules.tryTwoPointYardsToGoal.value;
      return {
        keeps: ending.by === 'offense',
        playKind: 'try',
        yardsToGoal: onField(spot),
        sameDrive: ending.by === 'offense',
        asks: chosen ? ['yardsToGoal'] : [],
        clock: play.clock !== null && effect.recorded.timeExpired ? 0 : null,
      };
    }
    case 'safety':
      return kickoff(
        ending.on === 'offense',
        100 - rules.safetyKickOwnYardLine.value,
        settled.onKickoff,
        context,
      );
    case 'fieldGoal':
      if (inSeries) return afterOvertimePossession(play, context, rules, effect);
      return kickoff(true, 100 - rules.kickoffOwnYardLine.value, settled.onKickoff, context);
    case 'try':
      if (inSeries) return afterOvertimePossession(play, context, rules, effect);
      return {
        ...kickoff(
          true,
          100 - rules.kickoffOwnYardLine.value,
          settled.onKickoff + context.onKickoff,
          context,
        ),
        // the clock stands still during a try
        clock: play.clock,
      };
    default: {
      const kind = restarted(play);
      if (ending.what === 'replay' && kind !== null)
        return {
          keeps: true,
          playKind: kind,
          yardsToGoal: onField(settled.finalAt),
          sameDrive: true,
          clock: play.clock,
        };
      const series = seriesAfter(play, settled, rules);
      if (isGap(series)) return series;
      if (inSeries && !series.keeps) return afterOvertimePossession(play, context, rules, effect);
      const still = series.replay || (series.keeps && staysOnHash(effect));
      return {
        ...series,
        playKind: null,
        sameDrive: series.keeps && !(ending.what === 'spot' && ending.changed),
        hash: still ? hashOf(play) : null,
      };
    }
  }
}

function kickoff(keeps: boolean, yardsToGoal: number, moved: number, context: Context): Start | Gap {
  if (!context.kickoffsLogged)
    return gap(
      'kickoffs-not-logged',
      'This game is logged without kickoffs: where the next drive starts is on the film.',
    );
  const at = keeps ? yardsToGoal + moved : yardsToGoal - moved;
  return { keeps, playKind: 'kickoff', yardsToGoal: onField(at), sameDrive: false };
}

/** The spot of a kickoff or a try is a whole yard line on the field. */
function onField(yardsToGoal: number): number {
  return Math.min(99, Math.max(1, Math.floor(yardsToGoal)));
}

/** A free kick or a try that did not count is played again; both have no down. */
function restarted(play: PlayRecord): PlayKind | null {
  if (play.playKind === 'kickoff' || play.playKind === 'try') return play.playKind;
  if (play.playKind !== 'noPlay' || play.down !== null || play.yardsToGoal === null) return null;
  // no kickoff is moved across midfield by more than one penalty, no try out of its own half
  return play.yardsToGoal >= 40 ? 'kickoff' : 'try';
}

/** A ball that was not carried is put back where it was, between the same hash marks. */
function staysOnHash({ recorded }: PlayEffect): boolean {
  return recorded.result === 'incomplete' || recorded.result === 'throwaway' || recorded.kind === 'spike';
}

function hashOf(play: PlayRecord): Hash | null {
  return play.hash === 'L' || play.hash === 'M' || play.hash === 'R' ? play.hash : null;
}

function predicted(play: PlayRecord, context: Context, effect: PlayEffect, start: Start): Prediction {
  const points = effect.ok ? effect.points : null;
  const scoreFor = context.scoreFor !== null && points ? context.scoreFor + points.offense : null;
  const scoreAgainst = context.scoreAgainst !== null && points ? context.scoreAgainst + points.defense : null;
  const drive = context.drive;
  const situation: Situation = {
    quarter: start.quarter ?? play.quarter,
    clock: start.clock ?? null,
    possession: start.keeps ? play.possession : context.other,
    down: start.down ?? null,
    distance: start.distance ?? null,
    yardsToGoal: start.yardsToGoal,
    hash: start.hash ?? null,
    playKind: start.playKind,
    scoreFor: start.keeps ? scoreFor : scoreAgainst,
    scoreAgainst: start.keeps ? scoreAgainst : scoreFor,
    drive: start.playKind === 'kickoff' ? null : start.sameDrive ? drive : (drive ?? 0) + 1,
  };
  const asks = new Set<string>(start.asks ?? []);
  if (situation.clock === null) asks.add('clock');
  if (situation.hash === null) asks.add('hash');
  return { ok: true, situation, asks: [...asks], sameDrive: start.sameDrive };
}

function refusal({ code, reason, field }: Gap): Prediction {
  return { ok: false, code, reason, ...(field ? { field } : {}) };
}
