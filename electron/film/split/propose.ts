import type { Angle } from '../angle.ts';
import { findSnap, highOf, riseOf, sharpen, withoutSpikes } from './find-snap.ts';

/** Why a new shot is taken to begin: the picture changes at once, or the recording was stopped. */
export type ShotStart = 'film' | 'cut' | 'stop';

export interface Shot {
  readonly startFrame: number;
  /** first frame after it */
  readonly endFrame: number;
  readonly startedBy: ShotStart;
  readonly angle: Angle;
}

/** A stretch of film that may be one play; nobody has said so yet. */
export interface ProposedPlay {
  readonly inFrame: number;
  /** first frame after it */
  readonly outFrame: number;
  /** a prediction; null where nothing stands still and then moves */
  readonly snapFrame: number | null;
  readonly angle: Angle;
  /** counts plays from 1; two angles of one play have the same number */
  readonly play: number;
}

/** Shots shorter than this show no play. */
const SHORTEST_SECONDS = 0.8;
/** A shot longer than this may hold several plays: the camera ran on. */
const ONE_PLAY_SECONDS = 18;
/** What is kept before a snap and after the end of the motion, when dead time is cut off. */
const SETTING_SECONDS = 4;
const AFTERMATH_SECONDS = 1.5;
/** A rise of motion by less than this factor's log is no snap. */
const LEAST_RISE = Math.log(1.6);
const PLAYS_APART_SECONDS = 8;
/** Motion lower than this share of the play's own, for this long, is its end. */
const ENDED = { share: 0.3, seconds: 1.2 } as const;
/** In a camera that runs on, what moves after a snap must be a good part of the busiest tenth. */
const BUSY_SHARE = 0.25;

function mean(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i]!;
  return to > from ? sum / (to - from) : 0;
}

/** Where the motion of a play has died: frames from the start of the stretch. */
function motionEnd(smooth: Float64Array, snap: number, fps: number): number {
  const playing = mean(smooth, snap, Math.min(smooth.length, snap + Math.round(2.5 * fps)));
  const long = Math.round(ENDED.seconds * fps);
  let calm = 0;
  for (let frame = snap + Math.round(1.5 * fps); frame < smooth.length; frame++) {
    calm = smooth[frame]! < ENDED.share * playing ? calm + 1 : 0;
    if (calm >= long) return frame - long;
  }
  return smooth.length;
}

type Stretch = Pick<ProposedPlay, 'inFrame' | 'outFrame' | 'snapFrame'>;

function playOfShot(shot: Shot, activity: Float64Array, fps: number): Stretch {
  const found = findSnap(activity, fps);
  const snap = found && found.strength > LEAST_RISE ? found.frame : null;
  if (snap === null) return { inFrame: shot.startFrame, outFrame: shot.endFrame, snapFrame: null };
  const end = motionEnd(withoutSpikes(activity), snap, fps) + Math.round(AFTERMATH_SECONDS * fps);
  const from = snap - Math.round(SETTING_SECONDS * fps);
  // a second or two of dead time is not worth a cut
  const slack = Math.round(2 * fps);
  return {
    inFrame: from > slack ? shot.startFrame + from : shot.startFrame,
    outFrame: activity.length - end > slack ? shot.startFrame + end : shot.endFrame,
    snapFrame: shot.startFrame + snap,
  };
}

/** Plays of a camera that ran on: each rise of motion out of stillness, until it dies. */
function playsOfRecording(shot: Shot, activity: Float64Array, fps: number): Stretch[] {
  const smooth = withoutSpikes(activity);
  const rise = riseOf(smooth, fps);
  const busy = BUSY_SHARE * highOf(smooth);
  const after = Math.round(fps);
  const frames = Array.from(rise.keys())
    .filter((f) => rise[f]! > LEAST_RISE && mean(smooth, f, Math.min(smooth.length, f + after)) > busy)
    .sort((a, b) => rise[b]! - rise[a]!);
  const snaps: number[] = [];
  for (const frame of frames) {
    if (!snaps.some((other) => Math.abs(other - frame) < PLAYS_APART_SECONDS * fps)) snaps.push(frame);
  }
  snaps.sort((a, b) => a - b);
  let free = 0;
  return snaps.map((rough, n): Stretch => {
    const snap = sharpen(activity, smooth, rough, fps);
    const limit = snaps[n + 1] === undefined ? activity.length : snaps[n + 1]! - Math.round(0.5 * fps);
    const end = Math.min(limit, motionEnd(smooth, snap, fps) + Math.round(AFTERMATH_SECONDS * fps));
    const from = Math.max(free, snap - Math.round(SETTING_SECONDS * fps));
    free = end;
    return {
      inFrame: shot.startFrame + from,
      outFrame: shot.startFrame + end,
      snapFrame: shot.startFrame + snap,
    };
  });
}

/** Two angles that take turns show each play twice: sideline, end zone, sideline ... */
function takesTurns(angles: readonly Angle[]): boolean {
  if (angles.length < 2) return false;
  const pairs = angles.slice(1).map((angle, i) => [angles[i]!, angle] as const);
  const turns = pairs.filter(([a, b]) => a !== b && a !== 'other' && b !== 'other').length;
  return turns >= 0.7 * pairs.length;
}

/**
 * Plays proposed for the shots of a film.
 * @param activity how much people move, one value a frame of the film
 */
export function proposePlays(shots: readonly Shot[], activity: Float64Array, fps: number): ProposedPlay[] {
  const stretches = shots.flatMap((shot) => {
    const frames = shot.endFrame - shot.startFrame;
    if (frames < SHORTEST_SECONDS * fps) return [];
    const own = activity.slice(shot.startFrame, shot.endFrame);
    // what changed at the cut itself is no motion
    if (own.length > 1) own[0] = own[1]!;
    const found =
      frames > ONE_PLAY_SECONDS * fps ? playsOfRecording(shot, own, fps) : [playOfShot(shot, own, fps)];
    return found.map((stretch) => ({ ...stretch, angle: shot.angle }));
  });
  const paired = takesTurns(stretches.map((s) => s.angle));
  let play = 0;
  let first: Angle | null = null;
  return stretches.map((stretch) => {
    const second =
      paired && first !== null && first !== 'other' && stretch.angle !== 'other' && stretch.angle !== first;
    if (!second) play += 1;
    first = second ? null : stretch.angle;
    return { ...stretch, play };
  });
}
