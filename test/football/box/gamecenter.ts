import { readdirSync, readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { blankPlay, type PlayRecord } from '../../../football/play.ts';

/**
 * Reads the league's open game records (one JSON file a game: drives, plays, statistic events and the
 * official box score) into plays as a staff would have logged them. Players are labelled by name and id.
 */

export interface GamecenterEvent {
  readonly clubcode: string;
  readonly playerName: string | null;
  readonly statId: number;
  readonly yards: number;
}

interface GamecenterPlay {
  readonly qtr: number;
  readonly down: number;
  readonly time: string;
  readonly yrdln: string;
  readonly ydstogo: number;
  readonly posteam: string;
  readonly desc: string;
  readonly players: Readonly<Record<string, readonly GamecenterEvent[]>>;
}

type Line = Readonly<Record<string, number | string>>;
type TeamBox = Readonly<Record<string, Readonly<Record<string, Line>>>>;

export interface OfficialSide {
  readonly abbr: string;
  readonly score: Readonly<Record<string, number>>;
  readonly stats: TeamBox & { readonly team: Line };
}

export interface GamecenterGame {
  readonly gameId: string;
  readonly home: OfficialSide;
  readonly away: OfficialSide;
  readonly plays: readonly PlayRecord[];
  readonly teamOf: (label: string) => string | null;
  /** how often each statistic id was given to a team */
  readonly given: (team: string, statId: number) => number;
  /** the official words for a scoring play, by play id */
  readonly scoring: Readonly<Record<string, { readonly desc: string }>>;
}

export function readGames(folder: string): GamecenterGame[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.json.gz'))
    .sort()
    .map((name) =>
      readGame(name.slice(0, 10), gunzipSync(readFileSync(`${folder}/${name}`)).toString('utf8')),
    );
}

export const labelOf = (name: string, id: string): string => `${name} (${id})`;

function readGame(gameId: string, text: string): GamecenterGame {
  const game = JSON.parse(text)[gameId];
  const teams = new Map<string, string>();
  const plays: PlayRecord[] = [];
  const given = new Map<string, number>();
  for (const [drive, value] of Object.entries<{ plays: Record<string, GamecenterPlay> }>(game.drives)) {
    if (drive === 'crntdrv') continue;
    const ordered = Object.entries(value.plays).sort((a, b) => Number(a[0]) - Number(b[0]));
    for (const [id, play] of ordered) {
      for (const [player, events] of Object.entries(play.players))
        for (const e of events) {
          if (e.playerName) teams.set(labelOf(e.playerName, player), e.clubcode);
          const key = `${e.clubcode} ${e.statId}`;
          given.set(key, (given.get(key) ?? 0) + 1);
        }
      const record = readPlayOf(gameId, `${id}`, plays.length + 1, Number(drive), play);
      if (record) plays.push(record);
    }
  }
  return {
    gameId,
    home: game.home,
    away: game.away,
    plays,
    teamOf: (label) => teams.get(label) ?? null,
    given: (team, statId) => given.get(`${team} ${statId}`) ?? 0,
    scoring: game.scrsummary,
  };
}

/** Our tag fields and the statistic ids that name their players; the first who has one counts. */
const PLAYERS: readonly (readonly [field: string, ids: readonly number[]])[] = [
  ['passer', [14, 15, 16, 19, 20]],
  ['target', [21, 22, 115]],
  ['carrier', [10, 11]],
  ['kicker', [41, 44, 29, 32, 2, 69, 70, 71, 72, 73, 74]],
  ['returner', [45, 46, 33, 34, 39]],
  ['interceptor', [25, 26]],
  ['fumbler', [52, 53]],
  ['forcedBy', [91]],
  ['recoverer', [59, 60]],
  ['brokenUpBy', [85]],
];

function readPlayOf(
  gameId: string,
  playId: string,
  playNumber: number,
  drive: number,
  play: GamecenterPlay,
): PlayRecord | null {
  const events = Object.entries(play.players).flatMap(([id, list]) =>
    list.map((e) => ({ ...e, label: e.playerName ? labelOf(e.playerName, id) : null })),
  );
  const find = (...ids: number[]) => events.find((e) => ids.includes(e.statId));
  const kind = kindOf(play, (...ids) => find(...ids) !== undefined);
  if (kind === null) return null;
  const team = play.posteam;
  const tags: Record<string, string | number> = {};
  for (const [field, ids] of PLAYERS) {
    const label = events.find((e) => ids.includes(e.statId) && e.label)?.label;
    if (label) tags[field] = label;
  }
  const named = (id: number) => events.flatMap((e) => (e.statId === id && e.label ? [e.label] : []));
  tackles(tags, [...new Set([...named(83), ...tacklersInOrder(events)])], named(82));
  if (find(5)) tags.penaltyDown = 'automatic first';

  const pass = find(15, 16);
  const rush = find(10, 11);
  const sack = find(20);
  const lostFumble = find(106);
  const fumble = find(52, 53, 54);
  const scorers = events.filter((e) => [11, 16, 22, 26, 34, 46, 48, 56, 58, 60, 62, 64].includes(e.statId));
  const touchdown = scorers.length > 0;
  const defenseScored = touchdown && scorers.every((e) => e.clubcode !== team);
  const kick = find(29, 32, 41, 44, 70, 69, 71);
  const back = find(45, 46, 33, 34, 25, 26);
  if (kind === 'try') tags.tryKind = find(72, 73, 74) ? 'kick try' : find(77, 78) ? 'pass try' : 'run try';
  const isKick = kind === 'punt' || kind === 'kickoff' || kind === 'fieldGoal';
  if (touchdown) tags.endPossession = defenseScored ? 'defense ball' : 'offense ball';
  if (find(32, 40, 44, 51) && !isKick) tags.touchbackRuling = 1;
  const penalties = events.filter((e) => e.statId === 93);
  const [first, second] = penalties;
  if (second) {
    tags.penalty2 = 'foul';
    tags.penalty2On = second.clubcode === team ? 'offense' : 'defense';
    tags.penalty2Yards = second.yards;
    tags.penalty2Outcome = 'accepted';
  }
  return {
    ...blankPlay(playId, gameId),
    playNumber,
    drive: kind === 'kickoff' ? null : drive,
    quarter: play.qtr,
    clock: seconds(play.time),
    possession: team,
    down: play.down >= 1 && play.down <= 4 ? play.down : null,
    distance: play.down >= 1 ? play.ydstogo : null,
    yardsToGoal: spot(play.yrdln, team),
    playKind: kind,
    result: resultOf(kind, play, (...ids) => find(...ids) !== undefined),
    gain: isKick || kind === 'try' || kind === 'noPlay' ? null : ((pass ?? rush ?? sack)?.yards ?? 0),
    yardsAfterCatch: pass ? (find(113)?.yards ?? null) : null,
    airYards: find(111, 112)?.yards ?? null,
    firstDown: find(3, 4, 5) !== undefined,
    touchdown: kind === 'try' ? null : touchdown,
    turnover: isKick || kind === 'try' ? null : find(19) !== undefined || lostFumble?.clubcode === team,
    safety: find(89) !== undefined || /SAFETY/.test(play.desc),
    fumble: fumble ? (lostFumble ? 'lost' : 'kept') : null,
    kickYards: isKick ? (kick?.yards ?? null) : null,
    returnYards: back?.yards ?? null,
    penalty: first ? 'foul' : null,
    penaltyOn: first ? (first.clubcode === team ? 'offense' : 'defense') : null,
    penaltyYards: first?.yards ?? null,
    penaltyOutcome: first ? 'accepted' : null,
    note: play.desc,
    tags,
  };
}

function tackles(
  tags: Record<string, string | number>,
  tacklers: readonly string[],
  helpers: readonly string[],
): void {
  const put = (field: string, label: string | undefined): void => {
    if (label !== undefined) tags[field] = label;
  };
  put('tackler', tacklers[0]);
  put('tackler2', tacklers[1]);
  put('assist', helpers[0]);
  put('assist2', helpers[1]);
}

/** Those who tackled, the one who forced a fumble first: his tackle was made before the ball was loose. */
function tacklersInOrder(
  events: readonly { readonly statId: number; readonly label: string | null }[],
): readonly string[] {
  const of = (ids: readonly number[]) =>
    events.flatMap((e) => (ids.includes(e.statId) && e.label ? [e.label] : []));
  const all = of([79, 80]);
  const forced = of([91]).filter((label) => all.includes(label));
  return [...forced, ...all];
}

type Has = (...ids: number[]) => boolean;

function kindOf(play: GamecenterPlay, has: Has): string | null {
  if (/No Play/.test(play.desc)) return 'noPlay';
  if (has(72, 73, 74, 75, 76, 77, 78)) return 'try';
  if (has(69, 70, 71)) return 'fieldGoal';
  if (has(2, 29, 31, 32)) return 'punt';
  if (has(41, 43, 44, 49, 51, 107)) return 'kickoff';
  if (/spiked the ball/.test(play.desc)) return 'spike';
  if (/kneels/.test(play.desc)) return 'kneel';
  if (has(14, 15, 16, 19, 20)) return 'pass';
  if (has(10, 11)) return /scrambles/.test(play.desc) ? 'pass' : 'run';
  if (has(93)) return 'noPlay';
  return has(52, 53) ? 'run' : null;
}

function resultOf(kind: string, play: GamecenterPlay, has: Has): string | null {
  if (kind === 'noPlay') return null;
  if (kind === 'fieldGoal') return has(70) ? 'good' : has(71) ? 'blocked' : 'missed';
  if (kind === 'try') return has(72, 75, 77) ? 'good' : has(74) ? 'blocked' : 'failed';
  if (kind === 'punt' || kind === 'kickoff') {
    if (has(2)) return 'blocked';
    if (has(107)) return 'onsideRecovered';
    if (has(32, 40, 44, 51)) return 'touchback';
    if (has(39)) return 'fairCatch';
    if (has(38)) return 'downed';
    if (has(37, 49)) return 'outOfBounds';
    return /MUFFS/.test(play.desc) && !has(33, 34, 45, 46) ? 'muffed' : 'returned';
  }
  if (has(15, 16)) return 'complete';
  if (has(19)) return 'interception';
  if (has(14)) return 'incomplete';
  if (has(20)) return 'sack';
  return kind === 'pass' ? 'scramble' : 'rush';
}

function seconds(time: string): number | null {
  const match = /^(\d+):(\d\d)$/.exec(time ?? '');
  return match ? Number(match[1]) * 60 + Number(match[2]) : null;
}

/** `NE 14` as yards to the goal of the team given. */
function spot(line: string, team: string): number | null {
  if (line === '50' || line === 'MID 50') return 50;
  const match = /^([A-Z]+) (\d+)$/.exec(line ?? '');
  if (!match) return null;
  return match[1] === team ? 100 - Number(match[2]) : Number(match[2]);
}
