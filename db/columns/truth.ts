/**
 * What a condition says of every row: true, false, or neither where a value is missing. One bit a row in two
 * bitmaps, so that `and`, `or` and `not` follow SQL's truth by working on 32 rows at a time.
 */

export interface Truth {
  /** rows for which it is true */
  readonly yes: Int32Array;
  /** rows for which it is false; rows in neither are unknown */
  readonly no: Int32Array;
}

export function wordsFor(rows: number): number {
  return (rows + 31) >>> 5;
}

/** True for every row. */
export function always(rows: number): Truth {
  const words = wordsFor(rows);
  return { yes: new Int32Array(words).fill(-1), no: new Int32Array(words) };
}

export function not(truth: Truth): Truth {
  return { yes: truth.no, no: truth.yes };
}

/** Writes into the first: true where both are, false where either is. */
export function andInto(into: Truth, other: Truth): Truth {
  const { yes, no } = into;
  for (let w = 0; w < yes.length; w++) {
    yes[w] = yes[w]! & other.yes[w]!;
    no[w] = no[w]! | other.no[w]!;
  }
  return into;
}

/** Writes into the first: true where either is, false where both are. */
export function orInto(into: Truth, other: Truth): Truth {
  return not(andInto(not(into), not(other)));
}

/** Takes unknown as false. */
export function settled(truth: Truth): Truth {
  return { yes: truth.yes, no: truth.yes.map((word) => ~word) };
}

/** True where a value is known, false where it is missing. */
export function known(truth: Truth): Truth {
  return settled({ yes: truth.yes.map((word, w) => word | truth.no[w]!), no: truth.no });
}

function bitsOf(bits: number): number {
  let word = bits - ((bits >>> 1) & 0x55555555);
  word = (word & 0x33333333) + ((word >>> 2) & 0x33333333);
  return Math.imul((word + (word >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}

export function countBits(bits: Int32Array): number {
  let count = 0;
  for (let w = 0; w < bits.length; w++) count += bitsOf(bits[w]!);
  return count;
}

/** How many bits are set in both. */
export function countBothBits(a: Int32Array, b: Int32Array): number {
  const words = Math.min(a.length, b.length);
  let count = 0;
  for (let w = 0; w < words; w++) count += bitsOf(a[w]! & b[w]!);
  return count;
}

/** The places of the set bits, rising. */
export function placesOf(bits: Int32Array, count: number): Int32Array {
  const places = new Int32Array(count);
  for (let w = 0, n = 0; w < bits.length; w++) {
    for (let word = bits[w]!; word !== 0; word &= word - 1) {
      places[n++] = (w << 5) + 31 - Math.clz32(word & -word);
    }
  }
  return places;
}

export function hasBit(bits: Int32Array, row: number): boolean {
  return ((bits[row >>> 5]! >>> (row & 31)) & 1) === 1;
}

export function setBit(bits: Int32Array, row: number, on: boolean): void {
  const word = row >>> 5;
  const bit = 1 << (row & 31);
  bits[word] = on ? bits[word]! | bit : bits[word]! & ~bit;
}
