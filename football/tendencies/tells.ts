/**
 * Tells: the single and paired tags that change what is called. A tag is measured by the information that it gives about
 * the call, in bits; plays may be compared only within a situation, so that third and long is not taken for a tell.
 * Chance is ruled out by shuffling the calls within the situation, and for having looked at many tags by the step-down
 * maximum of Westfall and Young, Resampling-Based Multiple Testing (Wiley 1993), algorithm 4.1 (from memory).
 */

import { seeded } from './seeded.ts';

export interface TellField {
  readonly key: string;
  /** per play; null where it is not tagged, and such a play is not compared by this field */
  readonly values: readonly (string | null)[];
}

export interface TellRequest {
  readonly calls: readonly string[];
  readonly fields: readonly TellField[];
  /** per play, plays are compared within it; one word for all where situations are not to be told apart */
  readonly situations: readonly string[];
  /** also look at two tags together */
  readonly pairs: boolean;
}

/** A field and the value it has. */
export type Tag = readonly [key: string, value: string];

export interface Tell {
  readonly tags: readonly Tag[];
  /** plays with the tags, as indexes */
  readonly plays: Int32Array;
  /** plays with each call, by the index of `callNames` */
  readonly counts: Int32Array;
  /** the same of the plays it was compared with: tagged in these fields, with other values */
  readonly otherCounts: Int32Array;
  /** information about the call within situations, in bits a play of those compared */
  readonly bits: number;
  /** chance of a gain so large anywhere among the tags looked at, were calls independent of all of them */
  readonly adjusted: number;
}

export interface Tells {
  readonly callNames: readonly string[];
  readonly tells: readonly Tell[];
  /** how many tags and pairs were looked at, and how often the calls were shuffled */
  readonly looked: number;
  readonly shuffles: number;
}

/** Fewer plays on either side than this can't be told from chance, so looking at them only costs power. */
const LEAST_PLAYS = 5;

interface Candidate {
  readonly tags: readonly Tag[];
  readonly rows: Int32Array;
  /** index of the group of plays that it is compared within */
  readonly base: number;
}

interface Prepared {
  readonly callNames: readonly string[];
  readonly cells: Int32Array;
  readonly cellCount: number;
  readonly candidates: readonly Candidate[];
  readonly bases: readonly Int32Array[];
  readonly situations: readonly Int32Array[];
}

/**
 * @param shuffles how often the calls are shuffled; fewer where that would take longer than `mostSteps` steps
 */
export function findTells(request: TellRequest, { shuffles = 999, seed = 1, mostSteps = 3e8 } = {}): Tells {
  const prepared = prepare(request);
  const { candidates } = prepared;
  const work = candidates.reduce((sum, c) => sum + c.rows.length + prepared.cellCount, 0);
  const times = Math.max(99, Math.min(shuffles, Math.floor(mostSteps / Math.max(1, work))));
  const observed = gains(prepared, prepared.cells);
  const order = candidates.map((_, i) => i).sort((a, b) => observed[b]! - observed[a]!);
  const reached = new Int32Array(candidates.length);
  const random = seeded(seed);
  const shuffled = prepared.cells.slice();
  for (let time = 0; time < times; time++) {
    for (const rows of prepared.situations) shuffle(shuffled, rows, random);
    const values = gains(prepared, shuffled);
    let highest = 0;
    for (let at = order.length - 1; at >= 0; at--) {
      const candidate = order[at]!;
      highest = Math.max(highest, values[candidate]!);
      if (highest >= observed[candidate]! - 1e-9) reached[candidate] = reached[candidate]! + 1;
    }
  }
  let floor = 0;
  const tells = order.map((candidate): Tell => {
    floor = Math.max(floor, (reached[candidate]! + 1) / (times + 1));
    const { tags, rows, base } = candidates[candidate]!;
    const counts = callCounts(prepared, rows);
    const all = callCounts(prepared, prepared.bases[base]!);
    return {
      tags,
      plays: rows,
      counts,
      otherCounts: all.map((n, call) => n - counts[call]!),
      bits: observed[candidate]! / prepared.bases[base]!.length / Math.LN2,
      adjusted: floor,
    };
  });
  return { callNames: prepared.callNames, tells, looked: candidates.length, shuffles: times };
}

function prepare({ calls, fields, situations, pairs }: TellRequest): Prepared {
  const callNames = [...new Set(calls)];
  const situationNames = [...new Set(situations)];
  const callAt = new Map(callNames.map((name, i) => [name, i]));
  const situationAt = new Map(situationNames.map((name, i) => [name, i]));
  const cells = Int32Array.from(
    calls,
    (call, i) => situationAt.get(situations[i]!)! * callNames.length + callAt.get(call)!,
  );
  const bases: Int32Array[] = [];
  const candidates: Candidate[] = [];
  const add = (base: readonly number[], groups: ReadonlyMap<string, Group>) => {
    const at = bases.length;
    let used = false;
    for (const { tags, rows } of groups.values()) {
      if (rows.length < LEAST_PLAYS || base.length - rows.length < LEAST_PLAYS) continue;
      candidates.push({ tags, rows: Int32Array.from(rows), base: at });
      used = true;
    }
    if (used) bases.push(Int32Array.from(base));
  };
  for (const [i, a] of fields.entries()) {
    add(...groupsOf(calls.length, [a]));
    if (pairs) for (const b of fields.slice(i + 1)) add(...groupsOf(calls.length, [a, b]));
  }
  return {
    callNames,
    cells,
    cellCount: callNames.length * situationNames.length,
    candidates,
    bases,
    situations: situationNames.map((name) =>
      Int32Array.from(calls, (_, i) => i).filter((i) => situations[i] === name),
    ),
  };
}

interface Group {
  readonly tags: readonly Tag[];
  readonly rows: number[];
}

/** The plays that are tagged in all of these fields, and these by their values. */
function groupsOf(plays: number, fields: readonly TellField[]): [number[], Map<string, Group>] {
  const base: number[] = [];
  const groups = new Map<string, Group>();
  for (let i = 0; i < plays; i++) {
    const tags: Tag[] = [];
    for (const { key, values } of fields) {
      const value = values[i];
      if (value !== null && value !== undefined) tags.push([key, value]);
    }
    if (tags.length < fields.length) continue;
    base.push(i);
    const name = tags.map(([, value]) => value).join('\n');
    const group = groups.get(name);
    if (group) group.rows.push(i);
    else groups.set(name, { tags, rows: [i] });
  }
  return [base, groups];
}

const logs: number[] = [0];

/** n ln n, with 0 for 0. */
function nLogN(n: number): number {
  for (let next = logs.length; next <= n; next++) logs.push(next * Math.log(next));
  return logs[n]!;
}

/** Of each candidate: plays times the information, in nats, about the call within its situation. */
function gains(prepared: Prepared, cells: Int32Array): Float64Array {
  const { candidates, bases, cellCount, callNames } = prepared;
  const width = callNames.length;
  const totals = bases.map((rows) => {
    const counts = new Int32Array(cellCount);
    for (const row of rows) counts[cells[row]!] = counts[cells[row]!]! + 1;
    return counts;
  });
  const inside = new Int32Array(cellCount);
  return Float64Array.from(candidates, ({ rows, base }) => {
    inside.fill(0);
    for (const row of rows) inside[cells[row]!] = inside[cells[row]!]! + 1;
    const all = totals[base]!;
    let gain = 0;
    for (let start = 0; start < cellCount; start += width) {
      let [ins, outs] = [0, 0];
      let sum = 0;
      for (let cell = start; cell < start + width; cell++) {
        const total = all[cell]!;
        if (total === 0) continue;
        const here = inside[cell]!;
        ins += here;
        outs += total - here;
        sum += nLogN(here) + nLogN(total - here) - nLogN(total);
      }
      if (ins > 0 && outs > 0) gain += sum - nLogN(ins) - nLogN(outs) + nLogN(ins + outs);
    }
    return gain;
  });
}

function callCounts({ cells, callNames }: Prepared, rows: Int32Array): Int32Array {
  const counts = new Int32Array(callNames.length);
  for (const row of rows) {
    const call = cells[row]! % callNames.length;
    counts[call] = counts[call]! + 1;
  }
  return counts;
}

/** Fisher and Yates, among some rows only. */
function shuffle(cells: Int32Array, rows: Int32Array, random: () => number): void {
  for (let i = rows.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    const [a, b] = [rows[i]!, rows[j]!];
    const kept = cells[a]!;
    cells[a] = cells[b]!;
    cells[b] = kept;
  }
}
