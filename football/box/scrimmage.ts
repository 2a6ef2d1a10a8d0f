import { converted, madeFirstDown, type PlayReading, readPlay } from '../metrics/reading.ts';
import type { PlayRecord } from '../play.ts';
import { foulRule } from '../rules/fouls.ts';
import { type Book, endedWithDefense, opponent, playerOf } from './book.ts';
import { countFumble, countTackles } from './defense.ts';
import { type TeamLine, takeLongest } from './lines.ts';

/** Counts a play from scrimmage. Plays that do not count leave no mark. */
export function countScrimmage(book: Book, play: PlayRecord, team: string): void {
  const reading = readPlay(play, book.rules);
  const line = book.teams[team];
  if (!reading.call || !line) return;
  const gain = reading.gain ?? 0;
  const passer = playerOf(play, 'passer');
  line.calls += 1;
  line.totalYards += gain;
  countDowns(book, play, line, reading);

  const sackIsRush = book.rules.sackYardsBelongTo.value === 'rushing';
  const kneel = reading.kneel && book.rules.kneelIsRush.value;
  if (reading.run || kneel || (reading.sack && sackIsRush)) {
    const runner = reading.sack || reading.scramble || reading.kneel ? 'passer' : 'carrier';
    const player = playerOf(play, 'carrier') ?? (runner === 'passer' ? passer : null);
    const rush = book.rushing.of(team, player);
    line.rushes += 1;
    line.rushYards += gain;
    rush.attempts += 1;
    rush.yards += gain;
    takeLongest(rush, gain, rush.attempts === 1);
    if (reading.touchdown) rush.touchdowns += 1;
  }
  if (reading.attempt && !(reading.spike && !book.rules.spikeIsAttempt.value)) {
    line.attempts += 1;
    book.passing.of(team, passer).attempts += 1;
    const target = playerOf(play, 'target');
    if (target !== null) book.receiving.of(team, target).targets += 1;
  }
  if (reading.complete) countCompletion(book, play, team, gain, reading.touchdown);
  if (reading.sack) {
    line.sacks += 1;
    line.sackYards -= gain;
    if (!sackIsRush) line.netPassYards += gain;
    const passing = book.passing.of(team, passer);
    passing.sacks += 1;
    passing.sackYards -= gain;
  }
  if (reading.interception) countInterception(book, play, team);
  countFumble(book, play, team, reading.interception);
  const changed = reading.interception || play.fumble === 'lost';
  countTackles(book, play, endedWithDefense(play, changed) ? opponent(book.game, team) : team, {
    kick: false,
    sackOf: reading.sack ? team : null,
    lossOf: (reading.run || reading.complete) && gain < 0 ? team : null,
    yards: gain,
  });
}

function countCompletion(book: Book, play: PlayRecord, team: string, gain: number, touchdown: boolean): void {
  const line = book.teams[team];
  if (!line) return;
  line.completions += 1;
  line.passYards += gain;
  line.netPassYards += gain;
  const passing = book.passing.of(team, playerOf(play, 'passer'));
  passing.completions += 1;
  passing.yards += gain;
  takeLongest(passing, gain, passing.completions === 1);
  const receiving = book.receiving.of(team, playerOf(play, 'target'));
  receiving.receptions += 1;
  receiving.yards += gain;
  takeLongest(receiving, gain, receiving.receptions === 1);
  if (play.yardsAfterCatch !== null) receiving.yardsAfterCatch += play.yardsAfterCatch;
  else if (play.airYards !== null) receiving.yardsAfterCatch += gain - play.airYards;
  if (!touchdown) return;
  passing.touchdowns += 1;
  receiving.touchdowns += 1;
}

function countInterception(book: Book, play: PlayRecord, team: string): void {
  const line = book.teams[team];
  if (line) line.interceptions += 1;
  if (line) line.turnovers += 1;
  book.passing.of(team, playerOf(play, 'passer')).interceptions += 1;
  const thief = book.defense.of(opponent(book.game, team), playerOf(play, 'interceptor'));
  thief.interceptions += 1;
  thief.interceptionYards += play.returnYards ?? 0;
  if (play.touchdown && play.turnover !== false) thief.interceptionTouchdowns += 1;
}

/**
 * Conversions are the metrics' own, so that box and table agree. A first down by the play and one by a foul
 * after it are two (official professional boxes; at the other levels from memory).
 */
function countDowns(book: Book, play: PlayRecord, line: TeamLine, reading: PlayReading): void {
  if (play.down === 3 && !reading.replayed) {
    line.thirdDowns += 1;
    if (converted(play, reading)) line.thirdDownConversions += 1;
  }
  if (play.down === 4 && !reading.replayed) {
    line.fourthDowns += 1;
    if (converted(play, reading)) line.fourthDownConversions += 1;
  }
  if (!madeFirstDown(play, reading)) return;
  const byGain = reading.gain !== null && play.distance !== null && reading.gain >= play.distance;
  const byPenalty = !play.touchdown && givesFirstDown(book, play);
  line.firstDowns += byGain && byPenalty ? 2 : 1;
  if (byPenalty) line.firstDownsByPenalty += 1;
}

function givesFirstDown(book: Book, play: PlayRecord): boolean {
  if (play.penaltyOutcome !== 'accepted' || play.penaltyOn !== 'defense') return false;
  if (play.tags.penaltyDown !== undefined) return play.tags.penaltyDown === 'automatic first';
  return foulRule(book.rules, play.penalty, 'defense')?.automaticFirstDown ?? false;
}
