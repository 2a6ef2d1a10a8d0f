import { readPlay } from '../metrics/reading.ts';
import type { PlayRecord } from '../play.ts';
import type { Rules } from '../rules/index.ts';
import { settledPlay } from '../situation/play-effect.ts';
import { type BoxGame, opponent, playerOf } from './book.ts';

export interface ScoringPlay {
  readonly playId: string;
  readonly quarter: number | null;
  /** seconds left in the quarter at the snap */
  readonly clock: number | null;
  readonly team: string;
  readonly points: number;
  /** in words: who, how, how far */
  readonly what: string;
  readonly homeScore: number;
  readonly awayScore: number;
}

/** The scores of a game in order, tries on lines of their own. */
export function scoringSummary(plays: readonly PlayRecord[], game: BoxGame, rules: Rules): ScoringPlay[] {
  const lines: ScoringPlay[] = [];
  let home = 0;
  let away = 0;
  for (const play of plays) {
    if (play.possession === null || !mayScore(play)) continue;
    const { offense, defense } = pointsOf(play, rules);
    for (const [team, points] of [
      [play.possession, offense],
      [opponent(game, play.possession), defense],
    ] as const) {
      if (points === 0) continue;
      if (team === game.home) home += points;
      else away += points;
      lines.push({
        playId: play.playId,
        quarter: play.quarter,
        clock: play.clock,
        team,
        points,
        what: inWords(play, team === play.possession, points),
        homeScore: home,
        awayScore: away,
      });
    }
  }
  return lines;
}

/** Whether there is anything in the record that could be a score; most plays need no closer look. */
function mayScore(play: PlayRecord): boolean {
  if (play.touchdown || play.safety || play.playKind === 'fieldGoal' || play.playKind === 'try') return true;
  return play.gain !== null && play.yardsToGoal !== null && play.gain >= play.yardsToGoal;
}

function pointsOf(play: PlayRecord, rules: Rules): { offense: number; defense: number } {
  const effect = settledPlay(play, rules);
  if (effect.ok) return effect.points;
  // the spot may be missing; a score that is logged as such is a score all the same
  if (play.safety) return { offense: 0, defense: 2 };
  if (play.playKind === 'fieldGoal') return { offense: play.result === 'good' ? 3 : 0, defense: 0 };
  if (!play.touchdown || play.playKind === 'noPlay') return { offense: 0, defense: 0 };
  return readPlay(play, rules).touchdown ? { offense: 6, defense: 0 } : { offense: 0, defense: 6 };
}

function inWords(play: PlayRecord, byOffense: boolean, points: number): string {
  const who = (field: string): string => playerOf(play, field) ?? '';
  const gain = play.gain === null ? '' : `${play.gain}-yard `;
  const words = (...parts: string[]): string => parts.filter((p) => p !== '').join(' ');
  if (play.playKind === 'try') return tryInWords(play, byOffense, points, words);
  if (points === 2) return 'Safety';
  if (play.playKind === 'fieldGoal' && byOffense)
    return words(who('kicker'), play.kickYards === null ? 'field goal' : `${play.kickYards}-yard field goal`);
  if (byOffense && play.result === 'complete')
    return words(who('target'), `${gain}pass`, who('passer') && `from ${who('passer')}`);
  if (byOffense && play.fumble === null && play.playKind !== 'punt')
    return words(who('carrier') || who('passer'), `${gain}run`);
  const back = play.returnYards === null ? '' : `${play.returnYards}-yard `;
  if (play.result === 'interception') return words(who('interceptor'), `${back}interception return`);
  if (play.fumble !== null) return words(who('recoverer'), `${back}fumble return`);
  const kick = play.playKind === 'punt' || play.playKind === 'kickoff' ? `${play.playKind} return` : 'return';
  return words(who('returner'), `${back}${kick}`);
}

function tryInWords(
  play: PlayRecord,
  byOffense: boolean,
  points: number,
  words: (...parts: string[]) => string,
): string {
  if (!byOffense) return 'Try returned';
  const of = (field: string): string => playerOf(play, field) ?? '';
  if (points === 1) return words(of('kicker'), 'kick');
  return words(of('target') || of('carrier'), play.tags.tryKind === 'run try' ? 'run' : 'pass or run');
}
