/** The fields a question may name, and the nearest name to one that is not among them. */

import type { FieldDefinition } from '../vocabulary/fields.ts';
import { neighbourField, splitStep, stepKey } from './neighbour.ts';
import { SAVED_FIELD, type SavedQuestion, savedKey } from './saved.ts';

export class FieldSet {
  /** what a play has; fields of its neighbours and saved questions are found by their name alone */
  readonly all: readonly FieldDefinition[];
  readonly saved: readonly SavedQuestion[];
  private readonly byKey = new Map<string, FieldDefinition>();
  private readonly byFoldedKey = new Map<string, FieldDefinition>();
  private readonly savedByKey: ReadonlyMap<string, SavedQuestion>;

  constructor(fields: readonly FieldDefinition[], saved: readonly SavedQuestion[] = []) {
    this.all = fields;
    this.saved = saved;
    this.savedByKey = new Map(saved.map((question) => [savedKey(question.name), question]));
    for (const field of [...fields, SAVED_FIELD]) {
      this.byKey.set(field.key, field);
      this.byFoldedKey.set(field.key.toLowerCase(), field);
    }
  }

  static of(fields: readonly FieldDefinition[] | FieldSet): FieldSet {
    return fields instanceof FieldSet ? fields : new FieldSet(fields);
  }

  /** The field of exactly this key. */
  get(key: string): FieldDefinition | undefined {
    return this.byKey.get(key) ?? this.neighbour(key, (plain) => this.byKey.get(plain));
  }

  /** The field of this key, whatever the case. */
  find(name: string): FieldDefinition | undefined {
    const folded = name.toLowerCase();
    return (
      this.byKey.get(name) ??
      this.byFoldedKey.get(folded) ??
      this.neighbour(folded, () => this.find(name.slice(name.indexOf('.') + 1)))
    );
  }

  savedQuestion(name: string): SavedQuestion | undefined {
    return this.savedByKey.get(savedKey(name));
  }

  /** The key that was probably meant. */
  nearest(name: string): string | undefined {
    const { step, key } = splitStep(name);
    if (step) {
      const near = this.find(key)?.key ?? this.nearest(key);
      return near && stepKey(step, near);
    }
    const label = this.all.find((field) => squeeze(field.label) === squeeze(name));
    return (
      label?.key ??
      nearestWord(
        name,
        this.all.map((field) => field.key),
      )
    );
  }

  private neighbour(
    key: string,
    plainOf: (key: string) => FieldDefinition | undefined,
  ): FieldDefinition | undefined {
    const { step, key: plain } = splitStep(key);
    const field = step && plainOf(plain);
    if (!step || !field || field === SAVED_FIELD || splitStep(field.key).step) return undefined;
    const known = this.byKey.get(stepKey(step, field.key));
    if (known) return known;
    const made = neighbourField(field, step);
    if (made) this.byKey.set(made.key, made);
    return made;
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
