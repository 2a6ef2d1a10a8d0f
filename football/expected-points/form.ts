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

const FEATURES: Readonly<Record<string, (at: Required<EpSituation>, seconds: number) => number>> = {
  one: () => 1,
  hs1800: (_, s) => s / 1800,
  hs600: (_, s) => Math.min(s, 600) / 600,
  hs120: (_, s) => Math.min(s, 120) / 120,
  hs30: (_, s) => Math.min(s, 30) / 30,
  lt120: (_, s) => Number(s < 120),
  x: (at) => at.yardsToGoal / 100,
  x2: (at) => (at.yardsToGoal / 100) ** 2,
  x3: (at) => (at.yardsToGoal / 100) ** 3,
  d2: (at) => Number(at.down === 2),
  d3: (at) => Number(at.down === 3),
  d4: (at) => Number(at.down === 4),
  l: (at) => Math.log(at.distance),
  gtg: (at) => Number(at.distance >= at.yardsToGoal),
  era: (at) => (at.season - ERA_SEASON) / 10,
};

/** Seconds taken where the clock is not known: the middle of a half. */
export const UNKNOWN_HALF_SECONDS = 900;

/**
 * Makes the function that writes a situation's terms into a row of numbers.
 * @throws where a term names a feature that does not exist
 */
export function compileTerms(terms: readonly string[]): (at: EpSituation, into: Float64Array) => void {
  const names = [...new Set(terms.flatMap((t) => t.split('*')))];
  const features = names.map((name) => {
    const feature = FEATURES[name];
    if (!feature) throw new Error(`Expected points: no feature is called ${name}.`);
    return feature;
  });
  const parts = terms.map((t) => t.split('*').map((name) => names.indexOf(name)));
  const values = new Float64Array(names.length);
  return (given, into) => {
    const seconds = clamp(given.halfSecondsRemaining ?? UNKNOWN_HALF_SECONDS, 0, 1800);
    const at = {
      ...given,
      season: given.season ?? ERA_SEASON,
      distance: Math.max(given.distance, 0.5),
      yardsToGoal: clamp(given.yardsToGoal, 1, 99),
    };
    for (let i = 0; i < features.length; i++) values[i] = features[i]!(at, seconds);
    for (let i = 0; i < parts.length; i++) {
      let product = 1;
      for (const part of parts[i]!) product *= values[part]!;
      into[i] = product;
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
