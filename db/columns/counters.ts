/** The counters of every play, a column each, as narrow as their numbers allow: most are 0 or 1, few are not whole. */

/** What tables sum: names, and the numbers of one play in the same order. */
export interface CounterSource<P> {
  readonly names: readonly string[];
  facts(play: P): ArrayLike<number>;
}

type Numbers = Int8Array | Int16Array | Float64Array;

function fits(column: Numbers, value: number): boolean {
  if (column instanceof Float64Array) return true;
  const limit = column instanceof Int8Array ? 127 : 32_767;
  return Number.isInteger(value) && value >= -limit && value <= limit;
}

function widened(column: Numbers, length: number, value: number): Numbers {
  const stays = fits(column, value);
  const isSmall = Number.isInteger(value) && Math.abs(value) <= 32_767 && !(column instanceof Float64Array);
  const wide = stays
    ? new (column.constructor as new (length: number) => Numbers)(length)
    : isSmall
      ? new Int16Array(length)
      : new Float64Array(length);
  wide.set(column);
  return wide;
}

export class CounterColumns {
  private columns: Numbers[];

  constructor(
    readonly names: readonly string[],
    capacity: number,
  ) {
    this.columns = names.map(() => new Int8Array(capacity));
  }

  grow(capacity: number): void {
    this.columns = this.columns.map((column) => widened(column, capacity, 0));
  }

  set(row: number, facts: ArrayLike<number>): void {
    for (let c = 0; c < this.columns.length; c++) {
      const value = facts[c] ?? 0;
      let column = this.columns[c]!;
      if (!fits(column, value)) {
        column = widened(column, column.length, value);
        this.columns[c] = column;
      }
      column[row] = value;
    }
  }

  clear(row: number): void {
    for (const column of this.columns) column[row] = 0;
  }

  /**
   * Sums of some counters over groups of rows.
   * @param groupOf the group of each of `rows`, from 0
   * @returns group after group, the counters in the order of `wanted`
   */
  sums(rows: Int32Array, groupOf: Int32Array, groups: number, wanted: readonly number[]): Float64Array {
    const width = wanted.length;
    const sums = new Float64Array(groups * width);
    for (let c = 0; c < width; c++) addUp(this.columns[wanted[c]!]!, rows, groupOf, sums, width, c);
    return sums;
  }
}

function addUp(
  column: Numbers,
  rows: Int32Array,
  groupOf: Int32Array,
  sums: Float64Array,
  width: number,
  offset: number,
): void {
  for (let i = 0; i < rows.length; i++) {
    const value = column[rows[i]!]!;
    const at = groupOf[i]! * width + offset;
    sums[at] = sums[at]! + value;
  }
}
