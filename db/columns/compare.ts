/** One field held against another of the same play, or of the play before or after. */

import type { FieldOperator } from '../../football/question/ast.ts';
import type { Column } from './column.ts';
import { not, type Truth, wordsFor } from './truth.ts';

/** Each operator as equality or as `first < second`, with the sides changed and the answer turned around where it must. */
const READ: Readonly<Record<FieldOperator, { less: boolean; swap: boolean; negate: boolean }>> = {
  '=field': { less: false, swap: false, negate: false },
  '<>field': { less: false, swap: false, negate: true },
  '<field': { less: true, swap: false, negate: false },
  '>field': { less: true, swap: true, negate: false },
  '>=field': { less: true, swap: false, negate: true },
  '<=field': { less: true, swap: true, negate: true },
};

/** Neither true nor false where either side is missing. Words are the same whatever their case from A to Z. */
export function compareColumns(a: Column, b: Column, operator: FieldOperator, rows: number): Truth {
  const { less, swap, negate } = READ[operator];
  const [first, second] = swap ? [b, a] : [a, b];
  const [ranksA, ranksB] = ranksOf(first, second);
  const words = wordsFor(rows);
  const yes = new Int32Array(words);
  const no = new Int32Array(words);
  for (let w = 0, row = 0; w < words; w++) {
    let y = 0;
    let n = 0;
    for (let bit = 0; bit < 32; bit++, row++) {
      const rankA = ranksA[first.codes[row]!]!;
      const rankB = ranksB[second.codes[row]!]!;
      if (rankA < 0 || rankB < 0) continue;
      if (less ? rankA < rankB : rankA === rankB) y |= 1 << bit;
      else n |= 1 << bit;
    }
    yes[w] = y;
    no[w] = n;
  }
  return negate ? not({ yes, no }) : { yes, no };
}

/** For each code of both columns a number that stands for its value: equal for equal values, rising with numbers; -1 missing. */
function ranksOf(a: Column, b: Column): [Float64Array, Float64Array] {
  const known = new Map<string, number>();
  const rank = (column: Column) =>
    Float64Array.from(column.values, (value, code) => {
      if (code === 0) return -1;
      if (column.kind === 'numbers') return Number(value);
      const word = column.folded[code]!;
      const at = known.get(word) ?? known.size;
      known.set(word, at);
      return at;
    });
  const ranks: [Float64Array, Float64Array] = [rank(a), rank(b)];
  if (a.kind !== 'numbers') return ranks;
  // numbers may be negative, so their places stand for them, and -1 keeps its meaning
  const order = [...new Set([...ranks[0].subarray(1), ...ranks[1].subarray(1)])].sort((x, y) => x - y);
  const place = new Map(order.map((value, at) => [value, at]));
  for (const side of ranks)
    for (let code = 1; code < side.length; code++) side[code] = place.get(side[code]!)!;
  return ranks;
}
