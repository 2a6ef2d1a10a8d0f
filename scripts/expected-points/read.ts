import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import Papa from 'papaparse';
import { type EpSituation, OUTCOMES, type Outcome } from '../../football/expected-points/form.ts';

/** A situation with what was scored next in the half. */
export interface EpPlay {
  readonly at: EpSituation & { readonly season: number };
  /** index into OUTCOMES */
  readonly outcome: number;
  readonly game: string;
}

/** The rows of a CSV file, gzipped or not, as texts by column. */
export function readSheet(path: string): Record<string, string>[] {
  const bytes = readFileSync(path);
  const text = path.endsWith('.gz') ? gunzipSync(bytes).toString('utf8') : bytes.toString('utf8');
  return Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true }).data;
}

/** Reads the training plays: season, down, distance, spot, seconds left in the half, next score. */
export function readTrainingPlays(path: string): EpPlay[] {
  return readSheet(path).map((row) => ({
    at: {
      down: Number(row.down),
      distance: Number(row.ydstogo),
      yardsToGoal: Number(row.yardline_100),
      halfSecondsRemaining: Number(row.half_seconds_remaining),
      season: Number(row.season),
    },
    outcome: OUTCOMES.indexOf(row.next_score as Outcome),
    game: row.game_id ?? '',
  }));
}

/** The situations of the 2022 plays (competition data) with the league's own expected points. */
export function readLeaguePoints(path: string): { at: EpSituation; points: number }[] {
  return readSheet(path).flatMap((row) => {
    const quarter = Number(row.quarter);
    const points = Number.parseFloat(row.expectedPoints ?? '');
    const down = Number(row.down);
    if (!(quarter <= 4) || !(down >= 1) || Number.isNaN(points)) return [];
    const [minutes, seconds] = (row.gameClock ?? '').split(':').map(Number);
    const line = Number(row.yardlineNumber);
    const at = {
      down,
      distance: Number(row.yardsToGo),
      yardsToGoal: row.yardlineSide === row.possessionTeam ? 100 - line : line,
      halfSecondsRemaining: minutes! * 60 + seconds! + (quarter % 2 === 1 ? 900 : 0),
      season: 2022,
    };
    return [{ at, points }];
  });
}
