import type { OpenRow } from '../../football/open-names/open-row.ts';
import { readData } from './open-data.ts';

/**
 * Reads a league game file (drives, plays and official stat events) into rows with the columns of the open
 * play-by-play dictionary, by the league's dictionary of stat ids.
 */
interface StatEvent {
  readonly statId: number;
  readonly yards: number | null;
  readonly clubcode: string;
}

interface GamePlay {
  readonly qtr: number;
  readonly down: number;
  readonly time: string;
  readonly yrdln: string;
  readonly ydstogo: number;
  readonly posteam: string;
  readonly desc: string;
  readonly players: Readonly<Record<string, readonly StatEvent[]>>;
}

interface GameFile {
  readonly home: { readonly abbr: string };
  readonly away: { readonly abbr: string };
  readonly drives: Readonly<Record<string, { readonly plays?: Readonly<Record<string, GamePlay>> }>>;
}

export function gamecenterRows(gameId: string): OpenRow[] {
  const file = JSON.parse(readData(`nfl-gamecenter/${gameId}.json.gz`)) as Record<string, GameFile>;
  const game = file[gameId]!;
  const plays = Object.entries(game.drives)
    .filter(([number]) => number !== 'crntdrv')
    .flatMap(([drive, { plays: list }]) =>
      Object.entries(list ?? {}).map(([playId, play]) => ({ playId: Number(playId), drive, play })),
    )
    .map((entry, order) => ({ ...entry, order, key: timeKey(entry.play) }))
    // plays that were entered late carry late numbers: the clock tells the order
    .sort((a, b) => a.key - b.key || a.order - b.order);
  const seen = new Set<number>();
  const rows: OpenRow[] = [];
  for (const { playId, drive, play } of plays) {
    // the file repeats the play at the border of two drives
    if (seen.has(playId)) continue;
    seen.add(playId);
    rows.push(rowOf(gameId, game, playId, drive, play));
  }
  return rows;
}

function timeKey(play: GamePlay): number {
  const match = /^(\d*):(\d\d)$/.exec(play.time);
  const left = match ? Number(match[1] || 0) * 60 + Number(match[2]) : 0;
  return play.qtr * 10_000 - left;
}

const PENALTY = /penalty on/i;

function rowOf(gameId: string, game: GameFile, playId: number, drive: string, play: GamePlay): OpenRow {
  const events = Object.values(play.players).flat();
  const has = (...ids: number[]): boolean => events.some((e) => ids.includes(e.statId));
  const yards = (...ids: number[]): number | null => {
    const found = events.filter((e) => ids.includes(e.statId));
    return found.length === 0 ? null : found.reduce((sum, e) => sum + (e.yards ?? 0), 0);
  };
  const flag = (value: boolean): string => (value ? '1' : '0');
  const text = (value: number | null): string => (value === null ? 'NA' : String(value));
  const kickoff = has(41, 42, 43, 44, 107, 108) || /kicks (onside )?\d+ yards/.test(play.desc);
  const punt = has(2, 29, 30, 31, 32) || / punts \d+/.test(play.desc);
  const fieldGoal = has(69, 70, 71);
  const twoPoint = has(75, 76, 77, 78, 99, 100) || /TWO-POINT/.test(play.desc);
  const kickedTry = has(72, 73, 74, 301) || /extra point/.test(play.desc);
  const pass = has(14, 15, 16, 19, 77, 78);
  const sack = has(20);
  const rush = has(10, 11, 75, 76);
  const spike = /spiked/.test(play.desc);
  const kneel = /kneels/.test(play.desc);
  const noPlay = /No Play/.test(play.desc);
  const none =
    events.length === 0 && !PENALTY.test(play.desc) && !/Aborted|kneels|extra point/.test(play.desc);
  const playType = none
    ? 'NA'
    : noPlay || has(68)
      ? events.every((e) => e.statId === 68) && !PENALTY.test(play.desc)
        ? 'no_play'
        : noPlay
          ? 'no_play'
          : typeOf()
      : typeOf();
  function typeOf(): string {
    if (kickoff) return 'kickoff';
    if (punt) return 'punt';
    if (fieldGoal) return 'field_goal';
    if (twoPoint) return pass ? 'pass' : 'run';
    if (kickedTry) return 'extra_point';
    if (kneel) return 'qb_kneel';
    if (spike) return 'qb_spike';
    if (pass || sack) return 'pass';
    return rush || /FUMBLES \(Aborted\)/.test(play.desc) ? 'run' : 'no_play';
  }
  const { home, away } = { home: game.home.abbr, away: game.away.abbr };
  const other = play.posteam === home ? away : home;
  const possession = playType === 'kickoff' ? other : play.posteam;
  const [side, line] = play.yrdln.trim() === '50' ? ['', '50'] : play.yrdln.trim().split(' ');
  const ahead =
    line === undefined || line === '' ? null : side === possession ? 100 - Number(line) : Number(line);
  const touchdowns = events.filter((e) =>
    [11, 13, 16, 18, 26, 28, 34, 36, 46, 48, 56, 58, 60, 62, 64, 108].includes(e.statId),
  );
  return {
    game_id: gameId,
    game_date: `${gameId.slice(0, 4)}-${gameId.slice(4, 6)}-${gameId.slice(6, 8)}`,
    play_id: String(playId),
    home_team: home,
    away_team: away,
    posteam: possession || 'NA',
    yardline_100: text(ahead),
    qtr: String(play.qtr),
    time: play.time,
    down: play.down > 0 ? String(play.down) : 'NA',
    ydstogo: String(play.ydstogo),
    drive,
    desc: play.desc,
    play_type: playType,
    yards_gained: text(yards(10, 11, 12, 13, 15, 16, 17, 18, 20, 103) ?? (pass || rush ? 0 : null)),
    complete_pass: flag(has(15, 16)),
    interception: flag(has(19)),
    sack: flag(sack),
    pass_attempt: flag(pass || sack),
    rush_attempt: flag(rush),
    qb_scramble: flag(/scrambles/.test(play.desc)),
    air_yards: text(yards(111, 112)),
    yards_after_catch: text(yards(113)),
    fumble: flag(has(52, 53, 54)),
    fumble_lost: flag(has(106)),
    touchdown: flag(touchdowns.length > 0),
    td_team: touchdowns[0]?.clubcode ?? 'NA',
    safety: flag(/SAFETY/.test(play.desc) && !/NULLIFIED/.test(play.desc)),
    first_down_rush: flag(has(3)),
    first_down_pass: flag(has(4)),
    first_down_penalty: flag(has(5)),
    kick_distance: text(yards(29, 30, 32, 41, 69, 70, 71) ?? kickLength(play.desc)),
    return_yards: text(yards(25, 26, 27, 28, 33, 34, 35, 36, 45, 46, 47, 48)),
    touchback: flag(has(32, 40, 44, 51)),
    punt_blocked: flag(has(2)),
    punt_downed: flag(has(38)),
    punt_out_of_bounds: flag(has(37)),
    punt_fair_catch: flag(has(39)),
    kickoff_out_of_bounds: flag(has(49)),
    kickoff_fair_catch: flag(has(50)),
    own_kickoff_recovery: flag(has(107, 108)),
    punt_attempt: flag(punt),
    field_goal_attempt: flag(fieldGoal),
    field_goal_result: has(70) ? 'made' : has(71) ? 'blocked' : has(69) ? 'missed' : 'NA',
    two_point_attempt: flag(twoPoint),
    two_point_conv_result: twoPoint ? (has(75, 77) ? 'success' : 'failure') : 'NA',
    extra_point_attempt: flag(kickedTry),
    extra_point_result: has(72) ? 'good' : has(74) ? 'blocked' : kickedTry ? 'failed' : 'NA',
    penalty: flag(has(93)),
  };
}

function kickLength(desc: string): number | null {
  const match = /(?:punts|kicks(?: onside)?) (-?\d+) yards/.exec(desc);
  return match ? Number(match[1]) : null;
}
