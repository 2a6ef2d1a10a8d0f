/** One field of every play, packed: each value once in a dictionary, and a code a row, as narrow as the codes allow. */

import { foldCase } from '../../football/question/like.ts';
import { countBothBits, setBit, type Truth, wordsFor } from './truth.ts';

export type Codes = Uint8Array | Uint16Array | Int32Array;
export type ColumnValue = string | number;

/** Columns of at most so many values keep a bitmap for each: a condition is then a few words of 32 plays each. */
const MAPPED = 32;

export class Column {
  codes: Codes;
  /** by code; code 0 is a missing value. Values no longer used keep their code. */
  readonly values: ColumnValue[] = [''];
  /** of words: each in lower case of A to Z, as questions compare it */
  readonly folded: string[] = [''];
  private readonly codeOf = new Map<ColumnValue, number>();
  /** for each code the rows that have it; null until asked for, or where there are too many */
  private maps: Int32Array[] | null = null;

  constructor(
    readonly kind: 'words' | 'numbers',
    capacity: number,
  ) {
    this.codes = new Uint8Array(capacity);
  }

  /** A column as it was kept: its dictionary without the missing value, and its codes. */
  static of(kind: Column['kind'], values: readonly ColumnValue[], codes: Codes): Column {
    const column = new Column(kind, 0);
    for (const value of values) column.enter(value);
    column.codes = codes;
    return column;
  }

  set(row: number, value: ColumnValue | null): void {
    const code = value === null ? 0 : this.encode(value);
    const before = this.codes[row]!;
    if (code === before) return;
    this.codes[row] = code;
    if (!this.maps) return;
    setBit(this.maps[before]!, row, false);
    setBit(this.maps[code]!, row, true);
  }

  get(row: number): ColumnValue | null {
    const code = this.codes[row];
    return code ? this.values[code]! : null;
  }

  private encode(value: ColumnValue): number {
    const known = this.codeOf.get(value);
    if (known !== undefined) return known;
    const code = this.enter(value);
    if (this.maps) {
      if (code > MAPPED) this.maps = null;
      else this.maps.push(new Int32Array(wordsFor(this.codes.length)));
    }
    if (code > 255 && this.codes instanceof Uint8Array) this.codes = Uint16Array.from(this.codes);
    else if (code > 65_535 && this.codes instanceof Uint16Array) this.codes = Int32Array.from(this.codes);
    return code;
  }

  private enter(value: ColumnValue): number {
    const code = this.values.push(value) - 1;
    if (typeof value === 'string') this.folded.push(foldCase(value));
    this.codeOf.set(value, code);
    return code;
  }

  grow(capacity: number): void {
    const codes = new (this.codes.constructor as new (length: number) => Codes)(capacity);
    codes.set(this.codes);
    this.codes = codes;
    this.maps = null;
  }

  /** What a test of values says of every row, neither where the value is missing; it is asked once for each value. */
  test(rows: number, accepts: (value: ColumnValue, folded: string) => boolean): Truth {
    // 0 unknown, 1 true, 2 false: the two bits of the answer
    const answers = new Uint8Array(this.values.length);
    for (let code = 1; code < answers.length; code++) {
      answers[code] = accepts(this.values[code]!, this.folded[code] ?? '') ? 1 : 2;
    }
    const maps = this.mapsOf();
    return maps ? joined(maps, answers, wordsFor(rows)) : this.scanned(rows, answers);
  }

  /** How many of the plays in a bitmap have each code. */
  countWithin(found: Int32Array): Int32Array | null {
    const maps = this.mapsOf();
    return maps ? Int32Array.from(maps, (map) => countBothBits(map, found)) : null;
  }

  /** The same column as seen from other plays: each row takes the value of the row that `from` names, -1 none. */
  shifted(from: Int32Array): Column {
    const codes = new (this.codes.constructor as new (length: number) => Codes)(this.codes.length);
    const { codes: here } = this;
    const rows = Math.min(from.length, codes.length);
    for (let row = 0; row < rows; row++) {
      const other = from[row]!;
      if (other >= 0) codes[row] = here[other]!;
    }
    return Column.of(this.kind, this.values.slice(1), codes);
  }

  private mapsOf(): Int32Array[] | null {
    if (this.maps || this.values.length > MAPPED + 1) return this.maps;
    const { codes } = this;
    const words = wordsFor(codes.length);
    this.maps = this.values.map(() => new Int32Array(words));
    for (let row = 0; row < codes.length; row++) {
      const map = this.maps[codes[row]!]!;
      map[row >>> 5] = map[row >>> 5]! | (1 << (row & 31));
    }
    return this.maps;
  }

  private scanned(rows: number, answers: Uint8Array): Truth {
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

/** The smaller side is put together of its bitmaps, the other is what it and the missing values leave. */
function joined(maps: readonly Int32Array[], answers: Uint8Array, words: number): Truth {
  let accepted = 0;
  for (const answer of answers) if (answer === 1) accepted++;
  const wanted = accepted * 2 <= answers.length ? 1 : 2;
  const side = new Int32Array(words);
  for (let code = 1; code < answers.length; code++) {
    if (answers[code] !== wanted) continue;
    const map = maps[code]!;
    for (let w = 0; w < words; w++) side[w] = side[w]! | map[w]!;
  }
  const missing = maps[0]!;
  const other = new Int32Array(words);
  for (let w = 0; w < words; w++) other[w] = ~(side[w]! | missing[w]!);
  return wanted === 1 ? { yes: side, no: other } : { yes: other, no: side };
}
