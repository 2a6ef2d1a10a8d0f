import coefficients from './coefficients.json' with { type: 'json' };
import { compileTerms, type EpSituation, OUTCOMES, type Outcome, POINTS, softmax } from './form.ts';

export type { EpSituation, Outcome } from './form.ts';

export interface ExpectedPoints {
  /** expected net points of the next score in the half, for the team with the ball */
  readonly ep: number;
  /** of each kind of next score in the half; together 1 */
  readonly probabilities: Readonly<Record<Outcome, number>>;
}

/** A model as it is stored: terms, and for each its coefficients of all outcomes but `no_score`. */
export interface StoredModel {
  readonly terms: readonly string[];
  readonly coefficients: Readonly<Record<string, readonly number[]>>;
}

/** What is said wherever a number of this model is shown. */
export const EXPECTED_POINTS_CAUTION =
  'Fitted on professional games of 2009 to 2014; for college and high school a yardstick, not a promise. It knows down, distance, spot and time, and nothing of the teams or the score.';

/** How well the shipped model predicted plays it was not fitted on. */
export const EXPECTED_POINTS_CALIBRATION = coefficients.calibration;

interface Evaluator {
  /** fills the probabilities and gives the points; the array is used again at the next call */
  readonly evaluate: (at: EpSituation) => number;
  readonly probabilities: Float64Array;
}

function evaluatorOf(model: StoredModel): Evaluator {
  const write = compileTerms(model.terms);
  const row = new Float64Array(model.terms.length);
  const betas = Float64Array.from(
    model.terms.flatMap((term) => (model.coefficients[term] ?? []).slice(0, OUTCOMES.length - 1)),
  );
  if (betas.length !== model.terms.length * (OUTCOMES.length - 1))
    throw new Error('Expected points: a term has no coefficients.');
  const p = new Float64Array(OUTCOMES.length);
  const evaluate = (at: EpSituation): number => {
    write(at, row);
    softmax(row, betas, p);
    let ep = 0;
    for (let c = 0; c < p.length; c++) ep += p[c]! * POINTS[c]!;
    return ep;
  };
  return { evaluate, probabilities: p };
}

/** Makes the function of a stored model. It is total: what lies outside the field is drawn in to its edge. */
export function expectedPointsOf(model: StoredModel): (at: EpSituation) => ExpectedPoints {
  const { evaluate, probabilities: p } = evaluatorOf(model);
  return (at) => {
    const ep = evaluate(at);
    const probabilities = Object.fromEntries(OUTCOMES.map((name, c) => [name, p[c]])) as Record<
      Outcome,
      number
    >;
    return { ep, probabilities };
  };
}

/** Expected points of a situation from scrimmage by the model that ships with Tapebook. */
export const expectedPoints: (at: EpSituation) => ExpectedPoints = expectedPointsOf(coefficients);

/** The same without the probabilities, for counting over many plays. */
export const expectedPointsValue: (at: EpSituation) => number = evaluatorOf(coefficients).evaluate;
