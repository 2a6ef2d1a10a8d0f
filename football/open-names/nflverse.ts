import type { PlayColumns, PlayRecord } from '../play.ts';
import { blankPlay } from '../play.ts';
import { type Described, readDescription } from './description.ts';
import { outcomeOf } from './nflverse-outcome.ts';
import { playersOf } from './nflverse-players.ts';
import { flag, number, type OpenRow, text } from './open-row.ts';

export type { OpenRow } from './open-row.ts';

/** A play as a sheet with open column names tells it. */
export interface OpenPlay {
  /** index of the row among those given */
  readonly row: number;
  /** the sheet's own name of the play: the same again when the same sheet comes again */
  readonly externalId: string;
  readonly columns: Partial<PlayColumns>;
  readonly tags: Readonly<Record<string, string | number>>;
}

/** What the sheet's columns cannot say about a play; left empty, never made up. */
export interface Unsaid {
  readonly row: number;
  readonly field: string;
  readonly reason: string;
}

export interface OpenGame {
  readonly gameId: string;
  readonly home: string;
  readonly away: string;
  readonly season: number | null;
  readonly plays: readonly OpenPlay[];
  /** rows that are no plays: timeouts, warnings, ends of quarters */
  readonly skipped: readonly { readonly row: number; readonly reason: string }[];
  readonly unsaid: readonly Unsaid[];
}

/**
 * Reads rows whose columns carry the names of the open play-by-play dictionary (nflverse and its
 * forerunner nflscrapR; the dictionary names each column this reads). Rows must be in order of play;
 * several games may follow one another.
 */
export function openGames(rows: readonly OpenRow[]): OpenGame[] {
  const byGame = new Map<string, number[]>();
  rows.forEach((row, index) => {
    const gameId = text(row, 'game_id') ?? text(row, 'old_game_id') ?? '';
    const list = byGame.get(gameId);
    if (list) list.push(index);
    else byGame.set(gameId, [index]);
  });
  return [...byGame].map(([gameId, indices]) => openGame(gameId, rows, indices));
}

function openGame(gameId: string, rows: readonly OpenRow[], indices: readonly number[]): OpenGame {
  const first = rows[indices[0] ?? 0] ?? {};
  const home = text(first, 'home_team') ?? '';
  const away = text(first, 'away_team') ?? '';
  const plays: OpenPlay[] = [];
  const skipped: { row: number; reason: string }[] = [];
  const unsaid: Unsaid[] = [];
  for (const index of indices) {
    const row = rows[index];
    if (!row) continue;
    const described = readDescription(text(row, 'desc') ?? '');
    const reason = notAPlay(row, described);
    if (reason !== null) {
      skipped.push({ row: index, reason });
      const last = plays.at(-1);
      if (reason === QUARTER_OVER && last) plays[plays.length - 1] = expired(last);
      continue;
    }
    const play = openPlay(row, index, plays.length + 1, home, away, described, unsaid);
    const last = plays.at(-1);
    if (last && (play.columns.quarter ?? 0) > (last.columns.quarter ?? 9))
      plays[plays.length - 1] = expired(last);
    plays.push(play);
  }
  return { gameId, home, away, season: seasonOf(first), plays, skipped, unsaid };
}

const QUARTER_OVER = 'end of a quarter';

function notAPlay(row: OpenRow, described: Described): string | null {
  const desc = text(row, 'desc') ?? '';
  const type = text(row, 'play_type');
  if (/^END (QUARTER|GAME|OF)/i.test(desc) || (flag(row, 'quarter_end') && type === null))
    return QUARTER_OVER;
  if (described.penalties.length > 0 || (flag(row, 'penalty') && type !== null)) return null;
  if (type === 'no_play' || type === null) {
    if (/^Timeout|timeout #/i.test(desc)) return 'timeout';
    if (/two-minute warning/i.test(desc)) return 'two-minute warning';
    return desc ? 'no play' : 'empty row';
  }
  return null;
}

function expired(play: OpenPlay): OpenPlay {
  return { ...play, tags: { ...play.tags, timeExpired: 1 } };
}

function openPlay(
  row: OpenRow,
  index: number,
  playNumber: number,
  home: string,
  away: string,
  described: Described,
  unsaid: Unsaid[],
): OpenPlay {
  const yards100 = number(row, 'yardline_100');
  const kickoff =
    text(row, 'play_type') === 'kickoff' || flag(row, 'kickoff_attempt') || described.kick === 'kickoff';
  const posteam = text(row, 'posteam');
  // on a kickoff the dictionary's team in possession is the one that receives; where the row gives the team
  // that kicks, as on some that did not count, the ball lies in that team's own half
  const receiving =
    kickoff && ((yards100 ?? 0) < 50 || (yards100 === 50 && text(row, 'play_type') === 'kickoff'));
  const possession = posteam === null ? null : receiving ? (posteam === home ? away : home) : posteam;
  const yardsToGoal = yards100 === null ? null : receiving ? 100 - yards100 : yards100;
  const down = number(row, 'down');
  const scores = [number(row, 'posteam_score'), number(row, 'defteam_score')] as const;
  // the sheets leave the score of the first play empty
  const noScore = playNumber === 1 ? 0 : null;
  const say = (field: string, reason: string): void => {
    unsaid.push({ row: index, field, reason });
  };
  const outcome = outcomeOf(row, described, { home, away, possession, yardsToGoal, kickoff, say });
  const drive = number(row, 'fixed_drive') ?? number(row, 'drive');
  const columns: Partial<PlayColumns> = {
    playNumber,
    drive: kickoff ? null : drive,
    quarter: number(row, 'qtr'),
    clock: clockOf(row),
    possession,
    down: down !== null && down >= 1 ? down : null,
    distance: down !== null && down >= 1 ? number(row, 'ydstogo') : null,
    yardsToGoal,
    scoreFor: (receiving ? scores[1] : scores[0]) ?? noScore,
    scoreAgainst: (receiving ? scores[0] : scores[1]) ?? noScore,
    note: text(row, 'desc'),
    ...outcome.columns,
  };
  return {
    row: index,
    externalId: text(row, 'play_id') ?? String(playNumber),
    columns,
    tags: { ...outcome.tags, ...playersOf(row) },
  };
}

function clockOf(row: OpenRow): number | null {
  const seconds = number(row, 'quarter_seconds_remaining');
  if (seconds !== null) return seconds;
  const match = /^(\d*):(\d\d)$/.exec(text(row, 'time') ?? '');
  return match ? Number(match[1] || 0) * 60 + Number(match[2]) : null;
}

/** The year the season began in: games of January and February belong to the year before. */
function seasonOf(row: OpenRow): number | null {
  const season = number(row, 'season');
  if (season !== null) return season;
  const match = /^(\d{4})-?(\d\d)/.exec(text(row, 'game_date') ?? text(row, 'game_id') ?? '');
  if (!match) return null;
  return Number(match[2]) < 4 ? Number(match[1]) - 1 : Number(match[1]);
}

/** The plays of an open game as records, for code that works on records; ids are `game/play`. */
export function recordsOf(game: OpenGame): PlayRecord[] {
  return game.plays.map((play) => ({
    ...blankPlay(`${game.gameId}/${play.externalId}`, game.gameId),
    ...play.columns,
    tags: play.tags,
  }));
}
