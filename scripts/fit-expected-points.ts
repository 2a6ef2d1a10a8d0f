/**
 * Fits the expected-points model from the open training plays and writes its coefficients.
 * `npx tsx scripts/fit-expected-points.ts [folder of the data] [--check]`; with --check nothing is written.
 * It first fits the two reference forms that stand beside the data, to show that it reproduces their numbers.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { OUTCOMES, POINTS } from '../football/expected-points/form.ts';
import { expectedPointsOf, type StoredModel } from '../football/expected-points/model.ts';
import { calibrationError, correlation } from './expected-points/calibration.ts';
import { designOf, type Fit, fitMultinomial, probabilitiesOf } from './expected-points/newton.ts';
import { type EpPlay, readLeaguePoints, readSheet, readTrainingPlays } from './expected-points/read.ts';

const here = path.dirname(fileURLToPath(import.meta.url));
const folder = process.argv.slice(2).find((a) => !a.startsWith('--')) ?? path.join(here, '../../shared/data');
const target = path.join(here, '../football/expected-points/coefficients.json');
const CLASSES = OUTCOMES.length - 1;

/** The reference form v2, and what it lacked: how spot and fourth down change with the clock, and the years. */
const MORE_TERMS = [
  'hs30',
  'hs600',
  'x*hs1800',
  'x*hs600',
  'x2*hs120',
  'hs120*d2',
  'hs120*d3',
  'hs120*d4',
  'x*d4*hs120',
  'era',
];

function stored(terms: readonly string[], fit: Fit): StoredModel {
  const rows = terms.map((term, t) => {
    const values = Array.from(fit.coefficients.subarray(t * CLASSES, (t + 1) * CLASSES));
    return [term, values.map((v) => Number(v.toFixed(6)))] as const;
  });
  return { terms, coefficients: Object.fromEntries(rows) };
}

/** Fits a reference form and says how far its probabilities are from those of the stored coefficients. */
function compareReference(plays: readonly EpPlay[], name: string): void {
  const reference = JSON.parse(
    readFileSync(path.join(folder, `ep_multinomial_${name}.json`), 'utf8'),
  ) as StoredModel;
  const fit = fitMultinomial(designOf(plays, reference.terms));
  const ours = expectedPointsOf(stored(reference.terms, fit));
  const theirs = expectedPointsOf(reference);
  let furthest = 0;
  let furthestPoints = 0;
  for (const { at } of plays) {
    const a = ours(at);
    const b = theirs(at);
    furthestPoints = Math.max(furthestPoints, Math.abs(a.ep - b.ep));
    for (const o of OUTCOMES)
      furthest = Math.max(furthest, Math.abs(a.probabilities[o] - b.probabilities[o]));
  }
  console.log(
    `${name}: ${fit.steps} steps, log likelihood ${fit.likelihood.toFixed(1)}; furthest from the reference over ` +
      `${plays.length} plays: ${furthest.toFixed(5)} in a probability, ${furthestPoints.toFixed(4)} in points`,
  );
}

const plays = readTrainingPlays(path.join(folder, 'ep_training_2009_2014.csv.gz'));
for (const name of ['v1', 'v2']) compareReference(plays, name);

const base = JSON.parse(readFileSync(path.join(folder, 'ep_multinomial_v2.json'), 'utf8')) as StoredModel;
const terms = [...base.terms, ...MORE_TERMS];
const fit = fitMultinomial(designOf(plays, terms));
const model = stored(terms, fit);
console.log(`ours: ${fit.steps} steps, log likelihood ${fit.likelihood.toFixed(1)}`);

const seasons = [...new Set(plays.map((p) => p.at.season))].sort();
const heldOut = new Float64Array(plays.length * OUTCOMES.length);
const bySeason: Record<string, { calibrationError: number; biasPoints: number }> = {};
for (const season of seasons) {
  const without = fitMultinomial(
    designOf(
      plays.filter((p) => p.at.season !== season),
      terms,
    ),
    fit,
    1e-3,
  );
  const indices = plays.flatMap((p, i) => (p.at.season === season ? [i] : []));
  const part = indices.map((i) => plays[i]!);
  const probabilities = probabilitiesOf(designOf(part, terms), without.coefficients);
  let bias = 0;
  indices.forEach((i, row) => {
    const p = probabilities.subarray(row * OUTCOMES.length, (row + 1) * OUTCOMES.length);
    heldOut.set(p, i * OUTCOMES.length);
    bias += p.reduce((sum, v, c) => sum + v * POINTS[c]!, 0) - POINTS[plays[i]!.outcome]!;
  });
  bySeason[season] = {
    calibrationError: rounded(
      calibrationError(
        probabilities,
        part.map((p) => p.outcome),
      ),
    ),
    biasPoints: rounded(bias / part.length),
  };
  console.log(`without ${season}:`, bySeason[season]);
}

const league = readLeaguePoints(path.join(folder, 'bdb2025_2022_plays.csv.gz'));
const ep = expectedPointsOf(model);
const at2022 = compare(league.map((p) => [ep(p.at).ep, p.points]));
const at2014 = compare(league.map((p) => [ep({ ...p.at, season: 2014 }).ep, p.points]));
const table = compare(
  readSheet(path.join(folder, 'ep_published_nflfastR_2_1_0_table.csv')).map((row) => [
    ep({
      down: Number(row.down),
      distance: Number(row.ydstogo),
      yardsToGoal: Number(row.yardline_100),
      halfSecondsRemaining: 900,
    }).ep,
    Number(row.ep),
  ]),
);

const calibration = {
  method:
    'each season predicted by a fit on the other five; predictions rounded to steps of 0.05, compared with what happened, averaged over plays and then over outcomes by their number',
  plays: plays.length,
  calibrationError: rounded(
    calibrationError(
      heldOut,
      plays.map((p) => p.outcome),
    ),
  ),
  bySeason,
  league2022: { plays: league.length, withSeason: at2022, withoutSeason: at2014 },
  publishedTable: table,
};
console.log(JSON.stringify(calibration, null, 2));

function rounded(value: number): number {
  return Number(value.toFixed(4));
}

function compare(pairs: readonly (readonly [number, number])[]): { correlation: number; biasPoints: number } {
  const bias = pairs.reduce((sum, [a, b]) => sum + a - b, 0) / pairs.length;
  return {
    correlation: rounded(
      correlation(
        pairs.map((p) => p[0]),
        pairs.map((p) => p[1]),
      ),
    ),
    biasPoints: rounded(bias),
  };
}

if (process.argv.includes('--check')) {
  const before = JSON.parse(readFileSync(target, 'utf8')) as StoredModel;
  const same = JSON.stringify(before.coefficients) === JSON.stringify(model.coefficients);
  console.log(same ? 'the stored coefficients are these' : 'the stored coefficients differ');
  process.exitCode = same ? 0 : 1;
} else {
  const file = {
    model: 'multinomial logit over the next score in the half; no_score is the reference',
    outcomes: OUTCOMES,
    points: POINTS,
    fittedOn: 'professional regular seasons 2009 to 2014, 228,935 plays, from open game records',
    calibration,
    ...model,
  };
  writeFileSync(target, asFormatted(JSON.stringify(file, null, 2)));
  console.log(`written: ${path.relative(process.cwd(), target)}`);
}

/** Short lists on one line, as the repository's formatter writes them. */
function asFormatted(json: string): string {
  const short = json.replace(/\[\n[^[\]{}]*\n\s*\]/g, (list) => {
    const line = list
      .replace(/\s*\n\s*/g, ' ')
      .replace('[ ', '[')
      .replace(' ]', ']');
    return line.length <= 80 ? line : list;
  });
  return `${short}\n`;
}
