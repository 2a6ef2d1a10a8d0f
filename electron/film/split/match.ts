import { HALF, QUARTER, type SmallPicture } from './small-picture.ts';

/** How well one picture is explained as another one, moved. */
export interface Match {
  /** correlation of details after the best shift and zoom of the whole picture, -1..1 */
  readonly whole: number;
  /** mean over the parts of the picture, each moved for itself, weighted by how much there is to see in them, 0..1 */
  readonly parts: number;
  /** share of what there is to see that is found again almost unchanged, 0..1 */
  readonly kept: number;
  /** length of the best shift of the whole, shares of the picture's width */
  readonly shift: number;
  /** mean difference of details after the best shift and zoom, grey levels: people who stand elsewhere */
  readonly residual: number;
  /** of each part of the picture, what is not found again, 0..1, and how much there is to see in it */
  readonly lostParts: Float32Array;
  readonly weights: Float32Array;
}

const ZOOMS = [1, 0.93, 1.07] as const;
const COARSE = { width: QUARTER.width / 2, height: QUARTER.height / 2 } as const;
const SHIFT_X = 9;
const SHIFT_Y = 4;

interface Shift {
  readonly dx: number;
  readonly dy: number;
  readonly zoom: number;
  readonly score: number;
}

function zoomed(
  from: Float32Array,
  zoom: number,
  { width, height }: { width: number; height: number },
): Float32Array {
  if (zoom === 1) return from;
  const out = new Float32Array(from.length);
  for (let y = 0; y < height; y++) {
    const sy = Math.min(height - 1, Math.max(0, Math.round((y - height / 2) * zoom + height / 2)));
    for (let x = 0; x < width; x++) {
      const sx = Math.min(width - 1, Math.max(0, Math.round((x - width / 2) * zoom + width / 2)));
      out[y * width + x] = from[sy * width + sx]!;
    }
  }
  return out;
}

/** Correlation of b(x, y) with a(x + dx, y + dy) where they overlap. */
function overlap(
  a: Float32Array,
  b: Float32Array,
  dx: number,
  dy: number,
  width: number,
  height: number,
): number {
  const x0 = Math.max(0, -dx);
  const x1 = Math.min(width, width - dx);
  const y0 = Math.max(0, -dy);
  const y1 = Math.min(height, height - dy);
  let both = 0;
  let aa = 0;
  let bb = 0;
  for (let y = y0; y < y1; y++) {
    let i = (y + dy) * width + x0 + dx;
    let j = y * width + x0;
    for (let x = x0; x < x1; x++, i++, j++) {
      const p = a[i]!;
      const q = b[j]!;
      both += p * q;
      aa += p * p;
      bb += q * q;
    }
  }
  // little overlap matches anything: a match counts for more the more of the picture it explains
  const seen = ((x1 - x0) * (y1 - y0)) / (width * height);
  return (both / (Math.sqrt(aa * bb) + 0.4 * width * height * seen + 1e-6)) * (0.55 + 0.45 * seen);
}

/** The shift and zoom of the whole picture: found roughly on a quarter of the points, then to a point. */
function bestShift(a: SmallPicture, b: SmallPicture): Shift {
  const { width, height } = QUARTER;
  let best: Shift = { dx: 0, dy: 0, zoom: 1, score: overlap(a.detail, b.detail, 0, 0, width, height) };
  if (best.score > 0.9) return best;
  let rough = { dx: 0, dy: 0, zoom: 1, score: -1 };
  for (const zoom of ZOOMS) {
    const from = zoomed(a.coarse, zoom, COARSE);
    for (let dy = -SHIFT_Y; dy <= SHIFT_Y; dy++) {
      for (let dx = -SHIFT_X; dx <= SHIFT_X; dx++) {
        const score = overlap(from, b.coarse, dx, dy, COARSE.width, COARSE.height) - (zoom === 1 ? 0 : 0.02);
        if (score > rough.score) rough = { dx, dy, zoom, score };
      }
    }
  }
  const from = zoomed(a.detail, rough.zoom, QUARTER);
  for (let dy = 2 * rough.dy - 1; dy <= 2 * rough.dy + 1; dy++) {
    for (let dx = 2 * rough.dx - 1; dx <= 2 * rough.dx + 1; dx++) {
      const score = overlap(from, b.detail, dx, dy, width, height);
      if (score > best.score) best = { dx, dy, zoom: rough.zoom, score };
    }
  }
  return best;
}

/** Mean difference of details where the pictures overlap after the shift and zoom, grey levels. */
function residualAt(a: SmallPicture, b: SmallPicture, { dx, dy, zoom }: Shift): number {
  const { width, height } = QUARTER;
  const from = zoomed(a.detail, zoom, QUARTER);
  let sum = 0;
  let count = 0;
  for (let y = Math.max(0, -dy); y < Math.min(height, height - dy); y++) {
    for (let x = Math.max(0, -dx); x < Math.min(width, width - dx); x++) {
      sum += Math.abs(from[(y + dy) * width + x + dx]! - b.detail[y * width + x]!);
      count += 1;
    }
  }
  return count > 0 ? sum / count : 0;
}

const PART = { width: 10, height: 9 } as const;
const PART_REACH = 3;
/** Parts that a picture is taken apart into. */
export const PARTS = (HALF.width / PART.width) * (HALF.height / PART.height);
/** variance, in grey levels, that no part is without: grain and coding left after making small */
const FLOOR = 1.5;

/** Correlation of one part of b with a at a shift; parts at the border are cut. */
function partMatch(a: Float32Array, b: Float32Array, bx: number, by: number, dx: number, dy: number): number {
  const { width, height } = HALF;
  const ax = bx + dx;
  const ay = by + dy;
  if (ax < 0 || ay < 0 || ax + PART.width > width || ay + PART.height > height) return -1;
  let sa = 0;
  let sb = 0;
  let aa = 0;
  let bb = 0;
  let both = 0;
  for (let y = 0; y < PART.height; y++) {
    let i = (ay + y) * width + ax;
    let j = (by + y) * width + bx;
    for (let x = 0; x < PART.width; x++, i++, j++) {
      const p = a[i]!;
      const q = b[j]!;
      sa += p;
      sb += q;
      aa += p * p;
      bb += q * q;
      both += p * q;
    }
  }
  const n = PART.width * PART.height;
  const va = Math.max(0, aa / n - (sa / n) ** 2);
  const vb = Math.max(0, bb / n - (sb / n) ** 2);
  return (both / n - (sa * sb) / (n * n)) / (Math.sqrt(va * vb) + FLOOR);
}

function partVariance(a: Float32Array, x0: number, y0: number): number {
  let sum = 0;
  let squares = 0;
  for (let y = 0; y < PART.height; y++) {
    for (let x = 0; x < PART.width; x++) {
      const value = a[(y0 + y) * HALF.width + x0 + x]!;
      sum += value;
      squares += value * value;
    }
  }
  const n = PART.width * PART.height;
  return Math.max(0, squares / n - (sum / n) ** 2);
}

/** How far `b` can be explained as `a` moved: as a whole, and part by part around that. */
export function matchPictures(a: SmallPicture, b: SmallPicture): Match {
  const shift = bestShift(a, b);
  const gx = Math.round(shift.dx * 2);
  const gy = Math.round(shift.dy * 2);
  const lostParts = new Float32Array(PARTS);
  const weightOf = new Float32Array(PARTS);
  let weights = 0;
  let parts = 0;
  let kept = 0;
  let part = -1;
  for (let by = 0; by + PART.height <= HALF.height; by += PART.height) {
    for (let bx = 0; bx + PART.width <= HALF.width; bx += PART.width) {
      part += 1;
      const variance = Math.max(partVariance(b.half, bx, by), partVariance(a.half, bx, by));
      // what stands out counts, but a scoreboard in black and white no more than lines on turf do
      const weight = variance / (variance + 4 * FLOOR);
      if (weight < 0.05) continue;
      let zx = gx;
      let zy = gy;
      if (shift.zoom !== 1) {
        zx += Math.round((bx + PART.width / 2 - HALF.width / 2) * (shift.zoom - 1));
        zy += Math.round((by + PART.height / 2 - HALF.height / 2) * (shift.zoom - 1));
      }
      let best = partMatch(a.half, b.half, bx, by, 0, 0);
      for (let dy = -PART_REACH; dy <= PART_REACH && best < 0.95; dy++) {
        for (let dx = -PART_REACH; dx <= PART_REACH; dx++) {
          const score = partMatch(a.half, b.half, bx, by, zx + dx, zy + dy);
          if (score > best) best = score;
        }
      }
      lostParts[part] = 1 - Math.max(0, best);
      weightOf[part] = weight;
      weights += weight;
      parts += weight * Math.max(0, best);
      if (best > 0.8) kept += weight;
    }
  }
  return {
    whole: shift.score,
    parts: weights > 0 ? parts / weights : 1,
    kept: weights > 0 ? kept / weights : 1,
    shift: Math.hypot(shift.dx, shift.dy) / QUARTER.width,
    residual: residualAt(a, b, shift),
    lostParts,
    weights: weightOf,
  };
}
