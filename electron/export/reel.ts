import { stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { fail, ok, type Result } from '../../football/result.ts';
import { type FrameTable, rateNumber } from '../film/frame-table.ts';
import { probeFilm } from '../film/probe.ts';
import { CANCELLED, ReelFailure } from './reel-failure.ts';
import { muxReel } from './reel-mux.ts';
import { encodePicture, Mistimed } from './reel-picture.ts';
import { planReel, type ReelPlan } from './reel-plan.ts';
import { encodeSound } from './reel-sound.ts';
import type { ReelOptions, ReelProblem, ReelReport, ReelSegment } from './reel-types.ts';
import { putInPlace, type WorkFolder, withWorkFolder } from './work-folder.ts';

/** Shares of the whole for the progress bar: sound, picture, then putting together and checking. */
const SOUND_SHARE = 0.05;
const PICTURE_SHARE = 0.9;
/** Upper estimate of what x264 writes, bits per pixel and frame, by quality; noisy turf comes near it. */
const BITS_PER_PIXEL = { small: 0.1, standard: 0.2, fine: 0.4 } as const;
const SMALLEST_ROOM = 2_000_000;

/** Room that making a reel takes on the drive of its target: the encoded picture and the finished file lie there at once. */
export function neededBytes(plan: ReelPlan, quality: ReelOptions['quality']): number {
  const picture = (plan.width * plan.height * plan.frames * BITS_PER_PIXEL[quality ?? 'standard']) / 8;
  const sound = plan.hasSound ? (plan.startsMicros[plan.frames]! / 1e6) * 20_000 : 0;
  return Math.round(2 * (picture + sound) + SMALLEST_ROOM);
}

export function checkFailed(detail: string): ReelFailure {
  return new ReelFailure({
    code: 'reel-check-failed',
    message: `The finished reel did not pass its check: ${detail}.`,
    kept: 'Nothing was written under its name.',
    next: 'Export it again; if it stays, report which clips the cut-up holds.',
  });
}

/** Reads the finished file back: every frame must be there, at its time, and every clip must start at a key frame. */
export function checkFrames(plan: ReelPlan, table: FrameTable): void {
  const frames = table.ptsMicros.length;
  if (frames !== plan.frames) throw checkFailed(`it holds ${frames} frames instead of ${plan.frames}`);
  const first = table.ptsMicros[0]!;
  for (let frame = 0; frame < frames; frame++) {
    const off = table.ptsMicros[frame]! - first - plan.startsMicros[frame]!;
    if (Math.abs(off) > 1_000) throw checkFailed(`frame ${frame} is ${Math.round(off)} microseconds off`);
  }
  const keys = new Set(table.keyFrames);
  for (const segment of plan.segments) {
    if (!keys.has(segment.firstFrame)) throw checkFailed(`clip ${segment.index + 1} starts inside a group`);
  }
}

/** Makes the reel in the work folder and checks it; gives its path and its frame table. */
export async function makeReel(
  plan: ReelPlan,
  work: WorkFolder,
  options: ReelOptions,
): Promise<{ path: string; table: FrameTable }> {
  let told = 0;
  const progress = (share: number) => {
    // a picture that has to be made anew does not take the bar back
    if (share <= told) return;
    told = Math.min(1, share);
    options.onProgress?.(told);
  };
  const picture = join(work.path, 'picture.mkv');
  const sound = plan.hasSound ? join(work.path, 'sound.mkv') : null;
  if (sound) {
    await encodeSound(plan, sound, work.beside, options, (segments) =>
      progress((SOUND_SHARE * segments) / plan.segments.length),
    );
  }
  // a film whose clock misleads is found out while its frames are read; the picture is then made anew
  const byCount = new Set<string>();
  for (;;) {
    try {
      const sourceFrames = plan.segments.reduce((sum, one) => sum + one.outFrame - one.inFrame, 0);
      await encodePicture(
        plan,
        picture,
        work.beside,
        options,
        (segment) => (byCount.has(segment.path) ? 'by-count' : 'by-time'),
        (done) => progress(SOUND_SHARE + (PICTURE_SHARE * done) / sourceFrames),
      );
      break;
    } catch (error) {
      if (!(error instanceof Mistimed)) throw error;
      byCount.add(error.segment.path);
    }
  }
  const path = join(work.path, 'reel.mp4');
  await muxReel(plan, picture, sound, path, options.signal);
  const probe = await probeFilm(path, { tools: options.tools, signal: options.signal });
  if (options.signal?.aborted) throw new ReelFailure(CANCELLED);
  if (!probe.ok) throw checkFailed(probe.problem.message);
  checkFrames(plan, probe.value.table);
  if (probe.value.hasAudio !== plan.hasSound) throw checkFailed('its sound is missing');
  return { path, table: probe.value.table };
}

export function reportOf(plan: ReelPlan, path: string, bytes: number): ReelReport {
  return {
    path,
    segments: plan.segments.map(({ inFrame, outFrame, frames }) => ({
      inFrame,
      outFrame,
      frames,
      how: 're-encoded',
    })),
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
      return ok(reportOf(plan, path, size));
    });
  } catch (error) {
    return asProblem(error);
  }
}
