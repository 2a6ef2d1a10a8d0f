/** Which row of the columns each play is in. Ids that were kept stay packed until somebody asks for them. */

import { setBit, wordsFor } from './truth.ts';

export class PlayRows {
  alive: Int32Array;
  private ids: (string | null)[] = [];
  private packed: PackedIds | null = null;
  private byId: Map<string, number> | null = new Map();
  private readonly free: number[] = [];
  private living = 0;

  constructor(capacity: number) {
    this.alive = new Int32Array(wordsFor(capacity));
  }

  /** Rows as they were kept, every one of them in use. */
  static of(packed: PackedIds, capacity: number): PlayRows {
    const rows = new PlayRows(capacity);
    rows.packed = packed;
    rows.ids = new Array(packed.ends.length);
    rows.byId = null;
    rows.living = rows.ids.length;
    for (let w = 0; w < rows.living >>> 5; w++) rows.alive[w] = -1;
    for (let row = (rows.living >>> 5) << 5; row < rows.living; row++) setBit(rows.alive, row, true);
    return rows;
  }

  /** plays */
  get size(): number {
    return this.living;
  }

  /** rows in use and not */
  get length(): number {
    return this.ids.length;
  }

  get(playId: string): number | undefined {
    return this.index().get(playId);
  }

  idOf(row: number): string {
    const known = this.ids[row];
    if (typeof known === 'string') return known;
    const id = this.packed!.at(row);
    this.ids[row] = id;
    return id;
  }

  /** @returns the row of a play that has none yet; the caller sees to room for it */
  add(playId: string): number {
    const index = this.index();
    const row = this.free.pop() ?? this.ids.length;
    this.ids[row] = playId;
    index.set(playId, row);
    this.living++;
    return row;
  }

  remove(playId: string, row: number): void {
    this.index().delete(playId);
    this.ids[row] = null;
    setBit(this.alive, row, false);
    this.free.push(row);
    this.living--;
  }

  grow(capacity: number): void {
    const { alive } = this;
    this.alive = new Int32Array(wordsFor(capacity));
    this.alive.set(alive);
  }

  /** Ids of rows that are in use, packed in the order given. */
  pack(rows: Int32Array): PackedIds {
    const ends = new Uint32Array(rows.length);
    const parts: Buffer[] = [];
    let end = 0;
    for (let i = 0; i < rows.length; i++) {
      const part = Buffer.from(this.idOf(rows[i]!), 'utf8');
      parts.push(part);
      end += part.length;
      ends[i] = end;
    }
    return new PackedIds(Buffer.concat(parts, end), ends);
  }

  /** The way from ids to rows is laid when it is first needed. */
  private index(): Map<string, number> {
    if (this.byId) return this.byId;
    this.byId = new Map();
    for (let row = 0; row < this.ids.length; row++) this.byId.set(this.idOf(row), row);
    return this.byId;
  }
}

/** Texts one after the other, and where each ends. */
export class PackedIds {
  constructor(
    readonly bytes: Buffer,
    readonly ends: Uint32Array,
  ) {}

  at(row: number): string {
    return this.bytes.toString('utf8', row === 0 ? 0 : this.ends[row - 1]!, this.ends[row]!);
  }
}
