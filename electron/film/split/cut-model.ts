import type { Candidate } from './cut-finder.ts';
import model from './cut-model.json' with { type: 'json' };

/** Two cuts are never this near to each other: the likelier one stands. */
const APART_FRAMES = 5;

/**
 * The log odds that a possible cut is one: eight units over the features, weighed together. The weights are fitted by
 * scripts/fit-cut-model.ts on made film.
 */
function cutScore(features: ArrayLike<number>): number {
  // film unlike any the weights were fitted to must not be decided by one wild number
  const evened = model.means.map((mean, i) =>
    Math.max(-4, Math.min(4, (features[i]! - mean) / model.deviations[i]!)),
  );
  return model.units.reduce((score, { weights, bias, weight }) => {
    const sum = weights.reduce((total, w, i) => total + w * evened[i]!, bias);
    return score + weight * Math.tanh(sum);
  }, model.bias);
}

/** The cuts among the candidates: frames, each the first of a new shot, ascending. */
export function chooseCuts(candidates: readonly Candidate[], threshold: number = model.threshold): number[] {
  const likely = candidates
    .map(({ frame, features }) => ({ frame, score: cutScore(features) }))
    .filter(({ score }) => score > threshold)
    .sort((a, b) => b.score - a.score);
  const chosen: number[] = [];
  for (const { frame } of likely) {
    if (!chosen.some((other) => Math.abs(other - frame) <= APART_FRAMES)) chosen.push(frame);
  }
  return chosen.sort((a, b) => a - b);
}
