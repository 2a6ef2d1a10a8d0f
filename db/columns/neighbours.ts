/** For every play the one before and the one after within its drive, as rows; -1 where there is none. */

export interface DriveRows {
  /** rows of a game in the order of play */
  rowsOfGame(game: number): Int32Array;
  /** number of a row's drive; null for a play that belongs to none */
  driveOf(row: number): number | null;
  /** whether the play is counted within its drive */
  counts(row: number): boolean;
  /** takes the number of a row's play within its drive, 0 where it has none */
  number(row: number, number: number): void;
}

export class Neighbours {
  previous: Int32Array;
  next: Int32Array;
  private readonly stale = new Set<number>();

  constructor(capacity: number) {
    this.previous = new Int32Array(capacity).fill(-1);
    this.next = new Int32Array(capacity).fill(-1);
  }

  grow(capacity: number): void {
    const longer = (rows: Int32Array) => {
      const grown = new Int32Array(capacity).fill(-1);
      grown.set(rows);
      return grown;
    };
    this.previous = longer(this.previous);
    this.next = longer(this.next);
  }

  /** A play of the game came, went, moved or changed its drive. */
  touch(game: number): void {
    this.stale.add(game);
  }

  clear(row: number): void {
    this.previous[row] = -1;
    this.next[row] = -1;
  }

  /** Works out again whatever was touched. @returns whether anything was */
  settle(plays: DriveRows): boolean {
    if (this.stale.size === 0) return false;
    for (const game of this.stale) this.link(plays.rowsOfGame(game), plays);
    this.stale.clear();
    return true;
  }

  private link(rows: Int32Array, plays: DriveRows): void {
    const last = new Map<number, number>();
    const counted = new Map<number, number>();
    for (const row of rows) {
      this.clear(row);
      const drive = plays.driveOf(row);
      const counts = drive !== null && plays.counts(row);
      const number = counts ? (counted.get(drive) ?? 0) + 1 : 0;
      plays.number(row, number);
      if (drive === null) continue;
      if (counts) counted.set(drive, number);
      const before = last.get(drive);
      if (before !== undefined) {
        this.previous[row] = before;
        this.next[before] = row;
      }
      last.set(drive, row);
    }
  }
}
