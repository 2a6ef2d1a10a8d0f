/**
 * The true list of frames of a film. A frame is an index into this table, everywhere: clips, moments, reels.
 *
 * Times are whole microseconds on the film's own clock: the container's time line with its edit list applied, which is
 * the clock of a <video> element's currentTime. They are read from the file, never worked out as n / fps.
 */

export interface FrameRate {
  /** frames per `den` seconds, e.g. 30000 / 1001 */
  readonly num: number;
  readonly den: number;
}

export interface FrameTable {
  /** presentation time of each frame in order of presentation, strictly ascending, whole microseconds */
  readonly ptsMicros: Float64Array;
  /** indexes of the frames at which a decoder may start, ascending */
  readonly keyFrames: Uint32Array;
  /**
   * of these, the ones that open an open group: frames shown before them come after them in the file and need the group
   * before. Told by the order in the file, so a group that is open without using it counts as closed.
   */
  readonly openKeyFrames?: readonly number[];
  /** when the last frame stops being shown, microseconds on the same clock */
  readonly endMicros: number;
  /** true when the frames do not follow each other at one constant distance (to a millisecond's rounding) */
  readonly variable: boolean;
  /** the constant rate, or for variable film the mean rate */
  readonly rate: FrameRate;
  /** displayed size in square pixels, rotation applied */
  readonly width: number;
  readonly height: number;
  /** clockwise turn that a player applies to the coded picture */
  readonly rotation: 0 | 90 | 180 | 270;
  /** short name of the video codec: avc, hevc, vp9, mpeg2video, mjpeg ... */
  readonly codec: string;
  /** short name of the container: mp4, mov, mkv, webm, ts, avi ... */
  readonly container: string;
  readonly hasAudio: boolean;
}

export function frameCount(table: FrameTable): number {
  return table.ptsMicros.length;
}

/** Time of the first frame, microseconds; not zero in many real files. */
export function firstPtsMicros(table: FrameTable): number {
  return table.ptsMicros[0] ?? 0;
}

/** Length of the picture, seconds, from the first frame's start to the last frame's end. */
export function tableSeconds(table: FrameTable): number {
  return (table.endMicros - firstPtsMicros(table)) / 1e6;
}

export function rateNumber(rate: FrameRate): number {
  return rate.num / rate.den;
}

/** When frame `frame` starts to be shown, microseconds; for `frame` = count, when the last one ends. */
export function startMicros(table: FrameTable, frame: number): number {
  const count = table.ptsMicros.length;
  if (!Number.isInteger(frame) || frame < 0 || frame > count) {
    throw new RangeError(`frame ${frame} is outside 0..${count}`);
  }
  return frame === count ? table.endMicros : table.ptsMicros[frame]!;
}

/** Middle of the time in which `frame` is shown, microseconds: the place to seek to, as its edges may show a neighbour. */
export function centreMicros(table: FrameTable, frame: number): number {
  return Math.floor((startMicros(table, frame) + startMicros(table, frame + 1)) / 2);
}

/** Index of the frame on the screen at `micros`; times before the first frame give 0, after the end the last one. */
export function frameAtMicros(table: FrameTable, micros: number): number {
  const { ptsMicros } = table;
  let low = 0;
  let high = ptsMicros.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (ptsMicros[middle]! <= micros) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Index of the last key frame at or before `frame`; 0 when the film has none before it. */
export function keyFrameBefore(table: FrameTable, frame: number): number {
  const { keyFrames } = table;
  let low = -1;
  let high = keyFrames.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (keyFrames[middle]! <= frame) low = middle;
    else high = middle - 1;
  }
  return low < 0 ? 0 : keyFrames[low]!;
}
