/** Rows in the order of play: games by season, date and id, then play numbers, then ids. Missing ones come first. */

export type CompareRows = (a: number, b: number) => number;

/** More changes than this are sorted together, not put in place one by one. */
const FEW = 64;

export class RowOrder {
  private rows = new Int32Array(0);
  private length = 0;
  private pending: number[] = [];
  private unsorted = false;
  private rising: boolean | null = true;

  constructor(private readonly compare: CompareRows) {}

  /** Rows from 0 that are in order already. */
  adopt(length: number): void {
    this.rows = Int32Array.from({ length }, (_, row) => row);
    this.length = length;
    this.pending = [];
    this.unsorted = false;
    this.rising = true;
  }

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

  /** Whether the order is that of the rows' own numbers. */
  get isRising(): boolean {
    const rows = this.inOrder();
    this.rising ??= rows.every((row, i) => i === 0 || rows[i - 1]! < row);
    return this.rising;
  }

  /** All rows in order; a view that the next change makes stale. */
  inOrder(): Int32Array {
    const { pending } = this;
    if (pending.length === 0 && !this.unsorted) return this.rows.subarray(0, this.length);
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
    if (!few && !isSorted(rows, this.compare)) rows.sort(this.compare);
    this.unsorted = false;
    this.rising = null;
    return rows;
  }

  /** The rows in order for which `side` gives 0; it gives less before them and more after them. */
  between(side: (row: number) => number): Int32Array {
    const rows = this.inOrder();
    const from = firstAt(rows, (row) => side(row) >= 0);
    return rows.subarray(
      from,
      firstAt(rows, (row) => side(row) > 0),
    );
  }

  private placeOf(row: number): number {
    return firstAt(this.rows.subarray(0, this.length), (other) => this.compare(other, row) > 0);
  }

  private reserve(length: number): void {
    if (length <= this.rows.length) return;
    const rows = new Int32Array(Math.max(256, length * 2));
    rows.set(this.rows);
    this.rows = rows;
  }
}

function isSorted(rows: Int32Array, compare: CompareRows): boolean {
  return rows.every((row, i) => i === 0 || compare(rows[i - 1]!, row) <= 0);
}

/** The first place from which on the test holds. */
function firstAt(rows: Int32Array, holds: (row: number) => boolean): number {
  let low = 0;
  let high = rows.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (holds(rows[middle]!)) high = middle;
    else low = middle + 1;
  }
  return low;
}
