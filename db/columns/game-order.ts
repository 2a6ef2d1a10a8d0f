import type { GameRow } from './play-values.ts';

/** The games of a store by index, and which comes first: by season, date and id, missing ones before. */
export class GameOrder {
  readonly all: GameRow[] = [];
  private readonly at = new Map<string, number>();
  private ranks: Int32Array | null = null;

  /** @returns the game's index, and whether its place among the games may have changed */
  put(game: GameRow): { index: number; moved: boolean } {
    const index = this.indexFor(game.gameId);
    const before = this.all[index]!;
    this.all[index] = game;
    const moved = before.season !== game.season || before.date !== game.date;
    if (moved) this.ranks = null;
    return { index, moved };
  }

  indexOf(gameId: string): number | undefined {
    return this.at.get(gameId);
  }

  /** The index of a game that is there or will be. */
  indexFor(gameId: string): number {
    let index = this.at.get(gameId);
    if (index === undefined) {
      index = this.all.push({ gameId, title: null, season: null, date: null }) - 1;
      this.at.set(gameId, index);
      this.ranks = null;
    }
    return index;
  }

  compare(a: number, b: number): number {
    if (a === b) return 0;
    this.ranks ??= ranksOf(this.all);
    return this.ranks[a]! - this.ranks[b]!;
  }
}

function ranksOf(games: readonly GameRow[]): Int32Array {
  const order = games.map((_, index) => index).sort((a, b) => compareGames(games[a]!, games[b]!));
  const ranks = new Int32Array(games.length);
  for (const [rank, index] of order.entries()) ranks[index] = rank;
  return ranks;
}

function compareGames(a: GameRow, b: GameRow): number {
  if (a.season !== b.season)
    return (a.season ?? Number.NEGATIVE_INFINITY) < (b.season ?? Number.NEGATIVE_INFINITY) ? -1 : 1;
  const dateA = a.date ?? '';
  const dateB = b.date ?? '';
  if (dateA !== dateB) return dateA < dateB ? -1 : 1;
  return a.gameId < b.gameId ? -1 : 1;
}
