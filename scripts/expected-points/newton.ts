import { compileTerms, OUTCOMES, softmax } from '../../football/expected-points/form.ts';
import type { EpPlay } from './read.ts';

const CLASSES = OUTCOMES.length - 1;

/** Plays as rows of terms, side by side in memory. */
export interface Design {
  readonly terms: readonly string[];
  readonly rows: Float64Array;
  readonly outcomes: Uint8Array;
  readonly count: number;
}

export function designOf(plays: readonly EpPlay[], terms: readonly string[]): Design {
  const width = terms.length;
  const rows = new Float64Array(plays.length * width);
  const outcomes = new Uint8Array(plays.length);
  const write = compileTerms(terms);
  plays.forEach((play, i) => {
    write(play.at, rows.subarray(i * width, (i + 1) * width));
    outcomes[i] = play.outcome;
  });
  return { terms, rows, outcomes, count: plays.length };
}

/** Log likelihood and its gradient, term after term with one number per outcome. */
function gradientAt(
  design: Design,
  coefficients: Float64Array,
): { likelihood: number; gradient: Float64Array } {
  const { rows, outcomes, count, terms } = design;
  const width = terms.length;
  const gradient = new Float64Array(width * CLASSES);
  const p = new Float64Array(CLASSES + 1);
  let likelihood = 0;
  for (let i = 0; i < count; i++) {
    const row = rows.subarray(i * width, (i + 1) * width);
    softmax(row, coefficients, p);
    const outcome = outcomes[i]!;
    likelihood += Math.log(Math.max(p[outcome]!, 1e-300));
    for (let t = 0; t < width; t++) {
      const x = row[t]!;
      if (x === 0) continue;
      for (let c = 0; c < CLASSES; c++) gradient[t * CLASSES + c]! += x * (Number(outcome === c) - p[c]!);
    }
  }
  return { likelihood, gradient };
}

/** Fisher information from every `stride`-th play, scaled to all of them, as a full symmetric matrix. */
function informationAt(design: Design, coefficients: Float64Array, stride: number): Float64Array {
  const { rows, count, terms } = design;
  const width = terms.length;
  const size = width * CLASSES;
  const info = new Float64Array(size * size);
  const weights = new Float64Array(CLASSES * CLASSES);
  const p = new Float64Array(CLASSES + 1);
  for (let i = 0; i < count; i += stride) {
    const row = rows.subarray(i * width, (i + 1) * width);
    softmax(row, coefficients, p);
    for (let a = 0; a < CLASSES; a++)
      for (let b = 0; b < CLASSES; b++) weights[a * CLASSES + b] = p[a]! * (Number(a === b) - p[b]!);
    for (let t = 0; t < width; t++) {
      if (row[t] === 0) continue;
      for (let u = 0; u <= t; u++) {
        const xx = row[t]! * row[u]! * stride;
        if (xx === 0) continue;
        for (let a = 0; a < CLASSES; a++) {
          const at = (t * CLASSES + a) * size + u * CLASSES;
          for (let b = 0; b < CLASSES; b++) info[at + b]! += xx * weights[a * CLASSES + b]!;
        }
      }
    }
  }
  // a touch of ridge keeps a term that hardly varies from stopping the solver; it moves no printed digit
  for (let r = 0; r < size; r++) {
    info[r * size + r]! += 1e-6;
    for (let s = r + 1; s < size; s++) info[r * size + s] = info[s * size + r]!;
  }
  return info;
}

/** The lower Cholesky factor, in place. */
function factor(matrix: Float64Array, size: number): Float64Array {
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * size + j]!;
      for (let k = 0; k < j; k++) sum -= matrix[i * size + k]! * matrix[j * size + k]!;
      matrix[i * size + j] = i === j ? Math.sqrt(Math.max(sum, 1e-12)) : sum / matrix[j * size + j]!;
    }
  }
  return matrix;
}

function solve(lower: Float64Array, right: Float64Array): Float64Array {
  const size = right.length;
  const x = Float64Array.from(right);
  for (let i = 0; i < size; i++) {
    for (let k = 0; k < i; k++) x[i]! -= lower[i * size + k]! * x[k]!;
    x[i]! /= lower[i * size + i]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let k = i + 1; k < size; k++) x[i]! -= lower[k * size + i]! * x[k]!;
    x[i]! /= lower[i * size + i]!;
  }
  return x;
}

export interface Fit {
  readonly coefficients: Float64Array;
  readonly likelihood: number;
  readonly steps: number;
  /** the factored information, to start a fit on nearly the same plays from */
  readonly lower: Float64Array;
}

/**
 * Maximum likelihood by Newton's method. The information matrix is the costly part, so the way there uses
 * a sample of the plays for it; near the end it is made from all of them, and kept as long as it serves.
 * Every step has the full gradient.
 * @param from another fit over the same terms and nearly the same plays; its matrix is then used again
 * @param enough how much log likelihood may be left to win
 */
export function fitMultinomial(
  design: Design,
  from?: Pick<Fit, 'coefficients' | 'lower'>,
  enough = 1e-6,
): Fit {
  let coefficients: Float64Array = from
    ? Float64Array.from(from.coefficients)
    : new Float64Array(design.terms.length * CLASSES);
  let lower = from?.lower ?? factor(informationAt(design, coefficients, 16), coefficients.length);
  let full = from !== undefined;
  let leftBefore = Infinity;
  let state = gradientAt(design, coefficients);
  for (let step = 1; step <= 80; step++) {
    let direction = solve(lower, state.gradient);
    let left = likelihoodLeft(direction, state.gradient);
    if (full && left < enough) return { coefficients, likelihood: state.likelihood, steps: step, lower };
    // a matrix that no longer takes off most of what is left has been outrun by the coefficients
    if (!full || left > leftBefore / 4) {
      full = full || left < 20;
      lower = factor(informationAt(design, coefficients, full ? 1 : 16), coefficients.length);
      direction = solve(lower, state.gradient);
      left = likelihoodLeft(direction, state.gradient);
    }
    leftBefore = left;
    for (let length = 1; ; length /= 2) {
      const tried = coefficients.map((b, i) => b + length * direction[i]!);
      const there = gradientAt(design, tried);
      if (there.likelihood < state.likelihood && length > 1e-3) continue;
      coefficients = tried;
      state = there;
      break;
    }
  }
  throw new Error('Expected points: the fit did not settle in 80 steps.');
}

/** Half the square of the Newton decrement: about how much likelihood is still to be won. */
function likelihoodLeft(direction: Float64Array, gradient: Float64Array): number {
  return direction.reduce((sum, d, i) => sum + d * gradient[i]!, 0) / 2;
}

/** The probabilities of all outcomes, play after play. */
export function probabilitiesOf(design: Design, coefficients: Float64Array): Float64Array {
  const width = design.terms.length;
  const all = new Float64Array(design.count * OUTCOMES.length);
  for (let i = 0; i < design.count; i++)
    softmax(
      design.rows.subarray(i * width, (i + 1) * width),
      coefficients,
      all.subarray(i * OUTCOMES.length, (i + 1) * OUTCOMES.length),
    );
  return all;
}
