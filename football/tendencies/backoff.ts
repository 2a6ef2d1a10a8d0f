/**
 * Shares of calls in a context, smoothed toward the shorter context: a Dirichlet prior whose mean is the share without
 * the last field, and whose strength is fitted rather than guessed. MacKay and Peto, A hierarchical Dirichlet language
 * model, Natural Language Engineering 1 (1995) 289 (formula from memory); strengths fitted by leaving one game out.
 */

import type { CodedPlays } from './coded.ts';

/** Counts of a context: `path` is how many of the first fields it fixes. */
interface Node {
  readonly depth: number;
  readonly counts: Float64Array;
  readonly total: { plays: number };
  /** counts of one game alone, by the game's index */
  readonly byGame: Map<number, Float64Array>;
}

/** Contexts as a tree: the root has every play, each level below fixes one more field. */
export interface ContextTree {
  readonly calls: number;
  readonly depth: number;
  readonly nodes: readonly Node[];
  /** child of a node by the value of the next field */
  readonly children: ReadonlyMap<number, number>[];
  /** per play of the tree: its nodes from the root down, ending where a field is not known */
  readonly paths: readonly Int32Array[];
  /** index of each of these plays among the coded plays */
  readonly rows: Int32Array;
}

/** @param rows which of the plays are counted; all when not given */
export function growTree(plays: CodedPlays, rows?: Int32Array): ContextTree {
  const counted = rows ?? Int32Array.from(plays.calls, (_, i) => i);
  const calls = plays.callNames.length;
  const nodes: Node[] = [];
  const children: Map<number, number>[] = [];
  const addNode = (depth: number): number => {
    children.push(new Map());
    return nodes.push({ depth, counts: new Float64Array(calls), total: { plays: 0 }, byGame: new Map() }) - 1;
  };
  addNode(0);
  const depth = plays.contexts.length;
  const paths: Int32Array[] = [];
  const path = new Int32Array(depth + 1);
  for (const row of counted) {
    let length = 1;
    let node = 0;
    for (let f = 0; f < depth; f++) {
      const value = plays.contexts[f]![row]!;
      if (value < 0) break;
      let next = children[node]!.get(value);
      if (next === undefined) {
        next = addNode(f + 1);
        children[node]!.set(value, next);
      }
      path[length++] = next;
      node = next;
    }
    const own = path.slice(0, length);
    paths.push(own);
    for (const at of own) countIn(nodes[at]!, plays.calls[row]!, plays.games[row]!);
  }
  return { calls, depth, nodes, children, paths, rows: counted };
}

function countIn(node: Node, call: number, game: number): void {
  node.counts[call] = node.counts[call]! + 1;
  node.total.plays++;
  let own = node.byGame.get(game);
  if (!own) {
    own = new Float64Array(node.counts.length);
    node.byGame.set(game, own);
  }
  own[call] = own[call]! + 1;
}

/**
 * How strongly each level leans on the shorter one, in plays: a context with as many plays as its strength is believed
 * half. `Infinity`: the level adds nothing and is passed over.
 */
export type Strengths = readonly number[];

const STEPS: readonly number[] = [0.5, 1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 1024, Number.POSITIVE_INFINITY];

/**
 * The strengths under which the tree, each game in turn left out of the counts, gives the games left out the highest
 * likelihood. With a single game nothing can be left out: every level below the root is then passed over.
 */
export function fitStrengths(tree: ContextTree, plays: CodedPlays): Strengths {
  const strengths = new Array<number>(tree.depth + 1).fill(Number.POSITIVE_INFINITY);
  strengths[0] = 1;
  const games = new Set(Array.from(tree.rows, (row) => plays.games[row]!));
  if (games.size < 2 || tree.rows.length === 0) return strengths;
  const held = heldOut(tree, plays);
  let best = logLikelihood(held, tree, strengths);
  // each strength in turn, until none can be bettered; the plain frequency is the start and so the floor
  for (let round = 0; round < 4; round++) {
    const before = best;
    for (let level = 0; level <= tree.depth; level++) {
      let chosen = strengths[level]!;
      for (const step of level === 0 ? STEPS.slice(0, -1) : STEPS) {
        strengths[level] = step;
        const value = logLikelihood(held, tree, strengths);
        if (value > best + 1e-9) {
          best = value;
          chosen = step;
        }
      }
      strengths[level] = chosen;
    }
    if (best - before < 1e-6) break;
  }
  return strengths;
}

/** Per play and level: how often its own call, and how many plays, stand in the context without its own game. */
interface HeldOut {
  readonly same: Float64Array;
  readonly all: Float64Array;
  readonly lengths: Int32Array;
}

function heldOut(tree: ContextTree, plays: CodedPlays): HeldOut {
  const width = tree.depth + 1;
  const held = {
    same: new Float64Array(tree.rows.length * width),
    all: new Float64Array(tree.rows.length * width),
    lengths: Int32Array.from(tree.paths, (path) => path.length),
  };
  const totals = new Map<Float64Array, number>();
  for (const [i, path] of tree.paths.entries()) {
    const row = tree.rows[i]!;
    const call = plays.calls[row]!;
    for (let level = 0; level < path.length; level++) {
      const node = tree.nodes[path[level]!]!;
      const own = node.byGame.get(plays.games[row]!)!;
      let ownTotal = totals.get(own);
      if (ownTotal === undefined) {
        ownTotal = own.reduce((a, b) => a + b, 0);
        totals.set(own, ownTotal);
      }
      held.same[i * width + level] = node.counts[call]! - own[call]!;
      held.all[i * width + level] = node.total.plays - ownTotal;
    }
  }
  return held;
}

function logLikelihood(held: HeldOut, tree: ContextTree, strengths: Strengths): number {
  const width = tree.depth + 1;
  let sum = 0;
  for (let i = 0; i < held.lengths.length; i++) {
    let share = 1 / tree.calls;
    const end = held.lengths[i]!;
    for (let level = 0; level < end; level++) {
      const strength = strengths[level]!;
      if (strength === Number.POSITIVE_INFINITY) continue;
      share = (held.same[i * width + level]! + strength * share) / (held.all[i * width + level]! + strength);
    }
    sum += Math.log(share);
  }
  return sum;
}

/** The nodes of a context from the root down; shorter than the context where nothing was seen of it. */
export function nodesOf(tree: ContextTree, context: readonly number[]): number[] {
  const path = [0];
  for (const value of context) {
    const next = value < 0 ? undefined : tree.children[path.at(-1)!]!.get(value);
    if (next === undefined) break;
    path.push(next);
  }
  return path;
}

/**
 * The share of each call along a path of nodes, 0..1.
 * @param without a game whose plays are left out of the counts
 */
export function sharesAlong(
  tree: ContextTree,
  path: ArrayLike<number>,
  strengths: Strengths,
  without = -1,
): Float64Array {
  const shares = new Float64Array(tree.calls).fill(1 / tree.calls);
  for (let level = 0; level < path.length; level++) {
    const strength = strengths[level]!;
    if (strength === Number.POSITIVE_INFINITY) continue;
    const node = tree.nodes[path[level]!]!;
    const own = without < 0 ? undefined : node.byGame.get(without);
    const all = node.total.plays - (own ? own.reduce((a, b) => a + b, 0) : 0);
    for (let call = 0; call < shares.length; call++) {
      const count = node.counts[call]! - (own ? own[call]! : 0);
      shares[call] = (count + strength * shares[call]!) / (all + strength);
    }
  }
  return shares;
}
