/** Where people that stood still begin to move all at once. */
export interface Snap {
  /** the first frame of the motion, counted from the start of the stretch */
  readonly frame: number;
  /** log of how much more moves after it than before it */
  readonly strength: number;
}

/** The median of each value and its two neighbours: a frame alone is a flash or a coding artefact, not people. */
export function withoutSpikes(activity: ArrayLike<number>): Float64Array {
  const count = activity.length;
  return Float64Array.from({ length: count }, (_, i) => {
    const a = activity[Math.max(0, i - 1)]!;
    const b = activity[i]!;
    const c = activity[Math.min(count - 1, i + 1)]!;
    return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
  });
}

const BEFORE_SECONDS = 0.6;
const AFTER_SECONDS = 0.5;

/** For each frame, the log of the motion in the half second after it against that before it; 0 where it cannot be told. */
export function riseOf(smooth: Float64Array, fps: number): Float64Array {
  const count = smooth.length;
  const sums = new Float64Array(count + 1);
  for (let i = 0; i < count; i++) sums[i + 1] = sums[i]! + smooth[i]!;
  const mean = (from: number, to: number) => (sums[to]! - sums[from]!) / Math.max(1, to - from);
  const quiet = 0.06 * highOf(smooth) + 1e-4;
  const before = Math.round(BEFORE_SECONDS * fps);
  const after = Math.round(AFTER_SECONDS * fps);
  const rise = new Float64Array(count);
  for (let frame = Math.round(0.25 * fps); frame + after <= count; frame++) {
    if (frame < 2) continue;
    const was = mean(Math.max(1, frame - before), frame);
    rise[frame] = Math.log((mean(frame, frame + after) + quiet) / (was + quiet));
  }
  return rise;
}

/** What nine tenths of the frames stay under. */
export function highOf(values: Float64Array): number {
  return Float64Array.from(values).sort()[Math.floor(values.length * 0.9)] ?? 0;
}

/** The frame about `rough` at which motion first leaves what it was before. */
export function sharpen(
  activity: ArrayLike<number>,
  smooth: Float64Array,
  rough: number,
  fps: number,
): number {
  const before = Math.round(BEFORE_SECONDS * fps);
  const gap = Math.round((4 * fps) / 30);
  const stretch = smooth.slice(Math.max(1, rough - before - gap), Math.max(2, rough - gap));
  const middle = smooth.slice(Math.max(1, rough - before), Math.max(2, rough));
  const mean = middle.reduce((sum, v) => sum + v, 0) / middle.length;
  const spread = Math.sqrt(stretch.reduce((sum, v) => sum + (v - mean) ** 2, 0) / stretch.length);
  const threshold = mean + 3 * spread + 0.05 * highOf(smooth);
  const from = Math.max(1, rough - Math.round(0.2 * fps));
  const to = Math.min(activity.length, rough + Math.round(0.4 * fps));
  for (let frame = from; frame < to; frame++) if (activity[frame]! > threshold) return frame;
  return rough;
}

/** The likeliest snap of a stretch of film, or null where it is too short to tell. */
export function findSnap(activity: ArrayLike<number>, fps: number): Snap | null {
  const smooth = withoutSpikes(activity);
  const rise = riseOf(smooth, fps);
  let best = -1;
  for (let frame = 0; frame < rise.length; frame++) {
    if (rise[frame]! > 0 && (best < 0 || rise[frame]! > rise[best]!)) best = frame;
  }
  if (best < 0) return null;
  return { frame: sharpen(activity, smooth, best, fps), strength: rise[best]! };
}
