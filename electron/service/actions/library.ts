import { basename, extname } from 'node:path';
import { listGames } from '../../../db/repositories/games.ts';
import type { Station } from '../station.ts';
import type { LibraryView } from '../views.ts';
import { undoLabels } from './play-views.ts';

export function libraryView(station: Station): LibraryView {
  const { library } = station;
  const games = listGames(library);
  const count = (table: 'films' | 'cutups'): number =>
    (library.db.prepare(`SELECT count(*) AS n FROM ${table} WHERE removed = 0`).get() as { n: number }).n;
  return {
    name: basename(library.path, extname(library.path)),
    path: library.path,
    team: station.team,
    level: station.level,
    readOnly: library.readOnly,
    ...undoLabels(station),
    counts: {
      games: games.length,
      plays: games.reduce((sum, g) => sum + g.plays, 0),
      logged: games.reduce((sum, g) => sum + g.logged, 0),
      films: count('films'),
      cutups: count('cutups'),
    },
  };
}
