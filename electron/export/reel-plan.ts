import { fail, ok, type Result } from '../../football/result.ts';
import { type FrameRate, frameCount, rateNumber, startMicros } from '../film/frame-table.ts';
import type { ReelOptions, ReelProblem, ReelSegment } from './reel-types.ts';

/** A segment with its place in the reel. */
export interface PlannedSegment extends ReelSegment {
  readonly index: number;
  /**
   * how often each of its frames is written, where the reel's rate is held constant against the source's or the film
   * stands still; else once
   */
  readonly repeats: Uint16Array | null;
  /** first frame of the reel that belongs to it, and how many do */
  readonly firstFrame: number;
  readonly frames: number;
}

export interface ReelPlan {
  readonly segments: readonly PlannedSegment[];
  readonly width: number;
  readonly height: number;
  /** the constant rate, or the nominal one where frames keep their own times */
  readonly rate: FrameRate;
  readonly constant: boolean;
  /** when each frame of the reel starts, microseconds, and one entry more for its end */
  readonly startsMicros: Float64Array;
  readonly frames: number;
  readonly hasSound: boolean;
}

const LARGEST = { width: 1920, height: 1080 };

function even(side: number): number {
  return Math.max(2, Math.round(side / 2) * 2);
}

/** The size of the largest source; larger ones than 1920 x 1080 are brought down to it. */
function chooseSize(segments: readonly ReelSegment[]): { width: number; height: number } {
  let best = { width: 0, height: 0 };
  for (const { table } of segments) {
    if (table.width * table.height > best.width * best.height) {
      best = { width: table.width, height: table.height };
    }
  }
  const scale = Math.min(
    1,
    LARGEST.width / Math.max(best.width, best.height),
    LARGEST.height / Math.min(best.width, best.height),
  );
  return { width: even(best.width * scale), height: even(best.height * scale) };
}

/** A rate at which no frame of the segment need be left out: variable film may be faster than its mean. */
function neededRate({ table, inFrame, outFrame }: ReelSegment): FrameRate {
  if (!table.variable) return table.rate;
  let shortest = Number.POSITIVE_INFINITY;
  for (let frame = inFrame; frame < outFrame; frame++) {
    shortest = Math.min(shortest, startMicros(table, frame + 1) - startMicros(table, frame));
  }
  const fps = 1e6 / Math.max(shortest, 1);
  for (const usual of [25, 30, 50, 60]) if (fps <= usual * 1.02) return { num: usual, den: 1 };
  return { num: 60, den: 1 };
}

function planRepeats(segment: ReelSegment, rate: FrameRate): Uint16Array {
  const { table, inFrame, outFrame } = segment;
  const from = startMicros(table, inFrame);
  const repeats = new Uint16Array(outFrame - inFrame);
  let written = 0;
  for (let frame = inFrame; frame < outFrame; frame++) {
    const until = Math.round(((startMicros(table, frame + 1) - from) * rate.num) / (1e6 * rate.den));
    repeats[frame - inFrame] = Math.min(255, Math.max(0, until - written));
    written += repeats[frame - inFrame]!;
  }
  if (written === 0) repeats[0] = 1;
  return repeats;
}

/** Adds the frames for which the film stands still; they run at the reel's nominal rate. */
function withFreezes(segment: ReelSegment, repeats: Uint16Array | null, rate: FrameRate): Uint16Array | null {
  const { freezes = [], inFrame, outFrame } = segment;
  const shown = freezes.filter(({ frame, seconds }) => frame >= inFrame && frame < outFrame && seconds > 0);
  if (shown.length === 0) return repeats;
  const times = repeats ?? new Uint16Array(outFrame - inFrame).fill(1);
  for (const { frame, seconds } of shown) {
    times[frame - inFrame]! += Math.min(60_000, Math.max(1, Math.round(seconds * rateNumber(rate))));
  }
  return times;
}

function badSegment(segment: number, message: string): { ok: false; problem: ReelProblem } {
  return fail({
    code: 'reel-bad-segment',
    segment,
    message: `Clip ${segment + 1} ${message}`,
    next: 'Correct the in and the out of that clip, or take it out of the cut-up.',
  });
}

/** Decides size, rate and place of every frame of a reel. Pure: touches no file. */
export function planReel(
  segments: readonly ReelSegment[],
  options: Pick<ReelOptions, 'size' | 'rate'>,
): Result<ReelPlan, ReelProblem> {
  if (segments.length === 0) {
    return fail({
      code: 'reel-empty',
      message: 'There is no clip in this reel.',
      next: 'Put plays with film into the cut-up first.',
    });
  }
  for (const [index, { table, inFrame, outFrame }] of segments.entries()) {
    const count = frameCount(table);
    if (!Number.isInteger(inFrame) || !Number.isInteger(outFrame) || inFrame < 0 || outFrame > count) {
      return badSegment(index, `asks for frames ${inFrame} to ${outFrame} of a film of ${count} frames.`);
    }
    if (inFrame >= outFrame) return badSegment(index, 'ends before it starts.');
  }
  const first = segments[0]!.table;
  const sameRate = segments.every(
    ({ table }) => !table.variable && table.rate.num * first.rate.den === first.rate.num * table.rate.den,
  );
  const constant = sameRate || options.rate === 'constant';
  const rate = segments
    .map(sameRate ? ({ table }) => table.rate : neededRate)
    .reduce((best, one) => (rateNumber(one) > rateNumber(best) ? one : best));

  const starts: number[] = [];
  const planned: PlannedSegment[] = [];
  let micros = 0;
  for (const [index, segment] of segments.entries()) {
    const { table, inFrame, outFrame } = segment;
    const firstFrame = starts.length;
    const repeats = withFreezes(segment, constant && !sameRate ? planRepeats(segment, rate) : null, rate);
    if (constant) {
      const frames = repeats ? repeats.reduce((sum, times) => sum + times, 0) : outFrame - inFrame;
      for (let frame = 0; frame < frames; frame++) {
        starts.push(((firstFrame + frame) * 1e6 * rate.den) / rate.num);
      }
    } else {
      const from = startMicros(table, inFrame);
      for (let frame = inFrame; frame < outFrame; frame++) {
        for (let held = (repeats?.[frame - inFrame] ?? 1) - 1; held > 0; held--) {
          starts.push(micros + startMicros(table, frame) - from);
          micros += (1e6 * rate.den) / rate.num;
        }
        starts.push(micros + startMicros(table, frame) - from);
      }
      micros += startMicros(table, outFrame) - from;
    }
    planned.push({ ...segment, index, repeats, firstFrame, frames: starts.length - firstFrame });
  }
  const frames = starts.length;
  starts.push(constant ? (frames * 1e6 * rate.den) / rate.num : micros);
  const size = options.size
    ? { width: even(options.size.width), height: even(options.size.height) }
    : chooseSize(segments);
  return ok({
    segments: planned,
    ...size,
    rate,
    constant,
    startsMicros: Float64Array.from(starts),
    frames,
    hasSound: segments.some(({ table }) => table.hasAudio),
  });
}

/** The rectangle in which a picture of another shape stands, black bars around it; even numbers for the codec's sake. */
export function letterbox(
  source: { readonly width: number; readonly height: number },
  target: { readonly width: number; readonly height: number },
): { width: number; height: number; x: number; y: number } {
  const scale = Math.min(target.width / source.width, target.height / source.height);
  const width = Math.min(target.width, even(source.width * scale));
  const height = Math.min(target.height, even(source.height * scale));
  return {
    width,
    height,
    x: Math.floor((target.width - width) / 4) * 2,
    y: Math.floor((target.height - height) / 4) * 2,
  };
}
