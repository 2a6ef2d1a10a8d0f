/** The fields a question may name, and the nearest name to one that is not among them. */

import type { FieldDefinition } from '../vocabulary/fields.ts';

export class FieldSet {
  readonly all: readonly FieldDefinition[];
  private readonly byKey: ReadonlyMap<string, FieldDefinition>;
  private readonly byFoldedKey: ReadonlyMap<string, FieldDefinition>;

  constructor(fields: readonly FieldDefinition[]) {
    this.all = fields;
    this.byKey = new Map(fields.map((field) => [field.key, field]));
    this.byFoldedKey = new Map(fields.map((field) => [field.key.toLowerCase(), field]));
  }

  static of(fields: readonly FieldDefinition[] | FieldSet): FieldSet {
    return fields instanceof FieldSet ? fields : new FieldSet(fields);
  }

  /** The field of exactly this key. */
  get(key: string): FieldDefinition | undefined {
    return this.byKey.get(key);
  }

  /** The field of this key, whatever the case. */
  find(name: string): FieldDefinition | undefined {
    return this.byKey.get(name) ?? this.byFoldedKey.get(name.toLowerCase());
  }

  /** The key that was probably meant. */
  nearest(name: string): string | undefined {
    const label = this.all.find((field) => squeeze(field.label) === squeeze(name));
    return (
      label?.key ??
      nearestWord(
        name,
        this.all.map((field) => field.key),
      )
    );
  }
}

function squeeze(name: string): string {
  return name.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '');
}

/** The word nearest to `name` by letters changed, or none where nothing is near. */
export function nearestWord(name: string, words: readonly string[]): string | undefined {
  const wanted = squeeze(name);
  if (wanted === '') return undefined;
  let best: string | undefined;
  let bestScore = Number.POSITIVE_INFINITY;
  for (const word of words) {
    const key = squeeze(word);
    const starts = wanted.length >= 3 && key.startsWith(wanted);
    const score = starts ? 0.5 : editDistance(wanted, key);
    if (score < bestScore) {
      best = word;
      bestScore = score;
    }
  }
  return bestScore <= Math.max(1, Math.floor(wanted.length / 3)) ? best : undefined;
}

/** Letters to insert, drop, change or swap with their neighbour to get from one word to the other. */
function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let cost = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        cost = Math.min(cost, before[j - 2]! + 1);
      }
      row.push(cost);
    }
    before = last;
    last = row;
  }
  return last[b.length]!;
}
