import { inOrder } from '../drives/drives.ts';
import { type DriveLine, driveLines } from '../metrics/drive-facts.ts';
import type { Level, PlayRecord } from '../play.ts';
import { type Rules, rulesFor } from '../rules/index.ts';
import { type Book, type BoxGame, newBook, opponent } from './book.ts';
import { countKick, countTry } from './kicks.ts';
import type { PlayerLines, TeamLine } from './lines.ts';
import { type ScoringPlay, scoringSummary } from './scoring.ts';
import { countScrimmage } from './scrimmage.ts';

export type { BoxGame } from './book.ts';
export type * from './lines.ts';
export type { ScoringPlay } from './scoring.ts';

export interface BoxDrive {
  readonly drive: number;
  readonly team: string;
  readonly quarter: number | null;
  /** seconds left in the quarter at its first snap */
  readonly clock: number | null;
  /** yards to goal at its first snap */
  readonly from: number | null;
  readonly calls: number;
  readonly yards: number;
  readonly points: number;
  readonly end: DriveLine['end'];
  readonly playIds: readonly string[];
}

export interface BoxScore {
  readonly level: Level;
  /** whose yards a sack's are at this level, for the notes below the table */
  readonly sackYards: 'teamPassing' | 'rushing';
  readonly teams: { readonly home: TeamLine; readonly away: TeamLine };
  readonly players: PlayerLines;
  readonly drives: readonly BoxDrive[];
  readonly scoring: readonly ScoringPlay[];
}

/**
 * The box score of one game in its level's own way of counting. What is not logged is not counted: a play
 * without a passer stands on the line `Team`.
 * @param plays all plays of the game, in any order
 */
export function boxScore(plays: readonly PlayRecord[], game: BoxGame, rulesOrLevel: Rules | Level): BoxScore {
  const rules = typeof rulesOrLevel === 'string' ? rulesFor(rulesOrLevel) : rulesOrLevel;
  const ordered = inOrder(plays);
  const book = newBook(game, rules);
  for (const play of ordered) countPlay(book, play);
  const scoring = scoringSummary(ordered, game, rules);
  for (const score of scoring) {
    const line = book.teams[score.team];
    if (line) line.points += score.points;
  }
  return {
    level: rules.level,
    sackYards: rules.sackYardsBelongTo.value,
    teams: { home: book.teams[game.home] as TeamLine, away: book.teams[game.away] as TeamLine },
    players: {
      passing: sorted(book.passing.all(), (l) => l.attempts),
      rushing: sorted(book.rushing.all(), (l) => l.yards),
      receiving: sorted(book.receiving.all(), (l) => l.yards),
      defense: sorted(book.defense.all(), (l) => l.tackles + l.assists / 2),
      fumbles: sorted(book.fumbles.all(), (l) => l.fumbles),
      kicking: sorted(book.kicking.all(), (l) => l.points),
      punting: sorted(book.punting.all(), (l) => l.punts),
      kickReturns: sorted(book.kickReturns.all(), (l) => l.yards),
      puntReturns: sorted(book.puntReturns.all(), (l) => l.yards),
    },
    drives: driveLines(ordered, rules).map(boxDrive),
    scoring,
  };
}

function sorted<L extends { team: string; player: string }>(lines: L[], by: (line: L) => number): L[] {
  return lines.sort((a, b) => inOrderOf(a.team, b.team) || by(b) - by(a) || inOrderOf(a.player, b.player));
}

/** By code unit, the same on every machine and many times faster than by locale. */
function inOrderOf(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function countPlay(book: Book, play: PlayRecord): void {
  const team = play.possession;
  if (team === null || !book.teams[team]) return;
  if (play.penalty !== null) countPenalties(book, play, team);
  switch (play.playKind) {
    case 'noPlay':
      if (play.firstDown) {
        const line = book.teams[team];
        line.firstDowns += 1;
        line.firstDownsByPenalty += 1;
      }
      return;
    case 'punt':
    case 'kickoff':
    case 'fieldGoal':
      countKick(book, play, team);
      return;
    case 'try':
      countTry(book, play, team);
      return;
    default:
      countScrimmage(book, play, team);
  }
}

/** Accepted penalties and their yards; those declined or offset are not counted. */
function countPenalties(book: Book, play: PlayRecord, team: string): void {
  const charge = (on: unknown, yards: unknown, ruling: unknown): void => {
    if (ruling !== 'accepted' || (on !== 'offense' && on !== 'defense')) return;
    const line = book.teams[on === 'offense' ? team : opponent(book.game, team)];
    if (!line) return;
    line.penalties += 1;
    line.penaltyYards += typeof yards === 'number' ? yards : 0;
  };
  charge(play.penaltyOn, play.penaltyYards, play.penaltyOutcome);
  const { penalty2, penalty2On, penalty2Yards, penalty2Outcome } = play.tags;
  if (penalty2 !== undefined) charge(penalty2On, penalty2Yards, penalty2Outcome);
}

function boxDrive(line: DriveLine): BoxDrive {
  const first = line.plays.find((p) => p.possession === line.team);
  return {
    drive: line.drive,
    team: line.team,
    quarter: first?.quarter ?? null,
    clock: first?.clock ?? null,
    from: first?.yardsToGoal ?? null,
    calls: line.calls,
    yards: line.yards,
    points: line.points,
    end: line.end,
    playIds: line.plays.map((p) => p.playId),
  };
}
