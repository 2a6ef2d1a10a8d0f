/**
 * The form of the model: which numbers of a situation it looks at. A term is a product of named features,
 * written as in `gtg*l`; a model is a list of terms with one coefficient per outcome.
 */

/** The next score of the half as seen by the team with the ball. */
export const OUTCOMES = ['td', 'opp_td', 'fg', 'opp_fg', 'safety', 'opp_safety', 'no_score'] as const;
export type Outcome = (typeof OUTCOMES)[number];

/** What each outcome is worth; a touchdown with its try counts seven. */
export const POINTS = [7, -7, 3, -3, 2, -2, 0] as const;

/** The season that the era feature is measured from: the newest one fitted on. */
export const ERA_SEASON = 2014;

/** A situation from scrimmage in plain numbers. */
export interface EpSituation {
  /** 1..4 */
  readonly down: number;
  /** yards to the line to gain */
  readonly distance: number;
  /** 1..99 */
  readonly yardsToGoal: number;
  /** seconds to the end of the half, 0..1800; null where not known */
  readonly halfSecondsRemaining: number | null;
  /** professional season, which the model's drift of the years is read at; 2014 where missing */
  readonly season?: number;
}

/** The numbers that terms are made of, in the order in which `readFeatures` writes them. */
const FEATURES = [
  'one',
  'hs1800',
  'hs600',
  'hs120',
  'hs30',
  'lt120',
  'x',
  'x2',
  'x3',
  'd2',
  'd3',
  'd4',
  'l',
  'gtg',
  'era',
] as const;

/** Seconds taken where the clock is not known: the middle of a half. */
export const UNKNOWN_HALF_SECONDS = 900;

function readFeatures(at: EpSituation, into: Float64Array): void {
  const seconds = clamp(at.halfSecondsRemaining ?? UNKNOWN_HALF_SECONDS, 0, 1800);
  const distance = Math.max(at.distance, 0.5);
  const yardsToGoal = clamp(at.yardsToGoal, 1, 99);
  const x = yardsToGoal / 100;
  into[0] = 1;
  into[1] = seconds / 1800;
  into[2] = Math.min(seconds, 600) / 600;
  into[3] = Math.min(seconds, 120) / 120;
  into[4] = Math.min(seconds, 30) / 30;
  into[5] = seconds < 120 ? 1 : 0;
  into[6] = x;
  into[7] = x * x;
  into[8] = x * x * x;
  into[9] = at.down === 2 ? 1 : 0;
  into[10] = at.down === 3 ? 1 : 0;
  into[11] = at.down === 4 ? 1 : 0;
  into[12] = Math.log(distance);
  into[13] = distance >= yardsToGoal ? 1 : 0;
  into[14] = ((at.season ?? ERA_SEASON) - ERA_SEASON) / 10;
}

/**
 * Makes the function that writes a situation's terms into a row of numbers. What lies outside the field or
 * the half is drawn in to its edge.
 * @throws where a term names a feature that does not exist
 */
export function compileTerms(terms: readonly string[]): (at: EpSituation, into: Float64Array) => void {
  const parts = terms.map((term) =>
    term.split('*').map((name) => {
      const index = (FEATURES as readonly string[]).indexOf(name);
      if (index < 0) throw new Error(`Expected points: no feature is called ${name}.`);
      return index;
    }),
  );
  const features = new Float64Array(FEATURES.length);
  return (at, into) => {
    readFeatures(at, features);
    for (let t = 0; t < parts.length; t++) {
      const term = parts[t]!;
      let product = features[term[0]!]!;
      for (let i = 1; i < term.length; i++) product *= features[term[i]!]!;
      into[t] = product;
    }
  };
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}

/**
 * The probabilities of the outcomes by a softmax of linear scores; the last outcome's score is 0.
 * @param coefficients term after term, one number per outcome but the last
 */
export function softmax(row: ArrayLike<number>, coefficients: ArrayLike<number>, into: Float64Array): void {
  const classes = OUTCOMES.length - 1;
  let top = 0;
  for (let c = 0; c < classes; c++) {
    let score = 0;
    for (let t = 0; t < row.length; t++) score += row[t]! * coefficients[t * classes + c]!;
    into[c] = score;
    if (score > top) top = score;
  }
  into[classes] = 0;
  let total = 0;
  for (let c = 0; c <= classes; c++) {
    into[c] = Math.exp(into[c]! - top);
    total += into[c]!;
  }
  for (let c = 0; c <= classes; c++) into[c] = into[c]! / total;
}
