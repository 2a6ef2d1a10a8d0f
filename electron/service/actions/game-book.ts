import { loadPlays } from '../../../db/repositories/play-records.ts';
import { auditGame, type Finding } from '../../../football/audit/audit.ts';
import { type BoxScore, boxScore } from '../../../football/box/box-score.ts';
import { inOrder } from '../../../football/drives/drives.ts';
import type { PlayRecord } from '../../../football/play.ts';
import { ProblemError } from '../../../football/result.ts';
import { type Rules, rulesFor } from '../../../football/rules/index.ts';
import { decidedOnly, predictNext } from '../../../football/situation/predict.ts';
import type { Situation, Teams } from '../../../football/situation/situation.ts';
import { playerLabel } from '../../../football/values.ts';
import type { Station } from '../station.ts';

interface GameBook {
  readonly plays: readonly PlayRecord[];
  readonly rules: Rules;
  readonly teams: Teams;
}

function bookOf(station: Station, gameId: string): GameBook {
  const game = station.library.db
    .prepare('SELECT season, opponent, level FROM games WHERE id = ?')
    .get(gameId) as { season: number | null; opponent: string | null; level: string | null } | undefined;
  const plays = inOrder(loadPlays(station.library.db, gameId).map((p) => p.record));
  return {
    plays,
    rules: rulesFor(station.level, game?.season ?? undefined),
    teams: teamsIn(plays, station.team, game?.opponent ?? null),
  };
}

/** Ours and the opponent where we played; else the two teams that had the ball, as in a game that was scouted. */
export function teamsIn(plays: readonly PlayRecord[], ours: string, opponent: string | null): Teams {
  const seen = [...new Set(plays.map((p) => p.possession).filter((name): name is string => name !== null))];
  if (seen.length === 0 || seen.includes(ours) || (opponent !== null && seen.includes(opponent))) {
    const away = opponent ?? seen.find((name) => name !== ours);
    return { home: ours, ...(away ? { away } : {}) };
  }
  return { ...(seen[0] ? { home: seen[0] } : {}), ...(seen[1] ? { away: seen[1] } : {}) };
}

/** What in the record of a game cannot be right, each with its play and what would settle it. */
export function audit(station: Station, gameId: string): Finding[] {
  const { plays, rules, teams } = bookOf(station, gameId);
  return auditGame(plays, rules, teams);
}

/** @throws ProblemError `game-one-sided` when only one team is known */
export function box(station: Station, gameId: string): BoxScore {
  const { plays, rules, teams } = bookOf(station, gameId);
  const { home, away } = teams;
  if (!home || !away) {
    throw new ProblemError({
      code: 'game-one-sided',
      message: 'A box score needs both teams, and only one is known of this game.',
      next: 'Name the opponent of the game, or log who had the ball.',
    });
  }
  const teamByLabel = new Map(station.vocabulary().players.map((p) => [playerLabel(p), p.team]));
  return boxScore(plays, { home, away, teamOf: (player) => teamByLabel.get(player) || null }, rules);
}

export interface SituationRow {
  readonly playId: string;
  readonly playNumber: number | null;
  readonly recorded: Pick<PlayRecord, 'down' | 'distance' | 'yardsToGoal' | 'possession'>;
  /** from the play before; null where its outcome is not fully recorded */
  readonly predicted: Situation | null;
  readonly reason: string | null;
}

/** Each play's recorded situation beside the one that the play before leads to. */
export function situations(station: Station, gameId: string): SituationRow[] {
  const { plays, rules, teams } = bookOf(station, gameId);
  return plays.map((play, i) => {
    const { playId, playNumber, down, distance, yardsToGoal, possession } = play;
    const next = i === 0 ? null : decidedOnly(predictNext(plays.slice(0, i), rules, teams));
    return {
      playId,
      playNumber,
      recorded: { down, distance, yardsToGoal, possession },
      predicted: next?.ok ? next.situation : null,
      reason: next === null ? 'It is the first play.' : next.ok ? null : next.reason,
    };
  });
}
