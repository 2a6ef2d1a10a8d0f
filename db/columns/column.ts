/** One field of every play, packed: a code a row for words, a double a row for numbers. */

import { foldCase } from '../../football/question/like.ts';
import { type Truth, wordsFor } from './truth.ts';

/** Words by code; code 0 is a missing value. Words no longer used keep their code. */
export class WordColumn {
  readonly kind = 'words';
  codes: Int32Array;
  readonly words: string[] = [''];
  /** each word in lower case of A to Z, as questions compare it */
  readonly folded: string[] = [''];
  private readonly codeOf = new Map<string, number>();

  constructor(capacity: number) {
    this.codes = new Int32Array(capacity);
  }

  set(row: number, word: string | null): void {
    this.codes[row] = word === null ? 0 : this.encode(word);
  }

  get(row: number): string | null {
    return this.codes[row] ? this.words[this.codes[row]!]! : null;
  }

  private encode(word: string): number {
    let code = this.codeOf.get(word);
    if (code === undefined) {
      code = this.words.length;
      this.words.push(word);
      this.folded.push(foldCase(word));
      this.codeOf.set(word, code);
    }
    return code;
  }

  grow(capacity: number): void {
    const codes = new Int32Array(capacity);
    codes.set(this.codes);
    this.codes = codes;
  }

  /** What a test of words says of every row; it is asked once for each word. */
  test(rows: number, accepts: (folded: string, word: string) => boolean): Truth {
    // 0 unknown, 1 true, 2 false: the two bits of the answer
    const answers = new Uint8Array(this.words.length);
    for (let code = 1; code < answers.length; code++) {
      answers[code] = accepts(this.folded[code]!, this.words[code]!) ? 1 : 2;
    }
    const { codes } = this;
    const words = wordsFor(rows);
    const yes = new Int32Array(words);
    const no = new Int32Array(words);
    for (let w = 0, row = 0; w < words; w++) {
      let y = 0;
      let n = 0;
      for (let bit = 0; bit < 32; bit++, row++) {
        const answer = answers[codes[row]!]!;
        y |= (answer & 1) << bit;
        n |= (answer >>> 1) << bit;
      }
      yes[w] = y;
      no[w] = n;
    }
    return { yes, no };
  }
}

/** Numbers; NaN is a missing value. Flags are 1 and 0. */
export class NumberColumn {
  readonly kind = 'numbers';
  values: Float64Array;

  constructor(capacity: number) {
    this.values = new Float64Array(capacity).fill(Number.NaN);
  }

  set(row: number, value: number | null): void {
    this.values[row] = value ?? Number.NaN;
  }

  get(row: number): number | null {
    const value = this.values[row]!;
    return Number.isNaN(value) ? null : value;
  }

  grow(capacity: number): void {
    const values = new Float64Array(capacity).fill(Number.NaN);
    values.set(this.values);
    this.values = values;
  }

  /** True from `low` to `high`, both included. */
  within(rows: number, low: number, high: number): Truth {
    const { values } = this;
    const words = wordsFor(rows);
    const yes = new Int32Array(words);
    const no = new Int32Array(words);
    for (let w = 0, row = 0; w < words; w++) {
      let y = 0;
      let n = 0;
      for (let bit = 0; bit < 32; bit++, row++) {
        const value = values[row]!;
        const inside = value >= low && value <= high;
        y |= (inside ? 1 : 0) << bit;
        // a missing value is NaN, which is neither inside nor outside
        n |= (value < low || value > high ? 1 : 0) << bit;
      }
      yes[w] = y;
      no[w] = n;
    }
    return { yes, no };
  }

  among(rows: number, accepted: ReadonlySet<number>): Truth {
    const { values } = this;
    const words = wordsFor(rows);
    const yes = new Int32Array(words);
    const no = new Int32Array(words);
    for (let row = 0; row < rows; row++) {
      const value = values[row]!;
      if (Number.isNaN(value)) continue;
      const into = accepted.has(value) ? yes : no;
      into[row >>> 5] = into[row >>> 5]! | (1 << (row & 31));
    }
    return { yes, no };
  }
}

export type Column = WordColumn | NumberColumn;
