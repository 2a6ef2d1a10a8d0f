import type { ReelPlan } from '../reel-plan.ts';
import type { ReelOptions } from '../reel-types.ts';

/** Upper estimate of what x264 writes, bits per pixel and frame, by quality; noisy turf comes near it. */
const BITS_PER_PIXEL = { small: 0.1, standard: 0.2, fine: 0.4 } as const;
const SMALLEST_ROOM = 2_000_000;

/** Room that making a reel takes on the drive of its target: the encoded picture and the finished file lie there at once. */
export function neededBytes(plan: ReelPlan, quality: ReelOptions['quality']): number {
  const picture = (plan.width * plan.height * plan.frames * BITS_PER_PIXEL[quality ?? 'standard']) / 8;
  const sound = plan.hasSound ? (plan.startsMicros[plan.frames]! / 1e6) * 20_000 : 0;
  return Math.round(2 * (picture + sound) + SMALLEST_ROOM);
}
