import type { PlayRecord } from '../play.ts';
import { type Book, endedWithDefense, opponent, playerOf } from './book.ts';
import { countFumble, countTackles } from './defense.ts';
import { type ReturnLine, takeLongest } from './lines.ts';

/** Counts a punt, a kickoff or a field goal of the team that put the ball in play. */
export function countKick(book: Book, play: PlayRecord, team: string): void {
  if (play.playKind === 'fieldGoal') countFieldGoal(book, play, team);
  if (play.playKind === 'punt') countPunt(book, play, team);
  if (play.playKind === 'kickoff' || play.playKind === 'punt') {
    countReturn(book, play, team);
    countFumble(book, play, team, play.result !== 'blocked');
  } else countFumble(book, play, team, false);
  const defenseHolds = endedWithDefense(play, play.fumble !== 'lost');
  countTackles(book, play, defenseHolds ? opponent(book.game, team) : team, {
    kick: true,
    sackOf: null,
    lossOf: null,
    yards: 0,
  });
}

function countFieldGoal(book: Book, play: PlayRecord, team: string): void {
  const line = book.kicking.of(team, playerOf(play, 'kicker'));
  line.fieldGoalAttempts += 1;
  if (play.result !== 'good') return;
  line.fieldGoalsMade += 1;
  line.points += 3;
  line.longestFieldGoal = Math.max(line.longestFieldGoal, play.kickYards ?? 0);
}

/** Counts a kicked try; passed and run tries stand in the scoring summary only. */
export function countTry(book: Book, play: PlayRecord, team: string): void {
  const kind = play.tags.tryKind ?? (playerOf(play, 'kicker') !== null ? 'kick try' : undefined);
  const kicked =
    kind === 'kick try' || (kind === undefined && ['good', 'missed', 'blocked'].includes(play.result ?? ''));
  if (!kicked) return;
  const line = book.kicking.of(team, playerOf(play, 'kicker'));
  line.tryKickAttempts += 1;
  if (play.result !== 'good') return;
  line.tryKicksMade += 1;
  line.points += 1;
}

function countPunt(book: Book, play: PlayRecord, team: string): void {
  const line = book.punting.of(team, playerOf(play, 'kicker'));
  const total = book.teams[team];
  const yards = play.kickYards ?? 0;
  if (total) {
    total.punts += 1;
    total.puntYards += yards;
  }
  if (play.result === 'blocked') {
    line.blocked += 1;
    return;
  }
  line.punts += 1;
  line.yards += yards;
  takeLongest(line, yards, line.punts === 1);
  if (play.result === 'touchback') line.touchbacks += 1;
  else if (endsInsideTwenty(play)) line.insideTwenty += 1;
}

function endsInsideTwenty(play: PlayRecord): boolean {
  const { yardsToGoal, kickYards, returnYards, tags } = play;
  const recorded = typeof tags.endYardsToGoal === 'number' ? tags.endYardsToGoal : null;
  if (recorded !== null) return recorded < 20;
  if (yardsToGoal === null || kickYards === null || play.touchdown) return false;
  return yardsToGoal - kickYards + (returnYards ?? 0) < 20;
}

function countReturn(book: Book, play: PlayRecord, team: string): void {
  const returner = playerOf(play, 'returner');
  const nothing = ['touchback', 'fairCatch', 'downed', 'outOfBounds', 'onsideRecovered', 'blocked'];
  if (nothing.includes(play.result ?? '')) return;
  if (play.returnYards === null || (returner === null && play.result !== 'returned')) return;
  const lines = play.playKind === 'punt' ? book.puntReturns : book.kickReturns;
  const line: ReturnLine = lines.of(opponent(book.game, team), returner);
  line.returns += 1;
  line.yards += play.returnYards;
  takeLongest(line, play.returnYards, line.returns === 1);
  if (play.touchdown && endedWithDefense(play, true) && play.fumble !== 'lost') line.touchdowns += 1;
}
