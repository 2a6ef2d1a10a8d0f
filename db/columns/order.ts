/** Rows in the order of play: games by season, date and id, then play numbers, then ids. Missing ones come first. */

export type CompareRows = (a: number, b: number) => number;

/** More changes than this are sorted together, not put in place one by one. */
const FEW = 64;

export class RowOrder {
  private rows = new Int32Array(0);
  private length = 0;
  private pending: number[] = [];
  private unsorted = false;

  constructor(private readonly compare: CompareRows) {}

  add(row: number): void {
    this.pending.push(row);
  }

  remove(row: number): void {
    const waiting = this.pending.indexOf(row);
    if (waiting >= 0) {
      this.pending.splice(waiting, 1);
      return;
    }
    const at = this.rows.subarray(0, this.length).indexOf(row);
    if (at < 0) return;
    this.rows.copyWithin(at, at + 1, this.length);
    this.length--;
  }

  /** The order of the games has changed. */
  invalidate(): void {
    this.unsorted = true;
  }

  /** All rows in order; a view that the next change makes stale. */
  inOrder(): Int32Array {
    const { pending } = this;
    this.reserve(this.length + pending.length);
    const few = pending.length <= FEW && !this.unsorted;
    for (const row of pending) {
      const at = few ? this.placeOf(row) : this.length;
      this.rows.copyWithin(at + 1, at, this.length);
      this.rows[at] = row;
      this.length++;
    }
    this.pending = [];
    const rows = this.rows.subarray(0, this.length);
    if (!few) rows.sort(this.compare);
    this.unsorted = false;
    return rows;
  }

  private placeOf(row: number): number {
    let low = 0;
    let high = this.length;
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (this.compare(this.rows[middle]!, row) <= 0) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  private reserve(length: number): void {
    if (length <= this.rows.length) return;
    const rows = new Int32Array(Math.max(256, length * 2));
    rows.set(this.rows);
    this.rows = rows;
  }
}
