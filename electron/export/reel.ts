import { stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import { fail, ok, type Result } from '../../football/result.ts';
import { rateNumber } from '../film/frame-table.ts';
import { neededBytes } from './reel/estimate.ts';
import { makeReel } from './reel/make-reel.ts';
import { ReelFailure } from './reel-failure.ts';
import { planReel, type ReelPlan } from './reel-plan.ts';
import type { ReelOptions, ReelProblem, ReelReport, ReelSegment, SegmentReport } from './reel-types.ts';
import { putInPlace, withWorkFolder } from './work-folder.ts';

export function reportOf(
  plan: ReelPlan,
  made: readonly Pick<SegmentReport, 'how' | 'why'>[],
  path: string,
  bytes: number,
): ReelReport {
  return {
    path,
    segments: plan.segments.map(({ inFrame, outFrame, frames, index }) => {
      const { how, why } = made[index]!;
      return { inFrame, outFrame, frames, how, why };
    }),
    frames: plan.frames,
    seconds: plan.startsMicros[plan.frames]! / 1e6,
    bytes,
    width: plan.width,
    height: plan.height,
    fps: plan.constant ? rateNumber(plan.rate) : (plan.frames * 1e6) / plan.startsMicros[plan.frames]!,
  };
}

/** Turns what was thrown on the way back into data; anything else is a mistake in the program and goes on. */
export function asProblem(error: unknown): { ok: false; problem: ReelProblem } {
  if (error instanceof ReelFailure) return fail(error.problem);
  throw error;
}

/**
 * Renders the segments, in order, into one MP4 (H.264, and AAC where any source has sound). Exactly the frames asked
 * for are in it. It is made beside the target, read back and checked, and takes its name last, so nothing half made
 * ever stands under `target`.
 */
export async function renderReel(
  segments: readonly ReelSegment[],
  target: string,
  options: ReelOptions,
): Promise<Result<ReelReport, ReelProblem>> {
  const planned = planReel(segments, options);
  if (!planned.ok) return planned;
  const plan = planned.value;
  const path = resolve(target);
  try {
    return await withWorkFolder(path, neededBytes(plan, options.quality), async (work) => {
      const made = await makeReel(plan, work, options);
      const { size } = await stat(made.path);
      await putInPlace(made.path, path);
      options.onProgress?.(1);
      return ok(reportOf(plan, made.segments, path, size));
    });
  } catch (error) {
    return asProblem(error);
  }
}
