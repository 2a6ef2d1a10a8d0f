import { existsSync, readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import Papa from 'papaparse';
import { openGames } from '../../../football/open-names/nflverse.ts';
import { blankPlay, type PlayRecord } from '../../../football/play.ts';

const DATA = '../shared/data';

export const openDataPresent = existsSync(`${DATA}/nflscrapr_post_pbp_2018.csv.gz`);

export interface OpenGamePlays {
  readonly gameId: string;
  readonly home: string;
  readonly away: string;
  readonly plays: readonly PlayRecord[];
  readonly rows: readonly Readonly<Record<string, string>>[];
}

/** The complete open games of one post-season, each with the rows its plays came from, play for play. */
export function openPostSeason(year: 2016 | 2018): OpenGamePlays[] {
  const text = gunzipSync(readFileSync(`${DATA}/nflscrapr_post_pbp_${year}.csv.gz`)).toString('utf8');
  const rows = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true }).data;
  return openGames(rows).map((game) => ({
    gameId: game.gameId,
    home: game.home,
    away: game.away,
    plays: game.plays.map((p) => ({
      ...blankPlay(`${game.gameId}-${p.externalId}`, game.gameId),
      ...p.columns,
      tags: p.tags,
    })),
    rows: game.plays.map((p) => rows[p.row]!),
  }));
}
