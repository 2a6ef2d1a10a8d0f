import type { BoxScore, TeamLine } from '../../../football/box/box-score.ts';
import { counted, word } from '../../../football/report/cells.ts';
import type { ReportCell, ReportTable } from '../../../football/report/report.ts';
import { formatClock, formatSpot } from '../../../football/values.ts';
import type { Station } from '../station.ts';
import { playsBehind, readQuestion } from './answers.ts';
import { box } from './game-book.ts';

const text = (value: string): string => `'${value.replaceAll("'", "''")}'`;

/** The metric whose plays stand behind a line of the box; lines without one open the team's plays. */
const LINE_METRIC: Readonly<Partial<Record<keyof TeamLine, string>>> = {
  calls: 'calls',
  totalYards: 'yards',
  rushes: 'runs',
  rushYards: 'runYards',
  attempts: 'attempts',
  completions: 'completions',
  passYards: 'passYards',
  sacks: 'sacks',
  sackYards: 'sackYards',
  firstDowns: 'firstDowns',
  thirdDowns: 'thirdDownPct',
  fourthDowns: 'fourthDownPct',
  interceptions: 'interceptions',
  turnovers: 'turnovers',
};

const words = (key: string): string => key.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`);

function playsOf(station: Station, where: string): string[] {
  return station.columns().playIds(readQuestion(station, where));
}

/** @throws ProblemError `game-one-sided` when only one team is known */
export function boxTable(station: Station, gameId: string, game: string): ReportTable {
  const score = box(station, gameId);
  const sides = [score.teams.home, score.teams.away];
  const ofTeam = sides.map((line) =>
    playsOf(station, `game = ${text(game)} AND possession = ${text(line.team)}`),
  );
  const scoring = (team: string) => score.scoring.filter((s) => s.team === team).map((s) => s.playId);
  const keys = (Object.keys(score.teams.home) as (keyof TeamLine)[]).filter((key) => key !== 'team');
  const cell = (key: keyof TeamLine, side: number): ReportCell => {
    const line = sides[side]!;
    const metric = LINE_METRIC[key];
    if (key === 'points') return counted(String(line[key]), scoring(line.team));
    const plays = ofTeam[side]!;
    return counted(String(line[key]), metric ? playsBehind(station, plays, metric) : plays);
  };
  return {
    caption: null,
    columns: ['', ...sides.map((line) => line.team)],
    rows: keys.map((key) => [word(words(key)), cell(key, 0), cell(key, 1)]),
  };
}

export function driveTable(station: Station, gameId: string): ReportTable {
  const { drives } = box(station, gameId);
  return {
    caption: null,
    columns: ['Drive', 'Team', 'Start', 'From', 'Calls', 'Yards', 'Points', 'End'],
    rows: drives.map((d) => [
      counted(String(d.drive), d.playIds),
      word(d.team),
      word(`${d.quarter === null ? '' : `Q${d.quarter} `}${d.clock === null ? '' : formatClock(d.clock)}`),
      word(d.from === null ? '' : formatSpot(d.from)),
      counted(String(d.calls), d.playIds),
      counted(String(d.yards), d.playIds),
      counted(String(d.points), d.playIds),
      word(words(d.end)),
    ]),
  };
}

/** The field by which a player stands in each part of the box, and what is shown of his line. */
const PARTS = {
  passing: ['passer', 'completions', 'attempts', 'yards', 'touchdowns', 'interceptions', 'sacks'],
  rushing: ['carrier', 'attempts', 'yards', 'touchdowns', 'longest'],
  receiving: ['target', 'targets', 'receptions', 'yards', 'yardsAfterCatch', 'touchdowns', 'longest'],
  defense: ['tackler', 'tackles', 'assists', 'tacklesForLoss', 'sacks', 'interceptions', 'passBreakups'],
} as const;

export function playerTables(station: Station, gameId: string, game: string, team: string): ReportTable[] {
  const { players } = box(station, gameId);
  return Object.entries(PARTS).flatMap(([part, [field, ...shown]]) => {
    const lines = (players[part as keyof BoxScore['players']] as readonly object[]).filter(
      (line) => (line as { team: string }).team === team,
    ) as { player: string; [key: string]: string | number }[];
    if (lines.length === 0) return [];
    const fields =
      part === 'defense' ? [field, 'assist', 'assist2', 'tackler2', 'interceptor', 'brokenUpBy'] : [field];
    return [
      {
        caption: words(part).replace(/^./, (c) => c.toUpperCase()),
        columns: ['', ...shown.map(words)],
        rows: lines.map((line) => {
          const who = fields.map((key) => `${key} = ${text(line.player)}`).join(' OR ');
          const plays = line.player === 'Team' ? [] : playsOf(station, `game = ${text(game)} AND (${who})`);
          return [
            counted(line.player, plays),
            ...shown.map((key) => counted(String(line[key] ?? ''), plays)),
          ];
        }),
      },
    ];
  });
}
