import { type Match, matchPictures, PARTS } from './match.ts';
import {
  detailDifference,
  evenedDifference,
  histogramDifference,
  type SmallPicture,
} from './small-picture.ts';

/** Frames on both sides of a possible cut that are looked at. */
export const CUT_REACH = 8;

/** Differences of each frame from the one before it: cheap, for every frame. */
export interface Step {
  /** grey levels, light evened out, at 80 x 45 */
  readonly evened: number;
  /** grey levels of details at 40 x 22 */
  readonly detail: number;
  readonly histogram: number;
}

export function stepBetween(a: SmallPicture, b: SmallPicture): Step {
  return {
    evened: evenedDifference(a, b),
    detail: detailDifference(a, b),
    histogram: histogramDifference(a, b),
  };
}

/** Gives the frame `offset` frames after the first one of the possible new shot; nearest one where the film ends. */
export interface Around {
  picture(offset: number): SmallPicture;
  step(offset: number): Step;
}

function high(values: readonly number[], place: number): number {
  return [...values].sort((a, b) => b - a)[place] ?? 0;
}

/**
 * Whether a frame is worth a closer look: it differs from the one before more than most frames around it do. Nearly
 * every hard cut is; a few frames in a hundred are.
 */
export function maybeCut(around: Around): boolean {
  const here = around.step(0);
  const others: number[] = [];
  const details: number[] = [];
  for (let k = 1; k <= 5; k++) {
    others.push(around.step(-k).evened, around.step(k).evened);
    details.push(around.step(-k).detail, around.step(k).detail);
  }
  if (here.evened < 0.12 && here.detail < 0.12) return false;
  // a cut stands out from the frames beside it, and is no lower than either of them
  const besideEvened = Math.max(around.step(-1).evened, around.step(1).evened);
  const besideDetail = Math.max(around.step(-1).detail, around.step(1).detail);
  return (
    (here.evened > 1.3 * high(others, 5) && here.evened > 0.95 * besideEvened) ||
    (here.detail > 1.25 * high(details, 5) && here.detail > 0.95 * besideDetail)
  );
}

/**
 * How alike two views may be differs from staff to staff; so a cut is told by comparison with the frames about it, never by
 * how alike the pictures are as such.
 */
export const CUT_FEATURES = [
  'parts against before',
  'parts against after',
  'whole against before',
  'whole against after',
  'evened',
  'evened against before',
  'evened against after',
  'detail against before',
  'detail against after',
  'histogram',
  'histogram against around',
  'light',
  'shift around',
  'contrast',
  'shift',
  'shift beyond around',
  'residual',
  'residual against before',
  'residual against after',
  'residual return',
  'kept against around',
  'parts return against parts',
  'whole return against whole',
  'least changed quarter',
  'middle part',
  'most changed quarter',
] as const;

/** A possible cut that the closer look clears at once: the picture goes on. */
const GOES_ON = { parts: 0.8, whole: 0.6 } as const;

const lost = (share: number) => Math.log(Math.max(0, 1 - share) + 0.03);
const ratio = (a: number, b: number, floor: number) => Math.log((a + floor) / (b + floor));

type Explained = Pick<Match, 'parts' | 'whole' | 'residual'>;

/** A picture that is explained by the one before as well as its neighbours are is in the middle of a movement. */
function noWorse(here: Explained, before: Explained, after: Explained): boolean {
  const worse = (of: (match: Explained) => number) => of(here) - Math.max(of(before), of(after));
  return (
    worse((m) => lost(m.parts)) < 0 &&
    worse((m) => lost(m.whole)) < 0 &&
    worse((m) => Math.log(m.residual + 0.15)) < 0
  );
}

/** Pairs of frames across the possible cut: where any two are alike, what lay between was a flash or something passing. */
const ACROSS: readonly (readonly [number, number])[] = [
  [-1, 2],
  [-1, 4],
  [-1, 6],
  [-3, 0],
  [-5, 0],
  [-7, 0],
  [-3, 2],
  [-5, 3],
];

/**
 * The features of a possible cut between frame -1 and frame 0, or null where the picture plainly goes on.
 */
export function cutFeatures(around: Around): Float64Array | null {
  const here = around.step(0);
  const match = matchPictures(around.picture(-1), around.picture(0));
  if (match.parts > GOES_ON.parts && match.whole > GOES_ON.whole) return null;
  const side = (offsets: readonly number[]): Omit<Match, 'weights'> => {
    let parts = 1;
    let whole = 1;
    let shift = 0;
    let kept = 1;
    let residual = 0;
    const lostParts = new Float32Array(PARTS);
    for (const offset of offsets) {
      // frames that hardly differ need no search
      if (around.step(offset).evened < 0.3) {
        residual = Math.max(residual, around.step(offset).detail);
        continue;
      }
      const found = matchPictures(around.picture(offset - 1), around.picture(offset));
      parts = Math.min(parts, found.parts);
      whole = Math.min(whole, found.whole);
      kept = Math.min(kept, found.kept);
      shift = Math.max(shift, found.shift);
      residual = Math.max(residual, found.residual);
      for (let i = 0; i < PARTS; i++) lostParts[i] = Math.max(lostParts[i]!, found.lostParts[i]!);
    }
    return { parts, whole, kept, shift, residual, lostParts };
  };
  const before = side([-3, -2, -1]);
  const after = side([1, 2, 3]);
  if (noWorse(match, before, after)) return null;
  const back = { parts: 0, whole: -1, residual: Number.POSITIVE_INFINITY };
  for (const [a, b] of ACROSS) {
    const found = matchPictures(around.picture(a), around.picture(b));
    back.parts = Math.max(back.parts, found.parts);
    back.whole = Math.max(back.whole, found.whole);
    back.residual = Math.min(back.residual, found.residual);
  }
  const steps = (from: number, to: number, of: keyof Step) => {
    const values: number[] = [];
    for (let k = from; k <= to; k++) values.push(around.step(k)[of]);
    return high(values, 0);
  };
  const a = around.picture(-1);
  const b = around.picture(0);
  return Float64Array.from([
    lost(match.parts) - lost(before.parts),
    lost(match.parts) - lost(after.parts),
    lost(match.whole) - lost(before.whole),
    lost(match.whole) - lost(after.whole),
    Math.log(here.evened + 0.2),
    ratio(here.evened, steps(-5, -1, 'evened'), 0.2),
    ratio(here.evened, steps(1, 5, 'evened'), 0.2),
    ratio(here.detail, steps(-5, -1, 'detail'), 0.15),
    ratio(here.detail, steps(1, 5, 'detail'), 0.15),
    Math.log(here.histogram + 0.01),
    ratio(here.histogram, Math.max(steps(-5, -1, 'histogram'), steps(1, 5, 'histogram')), 0.01),
    Math.abs(a.mean - b.mean) / 20,
    Math.max(before.shift, after.shift),
    Math.log((Math.min(a.deviation, b.deviation) + 1) / 20),
    match.shift,
    match.shift - Math.max(before.shift, after.shift),
    Math.log(match.residual + 0.15),
    ratio(match.residual, before.residual, 0.15),
    ratio(match.residual, after.residual, 0.15),
    ratio(back.residual, match.residual, 0.15),
    match.kept - Math.min(before.kept, after.kept),
    lost(back.parts) - lost(match.parts),
    lost(back.whole) - lost(match.whole),
    ...changedShares(match, before.lostParts, after.lostParts),
  ]);
}

/**
 * By how much the parts of the picture are worse explained than beside the possible cut: at a quarter, at the half and at three quarters of
 * what there is to see. A scoreboard that comes up changes some parts wholly and leaves the others; a cut changes all.
 */
function changedShares(match: Match, before: Float32Array, after: Float32Array): number[] {
  const parts = Array.from(match.lostParts, (gone, i) => ({
    worse: Math.log((gone + 0.03) / (Math.max(before[i]!, after[i]!) + 0.03)),
    weight: match.weights[i]!,
  })).sort((a, b) => a.worse - b.worse);
  const all = parts.reduce((sum, { weight }) => sum + weight, 0);
  return [0.25, 0.5, 0.75].map((share) => {
    let seen = 0;
    for (const { worse, weight } of parts) {
      seen += weight;
      if (seen >= share * all) return worse;
    }
    return 0;
  });
}
