import { v7 as uuidv7 } from 'uuid';
import { findGame, findPlay, type GameRow, listGames } from '../../../db/repositories/games.ts';
import { ProblemError } from '../../../football/result.ts';
import type { Station } from '../station.ts';
import type { GameView } from '../views.ts';

export interface NewGame {
  readonly title: string;
  readonly season?: number | null;
  readonly week?: number | null;
  readonly date?: string | null;
  readonly opponent?: string | null;
}

export function games(station: Station): GameView[] {
  return listGames(station.library).map(view);
}

/** @throws ProblemError `game-unknown` */
export function gameOrProblem(station: Station, title: string): GameRow {
  const game = findGame(station.library, title);
  if (game) return game;
  const titles = listGames(station.library).map((g) => g.title);
  throw new ProblemError({
    code: 'game-unknown',
    message: `There is no game ${title} in this library.`,
    kept: 'Nothing was changed.',
    next: titles.length ? `It has ${titles.join(', ')}.` : 'Bring film or plays in first.',
  });
}

/** @throws ProblemError `game-unknown`, `play-unknown` */
export function playByNumber(
  station: Station,
  title: string,
  playNumber: number,
): { gameId: string; playId: string } {
  const game = gameOrProblem(station, title);
  const playId = findPlay(station.library, game.id, playNumber);
  if (!playId) {
    throw new ProblemError({
      code: 'play-unknown',
      message: `${game.title} has no play ${playNumber}.`,
      kept: 'Nothing was changed.',
      next: game.plays
        ? '`tapebook plays list --fields game,playNumber` shows those it has.'
        : 'Bring its film or plays in first.',
    });
  }
  return { gameId: game.id, playId };
}

/** @throws ProblemError `game-exists`, `game-untitled` */
export function addGame(station: Station, game: NewGame): GameView {
  if (game.title.trim() === '') {
    throw new ProblemError({
      code: 'game-untitled',
      message: 'A game needs a title.',
      next: 'Type one, such as Herons v Mariners.',
    });
  }
  if (findGame(station.library, game.title)) {
    throw new ProblemError({
      code: 'game-exists',
      message: `There is already a game ${game.title.trim()}.`,
      kept: 'Nothing was changed.',
      next: 'Use it, or choose another title.',
    });
  }
  const id = makeGame(station, game);
  return view(listGames(station.library).find((g) => g.id === id) as GameRow);
}

/** The id of the game with this title, made when there is none. */
export function gameForTitle(station: Station, title: string): string {
  return findGame(station.library, title)?.id ?? makeGame(station, { title });
}

function makeGame(station: Station, game: NewGame): string {
  const id = uuidv7();
  const at = { entity: 'game', id };
  const parts = (['season', 'week', 'date', 'opponent'] as const).flatMap((field) => {
    const value = game[field];
    return value === null || value === undefined ? [] : [{ ...at, field, value }];
  });
  station.library.journal.commit({ label: `add game ${game.title.trim()}` }, [
    { ...at, field: 'removed', value: 0 },
    { ...at, field: 'title', value: game.title.trim() },
    ...parts,
  ]);
  return id;
}

function view(g: GameRow): GameView {
  return {
    gameId: g.id,
    title: g.title,
    season: g.season,
    week: g.week,
    date: g.date,
    opponent: g.opponent,
    plays: g.plays,
    logged: g.logged,
    films: g.films,
  };
}
