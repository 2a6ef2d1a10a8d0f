import { SMALL } from './small-picture.ts';

/** How much moved between two frames, in each of 16 x 9 parts of the picture, and how level its edges lie. */
export interface Motion {
  /** mean difference of grey, the camera's own turn taken out */
  readonly parts: Float32Array;
}

const PART = 10;
const ACROSS = SMALL.width / PART;
const DOWN = SMALL.height / PART;
export const MOTION_PARTS = ACROSS * DOWN;

/** Means along rows and columns: enough to see by how much the whole picture has moved. */
function profiles(full: Uint8Array): { columns: Float32Array; rows: Float32Array } {
  const columns = new Float32Array(SMALL.width);
  const rows = new Float32Array(SMALL.height);
  for (let y = 0; y < SMALL.height; y++) {
    let sum = 0;
    for (let x = 0, at = y * SMALL.width; x < SMALL.width; x++, at++) {
      columns[x]! += full[at]!;
      sum += full[at]!;
    }
    rows[y] = sum / SMALL.width;
  }
  for (let x = 0; x < SMALL.width; x++) columns[x]! /= SMALL.height;
  return { columns, rows };
}

const TURN_REACH = 6;

/** The whole shift that explains one profile by another best; 0 unless another is plainly better. */
function turn(a: Float32Array, b: Float32Array): number {
  const cost = (shift: number) => {
    let sum = 0;
    const from = Math.max(0, -shift);
    const to = Math.min(a.length, a.length - shift);
    for (let i = from; i < to; i++) sum += Math.abs(a[i + shift]! - b[i]!);
    return sum / (to - from);
  };
  const still = cost(0);
  let best = 0;
  let least = still;
  for (let shift = -TURN_REACH; shift <= TURN_REACH; shift++) {
    const here = cost(shift);
    if (here < least) {
      least = here;
      best = shift;
    }
  }
  return least < 0.6 * still ? best : 0;
}

export function motionBetween(a: Uint8Array, b: Uint8Array): Motion {
  const pa = profiles(a);
  const pb = profiles(b);
  const dx = turn(pa.columns, pb.columns);
  const dy = turn(pa.rows, pb.rows);
  const parts = new Float32Array(MOTION_PARTS);
  for (let y = 0; y < SMALL.height; y++) {
    const sy = Math.min(SMALL.height - 1, Math.max(0, y + dy));
    const row = Math.floor(y / PART) * ACROSS;
    for (let x = 0; x < SMALL.width; x++) {
      const sx = Math.min(SMALL.width - 1, Math.max(0, x + dx));
      parts[row + Math.floor(x / PART)]! += Math.abs(a[sy * SMALL.width + sx]! - b[y * SMALL.width + x]!);
    }
  }
  for (let i = 0; i < parts.length; i++) parts[i]! /= PART * PART;
  return { parts };
}

/**
 * How much people move: what parts of the picture differ by more than most of it does, so that grain, light and the
 * rest of the camera's turn, which are everywhere, do not count.
 */
export function activityOf({ parts }: Motion): number {
  const sorted = Float32Array.from(parts).sort();
  const middle = sorted[MOTION_PARTS >> 1]!;
  const spread = Math.max(0.05, sorted[Math.floor(MOTION_PARTS * 0.625)]! - middle);
  let sum = 0;
  for (const part of parts) sum += Math.max(0, part - middle - 2.5 * spread);
  return sum / MOTION_PARTS;
}

/**
 * Share of the picture's edges that lie level. Lines across the field are level seen from an end zone and upright or
 * slanting from the sideline.
 */
export function levelShare(full: Uint8Array): number {
  const { width, height } = SMALL;
  let level = 0;
  let steep = 0;
  for (let y = 2; y < height - 2; y++) {
    for (let x = 2; x < width - 2; x++) {
      const i = y * width + x;
      const gx =
        (full[i + 1]! - full[i - 1]!) * 2 +
        full[i + 1 - width]! -
        full[i - 1 - width]! +
        full[i + 1 + width]! -
        full[i - 1 + width]!;
      const gy =
        (full[i + width]! - full[i - width]!) * 2 +
        full[i + width - 1]! -
        full[i - width - 1]! +
        full[i + width + 1]! -
        full[i - width + 1]!;
      const strength = Math.hypot(gx, gy);
      if (strength < 60) continue;
      const slope = Math.abs(gx) / strength;
      if (slope < 0.3) level += strength;
      else if (slope > 0.5) steep += strength;
    }
  }
  return level / (level + steep + 1);
}
