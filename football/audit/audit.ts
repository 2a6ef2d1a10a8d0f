import { inOrder } from '../drives/drives.ts';
import type { PlayRecord } from '../play.ts';
import type { Rules } from '../rules/index.ts';
import { type Context, contextsOf } from '../situation/context.ts';
import { type PlayEffect, settledPlay } from '../situation/play-effect.ts';
import type { Teams } from '../situation/situation.ts';
import { type Follow, followOf, pairFinding, type Step } from './between-plays.ts';
import type { Finding } from './finding.ts';
import { fixFor } from './fixes.ts';
import { auditDrives, auditOrder } from './whole-game.ts';
import { auditPlay } from './within-play.ts';

export type { Finding } from './finding.ts';

/**
 * Every place in a game where a play contradicts itself or cannot follow from the play before, in order of
 * play. What is not logged yet is no finding.
 */
export function auditGame(plays: readonly PlayRecord[], rules: Rules, teams: Teams = {}): Finding[] {
  return makeAuditor(rules, teams)(plays);
}

/**
 * An audit that remembers: records are never changed in place, so a play that is the same object as last
 * time is not read again. Made once for a game, and called with all its plays after every key.
 */
export function makeAuditor(rules: Rules, teams: Teams = {}): (plays: readonly PlayRecord[]) => Finding[] {
  const memory = new WeakMap<PlayRecord, Memory>();
  const remember = (play: PlayRecord): Memory => {
    let known = memory.get(play);
    if (!known) {
      const effect = settledPlay(play, rules);
      known = { effect, findings: auditPlay(play, rules, effect), context: null, after: null, follow: null };
      memory.set(play, known);
    }
    return known;
  };
  const effectOf = (play: PlayRecord): PlayEffect => remember(play).effect;
  return (given) => {
    const plays = inOrder(given);
    const contexts = contextsOf(plays, rules, teams, effectOf);
    const steps = plays.map((play, i): Step => {
      const known = remember(play);
      const context = contexts[i] as Context;
      if (!known.context || !sameContext(known.context, context)) {
        known.context = context;
        known.follow = null;
      }
      return { play, context: known.context, effect: known.effect };
    });
    const follows = steps.map((step, i): Follow | null => {
      const after = plays[i + 1];
      if (!after) return null;
      const known = remember(step.play);
      if (!known.follow || known.after !== after) {
        known.after = after;
        known.follow = followOf(step, after, rules);
      }
      return known.follow;
    });
    const findings = [
      ...plays.flatMap((play) => remember(play).findings),
      ...pairs(steps, follows, rules),
      ...auditOrder(plays, teams),
      ...auditDrives(steps, follows),
    ];
    const place = new Map(plays.map((play, i) => [play.playId, i]));
    return findings.sort((a, b) => (place.get(a.playId) ?? 0) - (place.get(b.playId) ?? 0));
  };
}

/** What is known of a play as long as its record is the same object. */
interface Memory {
  readonly effect: PlayEffect;
  readonly findings: readonly Finding[];
  context: Context | null;
  after: PlayRecord | null;
  follow: Follow | null;
}

function sameContext(a: Context, b: Context): boolean {
  return (
    a.other === b.other &&
    a.openingKicker === b.openingKicker &&
    a.kickoffsLogged === b.kickoffsLogged &&
    a.scoreFor === b.scoreFor &&
    a.scoreAgainst === b.scoreAgainst &&
    a.drive === b.drive &&
    a.onKickoff === b.onKickoff &&
    a.overtimeHolders.join() === b.overtimeHolders.join()
  );
}

function pairs(steps: readonly Step[], follows: readonly (Follow | null)[], rules: Rules): Finding[] {
  const findings: Finding[] = [];
  /** the situation of this play is wrong beyond doubt: what follows from it is no second error */
  let settled: string | null = null;
  for (let i = 0; i + 1 < steps.length; i += 1) {
    const before = steps[i];
    const after = steps[i + 1];
    const follow = follows[i];
    if (!before || !after || !follow) continue;
    const echo = settled === before.play.playId;
    settled = null;
    if (!follow.prediction.ok || follow.wrong.length === 0 || echo) continue;
    const fix = fixFor(before, after, steps[i + 2]?.play, follow, rules);
    if (fix?.playId === after.play.playId && steps[i + 2]) settled = after.play.playId;
    findings.push(pairFinding(before, after.play, follow.prediction.situation, follow.wrong, fix));
  }
  return findings;
}
