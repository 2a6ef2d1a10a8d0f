/**
 * A frame made small: what finding cuts and plays works on. Grey levels only; the picture is squeezed to one size
 * whatever its shape, because nothing here measures angles or distances.
 */
export const SMALL = { width: 160, height: 90 } as const;
export const HALF = { width: 80, height: 45 } as const;
export const QUARTER = { width: 40, height: 22 } as const;
const HISTOGRAM_BINS = 32;

/** Bytes of one frame as it comes from a decoder: SMALL.width x SMALL.height grey levels, row by row. */
export const SMALL_BYTES = SMALL.width * SMALL.height;

export interface SmallPicture {
  readonly full: Uint8Array;
  /** means of 2 x 2 of `full` */
  readonly half: Float32Array;
  /** means of 2 x 2 of `half`, the mean of the surroundings taken off: lines and people without light and shade */
  readonly detail: Float32Array;
  /** means of 2 x 2 of `detail` */
  readonly coarse: Float32Array;
  /** share of `half` in each of 32 bands of grey */
  readonly histogram: Float32Array;
  readonly mean: number;
  readonly deviation: number;
}

export function smallPicture(full: Uint8Array): SmallPicture {
  const half = new Float32Array(HALF.width * HALF.height);
  const histogram = new Float32Array(HISTOGRAM_BINS);
  let sum = 0;
  let squares = 0;
  for (let y = 0; y < HALF.height; y++) {
    let at = 2 * y * SMALL.width;
    const row = y * HALF.width;
    for (let x = 0; x < HALF.width; x++, at += 2) {
      const value =
        (full[at]! + full[at + 1]! + full[at + SMALL.width]! + full[at + SMALL.width + 1]!) * 0.25;
      half[row + x] = value;
      sum += value;
      squares += value * value;
      histogram[Math.min(HISTOGRAM_BINS - 1, value >> 3)]! += 1;
    }
  }
  const mean = sum / half.length;
  for (let i = 0; i < HISTOGRAM_BINS; i++) histogram[i]! /= half.length;
  const deviation = Math.sqrt(Math.max(0, squares / half.length - mean * mean));
  const detail = detailOf(half);
  return { full, half, detail, coarse: coarseOf(detail), histogram, mean, deviation };
}

function quarterOf(half: Float32Array): Float32Array {
  const quarter = new Float32Array(QUARTER.width * QUARTER.height);
  for (let y = 0; y < QUARTER.height; y++) {
    for (let x = 0; x < QUARTER.width; x++) {
      const at = 2 * y * HALF.width + 2 * x;
      quarter[y * QUARTER.width + x] =
        (half[at]! + half[at + 1]! + half[at + HALF.width]! + half[at + HALF.width + 1]!) * 0.25;
    }
  }
  return quarter;
}

function coarseOf(detail: Float32Array): Float32Array {
  const width = QUARTER.width / 2;
  const height = QUARTER.height / 2;
  const coarse = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const at = 2 * y * QUARTER.width + 2 * x;
      coarse[y * width + x] =
        (detail[at]! + detail[at + 1]! + detail[at + QUARTER.width]! + detail[at + QUARTER.width + 1]!) *
        0.25;
    }
  }
  return coarse;
}

const REACH = 3;

function detailOf(half: Float32Array): Float32Array {
  const quarter = quarterOf(half);
  const { width, height } = QUARTER;
  const across = new Float32Array(quarter.length);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const from = Math.max(0, x - REACH);
      const to = Math.min(width - 1, x + REACH);
      let sum = 0;
      for (let i = from; i <= to; i++) sum += quarter[y * width + i]!;
      across[y * width + x] = sum / (to - from + 1);
    }
  }
  const detail = new Float32Array(quarter.length);
  for (let y = 0; y < height; y++) {
    const from = Math.max(0, y - REACH);
    const to = Math.min(height - 1, y + REACH);
    for (let x = 0; x < width; x++) {
      let sum = 0;
      for (let i = from; i <= to; i++) sum += across[i * width + x]!;
      detail[y * width + x] = quarter[y * width + x]! - sum / (to - from + 1);
    }
  }
  return detail;
}

/** Mean difference of two pictures in grey levels, light and contrast evened out. */
export function evenedDifference(a: SmallPicture, b: SmallPicture): number {
  const gain = Math.min(2, Math.max(0.5, (a.deviation + 2) / (b.deviation + 2)));
  const offset = a.mean - gain * b.mean;
  let sum = 0;
  for (let i = 0; i < a.half.length; i++) sum += Math.abs(a.half[i]! - gain * b.half[i]! - offset);
  return sum / a.half.length;
}

/** Mean difference of two pictures' details, grey levels: hardly moved by light. */
export function detailDifference(a: SmallPicture, b: SmallPicture): number {
  let sum = 0;
  for (let i = 0; i < a.detail.length; i++) sum += Math.abs(a.detail[i]! - b.detail[i]!);
  return sum / a.detail.length;
}

/** Half the sum of differences of two histograms, 0..1. */
export function histogramDifference(a: SmallPicture, b: SmallPicture): number {
  let sum = 0;
  for (let i = 0; i < HISTOGRAM_BINS; i++) sum += Math.abs(a.histogram[i]! - b.histogram[i]!);
  return sum / 2;
}
