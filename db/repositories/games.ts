import type { Library } from '../library.ts';

export interface GameRow {
  readonly id: string;
  readonly title: string;
  readonly season: number | null;
  readonly week: number | null;
  readonly date: string | null;
  readonly opponent: string | null;
  readonly site: string | null;
  readonly level: string | null;
  readonly plays: number;
  readonly logged: number;
  readonly films: number;
}

export function listGames(library: Library): GameRow[] {
  return library.db
    .prepare(
      `SELECT g.id, g.title, g.season, g.week, g.date, g.opponent, g.site, g.level,
        (SELECT count(*) FROM plays p WHERE p.game_id = g.id AND p.removed = 0) AS plays,
        (SELECT count(*) FROM plays p WHERE p.game_id = g.id AND p.removed = 0
          AND (p.play_kind IS NOT NULL OR p.result IS NOT NULL)) AS logged,
        (SELECT count(*) FROM films f WHERE f.game_id = g.id AND f.removed = 0) AS films
       FROM games g WHERE g.removed = 0 ORDER BY g.season, g.date, g.id`,
    )
    .all() as GameRow[];
}

/** The game with this title, whatever the case and the spaces at its ends. */
export function findGame(library: Library, title: string): GameRow | null {
  const wanted = title.trim().toLowerCase();
  return listGames(library).find((g) => g.title.trim().toLowerCase() === wanted) ?? null;
}

export function findPlay(library: Library, gameId: string, playNumber: number): string | null {
  const row = library.db
    .prepare('SELECT id FROM plays WHERE game_id = ? AND play_number = ? AND removed = 0 ORDER BY id LIMIT 1')
    .get(gameId, playNumber) as { id: string } | undefined;
  return row?.id ?? null;
}
