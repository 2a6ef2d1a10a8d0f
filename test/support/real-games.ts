import { readdirSync } from 'node:fs';
import { openGames, recordsOf } from '../../football/open-names/nflverse.ts';
import type { PlayRecord } from '../../football/play.ts';
import { type Rules, rulesFor } from '../../football/rules/index.ts';
import type { Teams } from '../../football/situation/situation.ts';
import { COLLEGE_GAMES, collegePlays } from './college.ts';
import { gamecenterRows } from './gamecenter.ts';
import { dataPath, hasData, readRows } from './open-data.ts';

const SHEETS = ['nflscrapr_post_pbp_2016.csv.gz', 'nflscrapr_post_pbp_2018.csv.gz'];

export interface RealGame {
  readonly name: string;
  readonly plays: readonly PlayRecord[];
  readonly rules: Rules;
  readonly teams: Teams;
}

export const haveRealGames: boolean =
  SHEETS.every(hasData) &&
  hasData('nfl-gamecenter') &&
  COLLEGE_GAMES.every((game) => hasData(`college/${game.name}.txt`));

/** All complete games of the shared data. */
export function realGames(): RealGame[] {
  const files = readdirSync(dataPath('nfl-gamecenter')).map((file) => gamecenterRows(file.slice(0, 10)));
  const professional = [...SHEETS.map(readRows), ...files].flatMap(openGames).map((game) => ({
    name: game.gameId,
    plays: recordsOf(game),
    rules: rulesFor('nfl', game.season ?? undefined),
    teams: { home: game.home, away: game.away },
  }));
  const college = COLLEGE_GAMES.map((game) => {
    const [home, away] = Object.values(game.codes);
    return {
      name: game.name,
      plays: collegePlays(game),
      rules: rulesFor('ncaa', 2022),
      teams: { ...(home ? { home } : {}), ...(away ? { away } : {}) },
    };
  });
  return [...professional, ...college];
}
