import { drivesOf } from '../drives/drives.ts';
import type { PlayRecord } from '../play.ts';
import type { Rules } from '../rules/index.ts';
import { settledPlay } from './play-effect.ts';
import type { Teams } from './situation.ts';

/** What the plays before a play tell that the play itself does not. */
export interface Context {
  /** the team that is not in possession; null where nobody has named it */
  readonly other: string | null;
  /** the team that kicked off to start the game; null where that is not logged */
  readonly openingKicker: string | null;
  /** false where a game is logged without its kickoffs, so that they cannot be told from drives that follow */
  readonly kickoffsLogged: boolean;
  readonly scoreFor: number | null;
  readonly scoreAgainst: number | null;
  /** number of the drive the play belongs to, or the last one before it */
  readonly drive: number | null;
  /** yards the kickoff is moved by a foul on the scoring play before a try, positive against `possession` */
  readonly onKickoff: number;
  /** teams that have had the ball in this overtime period, in order, the team in possession included */
  readonly overtimeHolders: readonly string[];
}

/** The context of the last of `plays`, which must be in order of play. */
export function contextOf(plays: readonly PlayRecord[], rules: Rules, teams: Teams): Context {
  const play = plays.at(-1);
  const possession = play?.possession ?? null;
  const score = scoreBefore(plays, rules);
  return {
    other: otherTeam(plays, possession, teams),
    openingKicker: openingKicker(plays),
    kickoffsLogged: plays.some((p) => p.playKind === 'kickoff') || plays[0]?.down === null,
    scoreFor: score?.[0] ?? null,
    scoreAgainst: score?.[1] ?? null,
    drive: play ? lastDrive(plays) : null,
    onKickoff: carriedToKickoff(plays, rules),
    overtimeHolders: overtimeHolders(plays),
  };
}

export function otherTeam(plays: readonly PlayRecord[], team: string | null, teams: Teams): string | null {
  if (team === null) return null;
  if (teams.home === team) return teams.away ?? named(plays, team);
  if (teams.away === team) return teams.home ?? named(plays, team);
  return named(plays, team) ?? (teams.home && !teams.away ? teams.home : null);
}

function named(plays: readonly PlayRecord[], not: string): string | null {
  return plays.find((p) => p.possession !== null && p.possession !== not)?.possession ?? null;
}

function openingKicker(plays: readonly PlayRecord[]): string | null {
  const first = plays.find((p) => p.playKind !== 'noPlay');
  return first?.playKind === 'kickoff' && (first.quarter ?? 1) === 1 ? first.possession : null;
}

function lastDrive(plays: readonly PlayRecord[]): number | null {
  const drives = drivesOf(plays);
  let last: number | null = null;
  for (const play of plays) last = drives.get(play.playId) ?? last;
  return last;
}

/** Points of both teams before the last play: as recorded, else added up from the last record or the start. */
function scoreBefore(plays: readonly PlayRecord[], rules: Rules): [number, number] | null {
  const play = plays.at(-1);
  if (!play || play.possession === null) return null;
  if (play.scoreFor !== null && play.scoreAgainst !== null) return [play.scoreFor, play.scoreAgainst];
  const scores = new Map<string, number>();
  let from = plays.length - 1;
  while (from > 0 && (plays[from]?.scoreFor ?? null) === null) from -= 1;
  const anchor = plays[from];
  if (!anchor) return null;
  if (anchor.scoreFor !== null && anchor.scoreAgainst !== null && anchor.possession !== null) {
    scores.set(anchor.possession, anchor.scoreFor);
    const opponent = named(plays, anchor.possession);
    if (opponent !== null) scores.set(opponent, anchor.scoreAgainst);
  } else if (anchor.playNumber !== 1) return null;
  for (const earlier of plays.slice(from, -1)) {
    const effect = settledPlay(earlier, rules);
    if (!effect.ok || earlier.possession === null) return null;
    const opponent = named(plays, earlier.possession);
    add(scores, earlier.possession, effect.points.offense);
    if (opponent !== null) add(scores, opponent, effect.points.defense);
    else if (effect.points.defense !== 0) return null;
  }
  const opponent = named(plays, play.possession);
  return [scores.get(play.possession) ?? 0, opponent === null ? 0 : (scores.get(opponent) ?? 0)];
}

function add(scores: Map<string, number>, team: string, points: number): void {
  scores.set(team, (scores.get(team) ?? 0) + points);
}

/** A foul on a touchdown that was held over for the kickoff passes the try by. */
export function carriedToKickoff(plays: readonly PlayRecord[], rules: Rules): number {
  const play = plays.at(-1);
  if (play?.playKind !== 'try') return 0;
  let carried = 0;
  for (let i = plays.length - 2; i >= 0; i -= 1) {
    const before = plays[i];
    if (!before) break;
    const effect = settledPlay(before, rules);
    const scored = effect.ok && effect.settled.ending.what === 'touchdown';
    if (!scored && before.playKind !== 'noPlay' && before.playKind !== 'try') break;
    if (effect.ok)
      carried += before.possession === play.possession ? effect.settled.onKickoff : -effect.settled.onKickoff;
    if (scored) break;
  }
  return carried;
}

export function overtimeHolders(plays: readonly PlayRecord[]): string[] {
  const quarter = plays.at(-1)?.quarter ?? null;
  if (quarter === null || quarter < 5) return [];
  const holders: string[] = [];
  for (const play of plays)
    if (play.quarter === quarter && play.playKind !== 'kickoff' && play.possession !== null)
      if (!holders.includes(play.possession)) holders.push(play.possession);
  return holders;
}
