import type { PlayRecord } from '../play.ts';
import { type Book, opponent, playerOf } from './book.ts';

export interface TackleContext {
  readonly kick: boolean;
  /** the team whose passer was sacked */
  readonly sackOf: string | null;
  /** the team whose runner was stopped behind the line */
  readonly lossOf: string | null;
  /** gain of the play, negative for a loss */
  readonly yards: number;
}

const TACKLE_FIELDS = ['tackler', 'tackler2', 'assist', 'assist2'] as const;

/**
 * Counts who made the tackle. `tackler` made it alone or with an `assist`; two assists without a tackler
 * shared it evenly, and a sack with it. `tackler2` is for a second tackle after the ball was loose or lost.
 * @param holder the team that had the ball in the end; its opponent tackles, unless a roster says otherwise
 */
export function countTackles(book: Book, play: PlayRecord, holder: string, context: TackleContext): void {
  const { game } = book;
  const even = playerOf(play, 'tackler') === null;
  for (const field of TACKLE_FIELDS) {
    const player = playerOf(play, field);
    if (player === null) continue;
    const first = field === 'tackler';
    const shares = even && (field === 'assist' || field === 'assist2');
    // the sack, or the tackle that a loss is for, is the first one: it was made before the ball was lost
    const against = (first || shares) && context.sackOf !== null ? context.sackOf : holder;
    const team = game.teamOf?.(player) ?? opponent(game, against);
    const line = book.defense.of(team, player);
    if (context.kick) {
      line.kickTackles += 1;
      continue;
    }
    if (field === 'tackler' || field === 'tackler2') line.tackles += 1;
    else line.assists += 1;
    const part = first ? 1 : shares ? 0.5 : 0;
    if (part === 0) continue;
    if (context.sackOf !== null && team !== context.sackOf) {
      line.sacks += part;
      line.sackYards -= context.yards * part;
    }
    const lossOf = context.sackOf ?? context.lossOf;
    if (lossOf !== null && team !== lossOf) line.tacklesForLoss += part;
  }
  const breaker = playerOf(play, 'brokenUpBy');
  if (breaker !== null && play.possession !== null)
    book.defense.of(game.teamOf?.(breaker) ?? opponent(game, play.possession), breaker).passBreakups += 1;
}

/**
 * Counts a fumble of a play from scrimmage or of a return. The team that fumbled is the team in possession,
 * after an interception the other, unless a roster knows the fumbler.
 */
export function countFumble(book: Book, play: PlayRecord, team: string, afterChange: boolean): void {
  const { game } = book;
  if (play.fumble === null) return;
  const named = playerOf(play, 'fumbler');
  const usual = afterChange ? opponent(game, team) : team;
  const fumblingTeam = (named !== null ? game.teamOf?.(named) : null) ?? usual;
  const carrier = afterChange
    ? (playerOf(play, 'interceptor') ?? playerOf(play, 'returner'))
    : (playerOf(play, 'carrier') ??
      (play.result === 'complete' ? playerOf(play, 'target') : playerOf(play, 'passer')));
  const line = book.fumbles.of(fumblingTeam, named ?? carrier);
  const teamLine = book.teams[fumblingTeam];
  line.fumbles += 1;
  if (teamLine) teamLine.fumbles += 1;
  const lost = play.fumble === 'lost';
  if (lost) {
    line.lost += 1;
    if (teamLine) {
      teamLine.fumblesLost += 1;
      teamLine.turnovers += 1;
    }
  }
  const forcer = playerOf(play, 'forcedBy');
  if (forcer !== null)
    book.defense.of(game.teamOf?.(forcer) ?? opponent(game, fumblingTeam), forcer).forcedFumbles += 1;
  const recoverer = playerOf(play, 'recoverer');
  if (recoverer !== null && lost)
    book.defense.of(game.teamOf?.(recoverer) ?? opponent(game, fumblingTeam), recoverer).fumblesRecovered +=
      1;
}
