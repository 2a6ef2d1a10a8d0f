import type { FrameTimesView } from '../../electron/service/views.ts';

/**
 * Arithmetic of frames. A frame is an index into the film's own presentation times; nothing here multiplies
 * a frame number by a rate, except to guess how long the very last frame stands.
 */
export type FrameTimes = Pick<FrameTimesView, 'ptsMicros' | 'fps'>;

/** Index of the last frame that starts at or before the time; 0 before the first. */
export function frameAt(times: FrameTimes, micros: number): number {
  let low = 0;
  let high = times.ptsMicros.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (times.ptsMicros[middle]! <= micros) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Index of the frame whose start is nearest, for times that were rounded on their way through the browser. */
export function nearestFrame(times: FrameTimes, micros: number): number {
  const frame = frameAt(times, micros);
  const next = times.ptsMicros[frame + 1];
  return next !== undefined && next - micros < micros - times.ptsMicros[frame]! ? frame + 1 : frame;
}

export function clampFrame(times: FrameTimes, frame: number): number {
  return Math.max(0, Math.min(times.ptsMicros.length - 1, Math.round(frame)));
}

export function startMicros(times: FrameTimes, frame: number): number {
  return times.ptsMicros[clampFrame(times, frame)] ?? 0;
}

/** How far the order in which frames are stored can differ from the order in which they are shown (H.264 allows 16). */
const REORDER = 16;

function gapMicros(times: FrameTimes, frame: number): number {
  const start = times.ptsMicros[frame];
  const next = times.ptsMicros[frame + 1];
  return start === undefined || next === undefined ? 1e6 / (times.fps || 30) : next - start;
}

/**
 * The time to seek to so that the frame is shown: its middle, since edges miss. Where frames stand for unequal times a
 * browser may take a frame to last as long as another one stored near it (Chromium: by storage order, seen at key
 * frames), so the smallest gap around is what counts.
 */
export function seekMicros(times: FrameTimes, frame: number): number {
  const at = clampFrame(times, frame);
  let least = gapMicros(times, at);
  for (let near = at - REORDER; near <= at + REORDER; near++)
    if (near >= 0 && near < times.ptsMicros.length - 1) least = Math.min(least, gapMicros(times, near));
  return (times.ptsMicros[at] ?? 0) + Math.max(least / 2, gapMicros(times, at) / 16);
}

/** The frame shown a number of seconds after (or before) another one. */
export function frameAfterSeconds(times: FrameTimes, frame: number, seconds: number): number {
  const target = startMicros(times, frame) + seconds * 1e6;
  const found = nearestFrame(times, target);
  // on a film slower than the jump, a jump still moves
  if (found === frame && seconds !== 0) return clampFrame(times, frame + Math.sign(seconds));
  return found;
}

/** Seconds from one frame to another of the same film. */
export function secondsBetween(times: FrameTimes, from: number, to: number): number {
  return (startMicros(times, to) - startMicros(times, from)) / 1e6;
}

/** A stretch of film: first frame, and first frame after it. */
export interface Stretch {
  readonly inFrame: number;
  readonly outFrame: number;
}

/** The stretch as far as the film goes; never empty. */
export function withinFilm(times: FrameTimes, stretch: Stretch): Stretch {
  const last = Math.max(0, times.ptsMicros.length - 1);
  const inFrame = Math.max(0, Math.min(last, stretch.inFrame));
  return { inFrame, outFrame: Math.max(inFrame + 1, Math.min(last + 1, stretch.outFrame)) };
}

export function clampTo(stretch: Stretch, frame: number): number {
  return Math.max(stretch.inFrame, Math.min(stretch.outFrame - 1, frame));
}

/** A film time as `1:02.37`. */
export function formatFilmTime(seconds: number): string {
  const hundredths = Math.max(0, Math.round(seconds * 100));
  const minutes = Math.floor(hundredths / 6000);
  return `${minutes}:${String(Math.floor((hundredths % 6000) / 100)).padStart(2, '0')}.${String(hundredths % 100).padStart(2, '0')}`;
}
