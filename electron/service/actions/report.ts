import { generateNKeysBetween } from 'fractional-indexing';
import { v7 as uuidv7 } from 'uuid';
import type { Change } from '../../../db/journal/edit.ts';
import { listCutups } from '../../../db/repositories/cutups.ts';
import { listGames } from '../../../db/repositories/games.ts';
import { playsInWords, type Report, type ReportSection } from '../../../football/report/report.ts';
import type { ReportKind, TemplateSection } from '../../../football/report/template.ts';
import { ProblemError } from '../../../football/result.ts';
import type { Station } from '../station.ts';
import { readQuestion } from './answers.ts';
import { gameOrProblem } from './games.ts';
import { boxTable, driveTable, playerTables } from './report-game.ts';
import {
  type Filled,
  fillCallSheet,
  fillEfficiency,
  fillExplosives,
  fillRanked,
  fillShares,
  type SectionWork,
} from './report-sections.ts';
import { templateOrProblem } from './report-templates.ts';

export interface ReportRequest {
  readonly kind: ReportKind;
  /** the team of an opponent report, the title of a game for a game report */
  readonly about: string | null;
  /** id or name; null for the built-in one */
  readonly template?: string | null;
  /** YYYY-MM-DD; today when not given */
  readonly made?: string;
}

const text = (value: string): string => `'${value.replaceAll("'", "''")}'`;

/** Which plays are whose: the questions of the report's team with the ball and without it. */
interface Sides {
  readonly team: string;
  readonly title: string;
  readonly games: readonly string[];
  readonly gameId: string | null;
  readonly offense: string;
  readonly defense: string;
}

/** @throws ProblemError `team-unknown`, `game-unknown` */
function sidesOf(station: Station, request: ReportRequest): Sides {
  if (request.kind === 'game') {
    const game = gameOrProblem(station, request.about ?? '');
    const inGame = `game = ${text(game.title)}`;
    const team = station.team;
    return {
      team,
      title: `${team}: after ${game.title}`,
      games: [game.title],
      gameId: game.id,
      offense: `${inGame} AND possession = ${text(team)}`,
      defense: `${inGame} AND possession <> ${text(team)}`,
    };
  }
  const team = request.kind === 'calls' ? station.team : teamNamed(station, request.about ?? '');
  const games = gamesOf(station, team);
  const inGames = games.length === 0 ? 'FALSE' : `game IN (${games.map(text).join(', ')})`;
  return {
    team,
    title: request.kind === 'calls' ? `${team}: call sheet draft` : `Scouting report: ${team}`,
    games,
    gameId: null,
    offense: `${inGames} AND possession = ${text(team)}`,
    // whoever else had the ball in a game of this team had it against this team's defense
    defense: `${inGames} AND possession <> ${text(team)}`,
  };
}

/** The games that a team played in: it had the ball, or it is ours, or the game names it as our opponent. */
function gamesOf(station: Station, team: string): string[] {
  const seen = new Set(
    station.library.db
      .prepare('SELECT DISTINCT game_id FROM plays WHERE removed = 0 AND possession = ? COLLATE NOCASE')
      .pluck()
      .all(team) as string[],
  );
  return listGames(station.library)
    .filter((g) => seen.has(g.id) || g.opponent?.toLowerCase() === team.toLowerCase())
    .map((g) => g.title);
}

/** Teams a report can be made on: those that had the ball and those that games name, ours left out. */
export function reportTeams(station: Station): string[] {
  const seen = station.library.db
    .prepare('SELECT DISTINCT possession FROM plays WHERE removed = 0 AND possession IS NOT NULL')
    .pluck()
    .all() as string[];
  const names = new Set([...seen, ...station.vocabulary().opponents]);
  names.delete(station.team);
  return [...names].sort((a, b) => (a < b ? -1 : 1));
}

function teamNamed(station: Station, name: string): string {
  const teams = reportTeams(station);
  const found = teams.find((t) => t.toLowerCase() === name.trim().toLowerCase());
  if (found) return found;
  throw new ProblemError({
    code: 'team-unknown',
    message: name.trim() === '' ? 'No team was named.' : `No play and no game of this library names ${name}.`,
    kept: 'Nothing was made.',
    next: teams.length
      ? `It knows ${teams.join(', ')}.`
      : 'Log who had the ball, or name the opponent of a game.',
  });
}

function whereOf(sides: Sides, section: TemplateSection): string {
  const side =
    section.side === 'offense'
      ? sides.offense
      : section.side === 'defense'
        ? sides.defense
        : `(${sides.offense}) OR (${sides.defense})`;
  return section.where.trim() === '' ? side : `(${side}) AND (${section.where})`;
}

/** Makes the report from the library as it is now. @throws ProblemError `team-unknown`, `game-unknown`, `template-unknown` */
export function makeReport(station: Station, request: ReportRequest): Report {
  const template = templateOrProblem(station, request.kind, request.template ?? null);
  const sides = sidesOf(station, request);
  const sections = template.sections
    .filter((s) => s.on)
    .map((section) => makeSection(station, section, sides, template.smallSample));
  const plays = station.columns().count(readQuestion(station, `(${sides.offense}) OR (${sides.defense})`));
  return {
    kind: request.kind,
    title: sides.title,
    team: sides.team,
    template: template.name,
    made: request.made ?? new Date().toISOString().slice(0, 10),
    plays,
    games: sides.games,
    cautions: cautions(plays, template.smallSample),
    sections,
  };
}

function cautions(plays: number, smallSample: number): string[] {
  const size =
    plays === 0
      ? ['There are no plays to report on yet.']
      : plays === 1
        ? ['This report stands on 1 play: it shows that play, and no tendency.']
        : [];
  return [
    ...size,
    'Numbers describe, they do not promise.',
    `Every rate stands with its count and its 95 % Wilson interval; on fewer than ${smallSample} plays it is marked with *.`,
  ];
}

function makeSection(
  station: Station,
  section: TemplateSection,
  sides: Sides,
  smallSample: number,
): ReportSection {
  const where = whereOf(sides, section);
  const filled = fill({ station, section, where, smallSample }, sides);
  const playIds = filled.playIds ?? station.columns().playIds(readQuestion(station, where));
  const hasRows = filled.tables.some((t) => t.rows.length > 0);
  return {
    key: section.key,
    title: section.title,
    note: filled.note,
    where,
    playIds,
    tables: hasRows ? filled.tables : [],
    empty: hasRows
      ? null
      : playIds.length === 0
        ? 'No play answers this.'
        : `${playsInWords(playIds.length)}, but none with the tags that this section counts.`,
  };
}

function fill(work: SectionWork, sides: Sides): Filled {
  const { station, section } = work;
  const { gameId, team } = sides;
  const game = sides.games[0] ?? '';
  switch (section.shape) {
    case 'shares':
      return fillShares(work);
    case 'efficiency':
      return fillEfficiency(work);
    case 'ranked':
      return fillRanked(work);
    case 'callSheet':
      return fillCallSheet(work);
    case 'explosives':
      return fillExplosives(work);
    default:
      break;
  }
  if (gameId === null || !hasBothTeams(station, game, team))
    return { note: 'Needs a game with plays of both teams.', tables: [] };
  switch (section.shape) {
    case 'box':
      return { note: 'Counted in the level’s own way.', tables: [boxTable(station, gameId, game)] };
    case 'drives':
      return {
        note: 'Gains of calls; penalty yards are not in them.',
        tables: [driveTable(station, gameId)],
      };
    default:
      return {
        note: `Players of ${team}; a name opens the plays it is tagged on.`,
        tables: playerTables(station, gameId, game, team),
      };
  }
}

function hasBothTeams(station: Station, game: string, team: string): boolean {
  const of = (sign: '=' | '<>') =>
    station
      .columns()
      .count(readQuestion(station, `game = ${text(game)} AND possession ${sign} ${text(team)}`));
  return of('=') > 0 && of('<>') > 0;
}

/**
 * Makes a cut-up of each section that has plays, all in a folder named for the report, as one gesture that undo takes
 * back. A name that is taken gets a number.
 */
export function cutReport(
  station: Station,
  request: ReportRequest,
  keys: readonly string[] | null,
): { folder: string; cutups: number; clips: number } {
  const report = makeReport(station, request);
  const folder = `${report.title}, ${report.made}`;
  const taken = new Set(listCutups(station.library).map((c) => c.name.toLowerCase()));
  const changes: Change[] = [];
  let made = 0;
  let clips = 0;
  for (const section of report.sections) {
    if (section.playIds.length === 0 || (keys && !keys.includes(section.key))) continue;
    const id = uuidv7();
    const at = { entity: 'cutup', id };
    changes.push(
      { ...at, field: 'removed', value: 0 },
      { ...at, field: 'name', value: freeName(`${report.team}: ${section.title}`, taken) },
      { ...at, field: 'where', value: section.where },
      { ...at, field: 'folder', value: folder },
      { ...at, field: 'angles', value: 'sideline,endzone' },
    );
    const ranks = generateNKeysBetween(null, null, section.playIds.length);
    for (const [i, playId] of section.playIds.entries()) {
      const item = { entity: 'cutupItem', id: uuidv7() };
      changes.push(
        { ...item, field: 'removed', value: 0 },
        { ...item, field: 'cutupId', value: id },
        { ...item, field: 'playId', value: playId },
        { ...item, field: 'rank', value: ranks[i] ?? '' },
      );
    }
    made += 1;
    clips += section.playIds.length;
  }
  if (made === 0) {
    throw new ProblemError({
      code: 'cutup-nothing',
      message: 'No section of this report has plays.',
      kept: 'No cut-up was made.',
      next: 'Log plays first, or choose another team or game.',
    });
  }
  station.library.journal.commit({ label: `make the cut-ups of ${folder}` }, changes);
  return { folder, cutups: made, clips };
}

function freeName(name: string, taken: Set<string>): string {
  let free = name;
  for (let n = 2; taken.has(free.toLowerCase()); n += 1) free = `${name} (${n})`;
  taken.add(free.toLowerCase());
  return free;
}
