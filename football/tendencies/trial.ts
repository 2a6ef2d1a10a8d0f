/**
 * How well a tendency foretells plays of games that it has not seen, beside the plain frequency of the calls: log loss in
 * bits a play and Brier score (Brier, Monthly Weather Review 78 (1950) 1; the sum over all calls, 0 to 2; from memory).
 */

import { type ContextTree, fitStrengths, growTree, nodesOf, type Strengths, sharesAlong } from './backoff.ts';
import type { CodedPlays } from './coded.ts';
import { seeded } from './seeded.ts';

/** A mean over plays and its 95 % bootstrap interval, games drawn with replacement. */
export interface Margin {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

export interface Trial {
  /** plays that were foretold, and the games that they are of */
  readonly plays: number;
  readonly games: number;
  readonly logLossBits: number;
  readonly plainLogLossBits: number;
  readonly brier: number;
  readonly plainBrier: number;
  /** plain minus tendency: above 0 the tendency is better */
  readonly logLossMargin: Margin;
  readonly brierMargin: Margin;
}

/** One play that was foretold. */
export interface Scored {
  /** index of the play */
  readonly row: number;
  readonly game: number;
  readonly bits: number;
  readonly plainBits: number;
  readonly brier: number;
  readonly plainBrier: number;
}

/** More games than this are left out several at a time. */
const MOST_FOLDS = 16;

/** Each game in turn is foretold from the others; null where there are fewer than two games. */
export function tryGameByGame(plays: CodedPlays, seed = 1): Trial | null {
  if (plays.gameCount < 2) return null;
  const folds = Math.min(MOST_FOLDS, plays.gameCount);
  const scored: Scored[] = [];
  for (let fold = 0; fold < folds; fold++) {
    scored.push(...scoreOn(plays, (row) => plays.games[row]! % folds === fold));
  }
  return trialOf(scored, seed);
}

/** Foretells the plays of some games from the others. */
export function scoreOn(plays: CodedPlays, isTried: (row: number) => boolean): Scored[] {
  const trained = rowsWhere(plays, (row) => !isTried(row));
  return trained.length === 0 ? [] : scoreRows(plays, trained, rowsWhere(plays, isTried));
}

function rowsWhere(plays: CodedPlays, test: (row: number) => boolean): Int32Array {
  return Int32Array.from(plays.calls, (_, i) => i).filter(test);
}

function scoreRows(plays: CodedPlays, trained: Int32Array, tried: Int32Array): Scored[] {
  const tree = growTree(plays, trained);
  const strengths = fitStrengths(tree, plays);
  const plainTree: CodedPlays = { ...plays, contexts: [], values: [] };
  const plain = sharesAlong(tree, [0], fitStrengths(growTree(plainTree, trained), plainTree));
  return Array.from(tried, (row) => {
    const context = plays.contexts.map((values) => values[row]!);
    const shares = sharesOf(tree, strengths, context);
    const call = plays.calls[row]!;
    return {
      row,
      game: plays.games[row]!,
      bits: -Math.log2(shares[call]!),
      plainBits: -Math.log2(plain[call]!),
      brier: brierScore(shares, call),
      plainBrier: brierScore(plain, call),
    };
  });
}

function sharesOf(tree: ContextTree, strengths: Strengths, context: readonly number[]): Float64Array {
  return sharesAlong(tree, nodesOf(tree, context), strengths);
}

function brierScore(shares: Float64Array, call: number): number {
  let sum = 0;
  for (let c = 0; c < shares.length; c++) sum += (shares[c]! - (c === call ? 1 : 0)) ** 2;
  return sum;
}

/** What plays that were foretold come to; the games are drawn again for the intervals. */
export function trialOf(scored: readonly Scored[], seed = 1): Trial {
  const mean = (of: (s: Scored) => number) => scored.reduce((sum, s) => sum + of(s), 0) / scored.length;
  const games = new Map<number, Scored[]>();
  for (const s of scored) {
    const own = games.get(s.game);
    if (own) own.push(s);
    else games.set(s.game, [s]);
  }
  const byGame = [...games.values()];
  return {
    plays: scored.length,
    games: byGame.length,
    logLossBits: mean((s) => s.bits),
    plainLogLossBits: mean((s) => s.plainBits),
    brier: mean((s) => s.brier),
    plainBrier: mean((s) => s.plainBrier),
    logLossMargin: margin(byGame, (s) => s.plainBits - s.bits, seed),
    brierMargin: margin(byGame, (s) => s.plainBrier - s.brier, seed),
  };
}

const DRAWS = 2000;

function margin(byGame: readonly (readonly Scored[])[], of: (s: Scored) => number, seed: number): Margin {
  const sums = byGame.map((game) => game.reduce((sum, s) => sum + of(s), 0));
  const plays = byGame.map((game) => game.length);
  const total = plays.reduce((a, b) => a + b, 0);
  const random = seeded(seed);
  const means = new Float64Array(DRAWS);
  for (let draw = 0; draw < DRAWS; draw++) {
    let sum = 0;
    let n = 0;
    for (let i = 0; i < sums.length; i++) {
      const game = Math.floor(random() * sums.length);
      sum += sums[game]!;
      n += plays[game]!;
    }
    means[draw] = sum / n;
  }
  means.sort();
  return {
    mean: sums.reduce((a, b) => a + b, 0) / total,
    low: means[Math.floor(0.025 * DRAWS)]!,
    high: means[Math.ceil(0.975 * DRAWS) - 1]!,
  };
}
