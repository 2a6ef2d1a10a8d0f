/**
 * How likely each value of a field is on a play, from the plays logged so far: shares among the plays most
 * like it, backed off step by step to all plays. A value typed array per field keeps 20,000 plays small and
 * one pass over them short.
 */
import type { PlayColumns, PlayRecord } from '../play.ts';
import type { PlainValue } from '../values.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';
import { spellingKey } from './index-vocabulary.ts';
import type { Likelihood, LogLineContext } from './types.ts';

/** One field of all plays, dictionary-coded; 0 is a missing value. */
interface Column {
  codes: Uint16Array;
  readonly keys: string[];
  readonly codeOf: Map<string, number>;
  /** plays that have the value, by code */
  readonly counts: number[];
}

/** Plays as columns. Changed in place by `recordPlay` and `forgetPlay`. */
export interface History {
  readonly columns: ReadonlyMap<string, Column>;
  readonly rows: Map<string, number>;
  readonly playIds: string[];
}

type PlayValues = Partial<PlayColumns> & { readonly tags?: Readonly<Record<string, string | number>> };

const DISTANCE = 'distance bucket';

/** What makes plays alike, the weightiest first: backing off drops the last one first. */
const LIKENESS = ['possession', 'down', DISTANCE, 'playKind', 'personnel', 'formation', 'concept'] as const;

/** How many plays of the wider circle weigh as much as the circle itself; our choice, no source. */
const PRIOR_PLAYS = 6;
const MOST_VALUES = 65_535;

/** Short, medium, long, very long yards to go. common practice, no source */
export function distanceBucket(distance: number): string {
  if (distance <= 2) return 'short';
  if (distance <= 6) return 'medium';
  return distance <= 10 ? 'long' : 'very long';
}

function plainOf(play: PlayValues, key: string): PlainValue {
  const column = (play as Readonly<Record<string, PlainValue | undefined>>)[key];
  return column ?? play.tags?.[key] ?? null;
}

function keyIn(play: PlayValues, column: string): string | null {
  if (column === DISTANCE) return typeof play.distance === 'number' ? distanceBucket(play.distance) : null;
  const plain = plainOf(play, column);
  return plain === null || plain === '' ? null : spellingKey(String(plain));
}

/** An empty history of the fields that have words or players for values. */
export function emptyHistory(fields: readonly FieldDefinition[]): History {
  const counted = fields
    .filter(({ kind, home }) => (kind === 'term' || kind === 'player') && (home === 'play' || home === 'tag'))
    .map(({ key }) => key);
  const columns = new Map<string, Column>();
  for (const key of new Set([...counted, ...LIKENESS]))
    columns.set(key, { codes: new Uint16Array(256), keys: [''], codeOf: new Map(), counts: [0] });
  return { columns, rows: new Map(), playIds: [] };
}

function codeFor(column: Column, key: string): number {
  const known = column.codeOf.get(key);
  if (known !== undefined) return known;
  if (column.keys.length > MOST_VALUES) return 0;
  const code = column.keys.length;
  column.keys.push(key);
  column.counts.push(0);
  column.codeOf.set(key, code);
  return code;
}

/** Adds the play, or takes its new values. */
export function recordPlay(history: History, play: PlayRecord): void {
  let row = history.rows.get(play.playId);
  const isNew = row === undefined;
  if (row === undefined) {
    row = history.playIds.length;
    history.playIds.push(play.playId);
    history.rows.set(play.playId, row);
  }
  for (const [name, column] of history.columns) {
    if (row >= column.codes.length) {
      const grown = new Uint16Array(column.codes.length * 2);
      grown.set(column.codes);
      column.codes = grown;
    }
    const key = keyIn(play, name);
    const code = key === null ? 0 : codeFor(column, key);
    if (!isNew) column.counts[column.codes[row]!]! -= 1;
    column.counts[code]! += 1;
    column.codes[row] = code;
  }
}

/** Takes the play out; nothing happens where it is not in. */
export function forgetPlay(history: History, playId: string): void {
  const row = history.rows.get(playId);
  const lastId = history.playIds.pop();
  if (row === undefined || lastId === undefined) {
    if (lastId !== undefined) history.playIds.push(lastId);
    return;
  }
  history.rows.delete(playId);
  const lastRow = history.playIds.length;
  for (const { codes, counts } of history.columns.values()) {
    counts[codes[row]!]! -= 1;
    codes[row] = codes[lastRow]!;
  }
  if (lastId === playId) return;
  history.playIds[row] = lastId;
  history.rows.set(lastId, row);
}

export function buildHistory(fields: readonly FieldDefinition[], plays: Iterable<PlayRecord>): History {
  const history = emptyHistory(fields);
  for (const play of plays) recordPlay(history, play);
  return history;
}

interface Likeness {
  /** rows of the plays that share the first trait */
  readonly rows: Uint32Array;
  /** for each of them, how many traits it shares, counted from the weightiest on */
  readonly levels: Uint8Array;
  readonly depth: number;
}

function likenessOf(history: History, play: PlayValues, except: string | null): Likeness {
  const traits: { codes: Uint16Array; code: number }[] = [];
  for (const trait of LIKENESS) {
    if (trait === except) continue;
    const column = history.columns.get(trait);
    const key = keyIn(play, trait);
    const code = key === null ? undefined : column?.codeOf.get(key);
    if (column && code !== undefined) traits.push({ codes: column.codes, code });
  }
  const size = history.playIds.length;
  const rows = new Uint32Array(size);
  const levels = new Uint8Array(size);
  const [first, ...others] = traits;
  let alike = 0;
  if (first) {
    const { codes, code } = first;
    for (let row = 0; row < size; row += 1) {
      if (codes[row] !== code) continue;
      rows[alike] = row;
      levels[alike] = 1;
      alike += 1;
    }
  }
  others.forEach(({ codes, code }, at) => {
    const level = at + 1;
    for (let nth = 0; nth < alike; nth += 1)
      if (levels[nth] === level && codes[rows[nth]!] === code) levels[nth] = level + 1;
  });
  return { rows: rows.subarray(0, alike), levels: levels.subarray(0, alike), depth: traits.length };
}

function sharesOf(history: History, field: string, likeness: Likeness): Map<string, number> {
  const shares = new Map<string, number>();
  const column = history.columns.get(field);
  if (!column) return shares;
  const { rows, levels, depth } = likeness;
  const { codes, keys } = column;
  const values = keys.length;
  const counts = new Uint32Array((depth + 2) * values);
  for (let nth = 0; nth < rows.length; nth += 1) counts[levels[nth]! * values + codes[rows[nth]!]!]! += 1;
  // A play alike at one level is alike at every level above it; at the top are all plays.
  for (let at = depth * values - 1; at >= values; at -= 1) counts[at]! += counts[at + values]!;
  counts.set(column.counts, 0);
  const totals = Array.from({ length: depth + 1 }, (_, level) => {
    let sum = 0;
    for (let code = 1; code < values; code += 1) sum += counts[level * values + code]!;
    return sum;
  });
  for (let code = 1; code < values; code += 1) {
    if (counts[code] === 0) continue;
    let share = counts[code]! / totals[0]!;
    for (let level = 1; level <= depth; level += 1)
      share = (counts[level * values + code]! + PRIOR_PLAYS * share) / (totals[level]! + PRIOR_PLAYS);
    shares.set(keys[code]!, share);
  }
  return shares;
}

/**
 * Shares of each field's values on a play like this one, by `spellingKey` of the term's name or the player's
 * label; they add up to 1 for a field that has been logged. A field is worked out when it is first asked for.
 */
export function rankTerms(history: History, context: LogLineContext): Likelihood {
  const play = context.play ?? {};
  const known = new Map<string, ReadonlyMap<string, number>>();
  const likenesses = new Map<string | null, Likeness>();
  return (field) => {
    const before = known.get(field);
    if (before) return before;
    const except = (LIKENESS as readonly string[]).includes(field) ? field : null;
    let likeness = likenesses.get(except);
    if (!likeness) {
      likeness = likenessOf(history, play, except);
      likenesses.set(except, likeness);
    }
    const shares = sharesOf(history, field, likeness);
    known.set(field, shares);
    return shares;
  };
}
