import { drivesOf } from '../drives/drives.ts';
import type { PlayRecord } from '../play.ts';
import type { Rules } from '../rules/index.ts';
import { type PlayEffect, settledPlay } from './play-effect.ts';
import type { Teams } from './situation.ts';

/** What the plays before a play tell that the play itself does not. */
export interface Context {
  /** the team that is not in possession; null where nobody has named it */
  readonly other: string | null;
  /** the team that kicked off to start the game; null where that is not logged */
  readonly openingKicker: string | null;
  /** false where a game is logged without its kickoffs, so that they cannot be told from drives that follow */
  readonly kickoffsLogged: boolean;
  /** points before the play of the team in possession and of the other, recorded or added up */
  readonly scoreFor: number | null;
  readonly scoreAgainst: number | null;
  /** number of the drive the play belongs to, or the last one before it */
  readonly drive: number | null;
  /** yards the kickoff is moved by a foul on the scoring play before a try, positive against `possession` */
  readonly onKickoff: number;
  /** teams that have had the ball in this overtime period, in order, the team in possession included */
  readonly overtimeHolders: readonly string[];
}

/** Reads one play; callers that read the same plays again pass a function that remembers. */
export type EffectOf = (play: PlayRecord) => PlayEffect;

/** The context of the last of `plays`, which must be in order of play. */
export function contextOf(plays: readonly PlayRecord[], rules: Rules, teams: Teams): Context {
  const contexts = contextsOf(plays, rules, teams);
  return contexts.at(-1) ?? NOTHING;
}

const NOTHING: Context = {
  other: null,
  openingKicker: null,
  kickoffsLogged: false,
  scoreFor: null,
  scoreAgainst: null,
  drive: null,
  onKickoff: 0,
  overtimeHolders: [],
};

/** The context of every play of a game in order of play, in one pass. */
export function contextsOf(
  plays: readonly PlayRecord[],
  rules: Rules,
  teams: Teams,
  effectOf: EffectOf = (play) => settledPlay(play, rules),
): Context[] {
  const names = teamNames(plays, teams);
  const first = plays.find((play) => play.playKind !== 'noPlay');
  const opened = first?.playKind === 'kickoff' && (first.quarter ?? 1) === 1;
  const drives = drivesOf(plays);
  const contexts: Context[] = [];
  let kickoffsLogged = plays.length > 0 && plays[0]?.down === null;
  let drive: number | null = null;
  // points by team; unknown until a record says, unless the first play of the game is there
  let score: Map<string, number> | null = plays[0]?.playNumber === 1 ? new Map() : null;
  plays.forEach((play, i) => {
    const { possession } = play;
    const other = possession === null ? null : (names.find((name) => name !== possession) ?? null);
    kickoffsLogged ||= play.playKind === 'kickoff';
    drive = drives.get(play.playId) ?? drive;
    if (possession !== null && play.scoreFor !== null && play.scoreAgainst !== null) {
      score = new Map([[possession, play.scoreFor]]);
      if (other !== null) score.set(other, play.scoreAgainst);
    }
    const known = score !== null && possession !== null;
    contexts.push({
      other,
      openingKicker: opened ? (first?.possession ?? null) : null,
      kickoffsLogged,
      scoreFor: known ? (score?.get(possession) ?? 0) : null,
      scoreAgainst: known ? (other === null ? 0 : (score?.get(other) ?? 0)) : null,
      drive,
      onKickoff: play.playKind === 'try' ? carriedToKickoff(plays, i, effectOf) : 0,
      overtimeHolders: (play.quarter ?? 0) >= 5 ? overtimeHolders(plays, i) : [],
    });
    if (score === null) return;
    const effect = effectOf(play);
    if (!effect.ok || possession === null || (other === null && effect.points.defense > 0)) score = null;
    else {
      score.set(possession, (score.get(possession) ?? 0) + effect.points.offense);
      if (other !== null) score.set(other, (score.get(other) ?? 0) + effect.points.defense);
    }
  });
  return contexts;
}

/** The two teams: as given, else as the plays name them. */
function teamNames(plays: readonly PlayRecord[], teams: Teams): string[] {
  const names = [teams.home, teams.away].filter((name) => name !== undefined && name !== '') as string[];
  for (const { possession } of plays) {
    if (names.length >= 2) break;
    if (possession !== null && !names.includes(possession)) names.push(possession);
  }
  return names;
}

/** A foul on a touchdown that was held over for the kickoff passes the try by. */
function carriedToKickoff(plays: readonly PlayRecord[], at: number, effectOf: EffectOf): number {
  let carried = 0;
  for (let i = at - 1; i >= 0; i -= 1) {
    const before = plays[i];
    if (!before) break;
    const effect = effectOf(before);
    const scored = effect.ok && effect.settled.ending.what === 'touchdown';
    if (!scored && before.playKind !== 'noPlay' && before.playKind !== 'try') break;
    if (effect.ok)
      carried +=
        before.possession === plays[at]?.possession ? effect.settled.onKickoff : -effect.settled.onKickoff;
    if (scored) break;
  }
  return carried;
}

function overtimeHolders(plays: readonly PlayRecord[], at: number): string[] {
  const quarter = plays[at]?.quarter;
  const holders: string[] = [];
  for (const play of plays.slice(0, at + 1))
    if (play.quarter === quarter && play.playKind !== 'kickoff' && play.possession !== null)
      if (!holders.includes(play.possession)) holders.push(play.possession);
  return holders;
}
