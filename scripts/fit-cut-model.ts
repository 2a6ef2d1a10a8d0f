import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { CUT_FEATURES } from '../electron/film/split/cut-features.ts';
import type { Candidate } from '../electron/film/split/cut-finder.ts';
import { readSmall } from '../electron/film/split/read-small.ts';
import { Splitter } from '../electron/film/split/splitter.ts';
import { type Random, seeded } from '../sample-clips/generator/random.ts';
import { makeMadeFilm, ratePerSecond } from '../test/fixtures/made-film/make.ts';
import { trainingPlans } from '../test/fixtures/made-film/plans.ts';
import { tools } from '../test/fixtures/numbered-film.ts';

/**
 * Fits the weights with which possible cuts are told from other changes, and writes electron/film/split/cut-model.json:
 * `npx tsx scripts/fit-cut-model.ts`. It draws film from the training seeds in test/fixtures/made-film/plans.ts and
 * looks at nothing else; what the weights are worth is measured on other film (test/bench/split.bench.ts).
 */
const UNITS = 8;
const RIDGE = 1e-3;
const ROUNDS = 60;
const BATCH = 64;
const SPEED = 0.004;
const MISS_COST = 2;
const NET_SEED = 7;
/** log odds from which a possible cut is taken for one */
const THRESHOLD = -0.8;

interface Row {
  readonly features: Float64Array;
  readonly cut: 0 | 1;
}

async function rows(): Promise<Row[]> {
  const folder = mkdtempSync(join(tmpdir(), 'tapebook-fit-'));
  const all: Row[] = [];
  try {
    for (const plan of trainingPlans()) {
      const { path, cuts } = await makeMadeFilm(plan, join(folder, 'film.mkv'));
      const splitter = new Splitter(ratePerSecond(plan.rate));
      await readSmall({ path, tools, timeLimitMs: 600_000, onFrame: (full) => splitter.push(full) });
      splitter.finish();
      all.push(...rowsOf(splitter.evidence, cuts));
      console.log(`${plan.name}: ${splitter.evidence.length} possible cuts, ${cuts.length} cuts`);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return all;
}

function rowsOf(candidates: readonly Candidate[], cuts: readonly number[]): Row[] {
  return candidates.flatMap(({ frame, features }): Row[] => {
    if (cuts.includes(frame)) return [{ features, cut: 1 }];
    // a frame beside a cut is neither
    return cuts.some((cut) => Math.abs(cut - frame) <= 1) ? [] : [{ features, cut: 0 }];
  });
}

/** A small net (one layer of eight units) fitted by Adam; a cut that is missed costs twice what a false one does. */
function fit(data: readonly Row[]) {
  const size = CUT_FEATURES.length;
  const means = CUT_FEATURES.map((_, i) => mean(data.map(({ features }) => features[i]!)));
  const deviations = CUT_FEATURES.map(
    (_, i) => Math.sqrt(mean(data.map(({ features }) => (features[i]! - means[i]!) ** 2))) || 1,
  );
  const evened = data.map(({ features }) =>
    Float64Array.from(features, (v, i) => Math.max(-4, Math.min(4, (v - means[i]!) / deviations[i]!))),
  );
  const random = seeded(NET_SEED);
  const wide = size + 2;
  // of each unit its weights, its bias, its weight in the sum; then the bias of the sum
  const net = Float64Array.from({ length: UNITS * wide + 1 }, () => (random() - 0.5) * 0.5);
  const slope = new Float64Array(net.length);
  const first = new Float64Array(net.length);
  const second = new Float64Array(net.length);
  const out = new Float64Array(UNITS);
  const order = data.map((_, n) => n);
  let step = 0;
  for (let round = 0; round < ROUNDS; round++) {
    shuffle(order, random);
    for (let from = 0; from < order.length; from += BATCH) {
      const batch = order.slice(from, from + BATCH);
      slope.fill(0);
      for (const n of batch) addSlope(net, evened[n]!, data[n]!.cut, batch.length, slope, out);
      step += 1;
      for (let i = 0; i < net.length; i++) {
        const g = slope[i]! + RIDGE * net[i]!;
        first[i] = 0.9 * first[i]! + 0.1 * g;
        second[i] = 0.999 * second[i]! + 0.001 * g * g;
        const rate = SPEED * (1 - round / ROUNDS);
        net[i]! -=
          (rate * (first[i]! / (1 - 0.9 ** step))) / (Math.sqrt(second[i]! / (1 - 0.999 ** step)) + 1e-8);
      }
    }
  }
  const short = (value: number) => Number(value.toFixed(4));
  return {
    features: CUT_FEATURES,
    means: means.map(short),
    deviations: deviations.map(short),
    units: Array.from({ length: UNITS }, (_, unit) => {
      const at = unit * wide;
      return {
        weights: Array.from(net.subarray(at, at + size), short),
        bias: short(net[at + size]!),
        weight: short(net[at + size + 1]!),
      };
    }),
    bias: short(net.at(-1)!),
    threshold: THRESHOLD,
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function shuffle(order: number[], random: Random): void {
  for (let i = order.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
}

/** Adds one row's share of the slope of the loss. */
function addSlope(
  net: Float64Array,
  row: Float64Array,
  cut: 0 | 1,
  rows: number,
  slope: Float64Array,
  out: Float64Array,
): void {
  const wide = row.length + 2;
  let z = net.at(-1)!;
  for (let unit = 0; unit < UNITS; unit++) {
    const at = unit * wide;
    let sum = net[at + row.length]!;
    for (let i = 0; i < row.length; i++) sum += net[at + i]! * row[i]!;
    out[unit] = Math.tanh(sum);
    z += net[at + row.length + 1]! * out[unit]!;
  }
  const error = ((1 / (1 + Math.exp(-z)) - cut) * (cut ? MISS_COST : 1)) / rows;
  slope[slope.length - 1]! += error;
  for (let unit = 0; unit < UNITS; unit++) {
    const at = unit * wide;
    slope[at + row.length + 1]! += error * out[unit]!;
    const back = error * net[at + row.length + 1]! * (1 - out[unit]! ** 2);
    slope[at + row.length]! += back;
    for (let i = 0; i < row.length; i++) slope[at + i]! += back * row[i]!;
  }
}

const data = await rows();
const model = fit(data);
const target = new URL('../electron/film/split/cut-model.json', import.meta.url);
writeFileSync(target, `${JSON.stringify(model, null, 2)}\n`);
console.log(`${data.length} possible cuts of ${trainingPlans().length} films; written.`);
