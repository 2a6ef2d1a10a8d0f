import { fail, ok, type Result } from '../../football/result.ts';
import type { FilmProblem } from './film-types.ts';
import type { FrameRate, FrameTable } from './frame-table.ts';
import { refusal } from './refusals.ts';

/** Frames as a container lists them, in the order in which they are decoded, in microseconds (not yet whole). */
export interface ListedFrames {
  readonly times: ArrayLike<number>;
  /** 0 where the container does not say */
  readonly durations: ArrayLike<number>;
  readonly isKey: ArrayLike<boolean | number>;
}

export type Description = Pick<
  FrameTable,
  'codec' | 'container' | 'width' | 'height' | 'rotation' | 'hasAudio'
>;

/** The containers' own words for a codec, and ours: what Mediabunny or else ffmpeg calls it. */
const CODEC_NAMES: ReadonlyMap<string, string> = new Map([
  ['h264', 'avc'],
  ['mp4v', 'mpeg4'],
  ['jpeg', 'mjpeg'],
  ['mjpa', 'mjpeg'],
  ['V_MPEG1', 'mpeg1video'],
  ['V_MPEG2', 'mpeg2video'],
  ['V_MPEG4/ISO/ASP', 'mpeg4'],
  ['V_MJPEG', 'mjpeg'],
  ['apcn', 'prores'],
  ['apch', 'prores'],
  ['apcs', 'prores'],
  ['apco', 'prores'],
]);

const CONTAINER_NAMES: ReadonlyMap<string, string> = new Map([
  ['matroska', 'mkv'],
  ['mpegts', 'ts'],
  ['mpeg', 'mpg'],
]);

const LONGEST_HOURS = 24;
const SMALLEST_SIDE = 16;
const LARGEST_SIDE = 16_384;

/** The usual rates of cameras and broadcast; a measured rate that is one of them within rounding takes its exact form. */
const USUAL_RATES: readonly FrameRate[] = [
  { num: 24000, den: 1001 },
  { num: 24, den: 1 },
  { num: 25, den: 1 },
  { num: 30000, den: 1001 },
  { num: 30, den: 1 },
  { num: 48, den: 1 },
  { num: 50, den: 1 },
  { num: 60000, den: 1001 },
  { num: 60, den: 1 },
  { num: 100, den: 1 },
  { num: 120000, den: 1001 },
  { num: 120, den: 1 },
  { num: 240000, den: 1001 },
  { num: 240, den: 1 },
];

/** Containers with a clock of whole milliseconds put each frame up to this far from its true time. */
const CLOCK_ROUNDING_MICROS = 1_000;

function measureRate(ptsMicros: Float64Array, lastDuration: number): { rate: FrameRate; variable: boolean } {
  const count = ptsMicros.length;
  if (count < 2) {
    const fps = lastDuration > 0 ? Math.round(1e9 / lastDuration) : 30_000;
    return { rate: { num: fps, den: 1000 }, variable: false };
  }
  const first = ptsMicros[0]!;
  const mean = (ptsMicros[count - 1]! - first) / (count - 1);
  const fits = (step: number): boolean => {
    for (let frame = 1; frame < count; frame++) {
      if (Math.abs(ptsMicros[frame]! - first - frame * step) > CLOCK_ROUNDING_MICROS) return false;
    }
    return true;
  };
  // over n frames, the mean step is known to the clock's rounding divided by n
  const slack = (2 * CLOCK_ROUNDING_MICROS) / (count - 1) + 0.01;
  const near = USUAL_RATES.filter((rate) => Math.abs((1e6 * rate.den) / rate.num - mean) <= slack);
  const misfit = (rate: FrameRate) => {
    let sum = 0;
    for (let frame = 1; frame < count; frame++) {
      sum += Math.abs(ptsMicros[frame]! - first - (frame * 1e6 * rate.den) / rate.num);
    }
    return sum;
  };
  const usual = near
    .filter((rate) => fits((1e6 * rate.den) / rate.num))
    .map((rate) => ({ rate, off: misfit(rate) }))
    .sort((one, other) => one.off - other.off)[0];
  if (usual) return { rate: usual.rate, variable: false };
  return { rate: { num: Math.round(1e9 / mean), den: 1000 }, variable: !fits(mean) };
}

/** The key frames after which, in the order of the file, frames come that are shown before them. */
function openKeys(isKey: ListedFrames['isKey'], placeOf: Uint32Array): number[] {
  const open: number[] = [];
  let key = -1;
  for (let listed = 0; listed < placeOf.length; listed++) {
    const place = placeOf[listed]!;
    if (isKey[listed]) key = place;
    else if (key > place && open.at(-1) !== key) open.push(key);
  }
  return open;
}

/** Puts frames into the order of presentation and refuses what can't be a film. */
export function shapeFrames(
  path: string,
  frames: ListedFrames,
  description: Description,
): Result<FrameTable, FilmProblem> {
  const { width, height } = description;
  const absurd = (what: string) => fail(refusal('film-absurd', path, what));
  if (Math.min(width, height) < SMALLEST_SIDE || Math.max(width, height) > LARGEST_SIDE) {
    return absurd(`a picture of ${width} x ${height}`);
  }
  const count = frames.times.length;
  if (count === 0) return fail(refusal('film-unreadable', path, 'it holds no frame'));
  const order = new Uint32Array(count);
  for (let frame = 0; frame < count; frame++) {
    if (!Number.isFinite(frames.times[frame]!)) return absurd('a frame without a time');
    order[frame] = frame;
  }
  order.sort((one, other) => frames.times[one]! - frames.times[other]! || one - other);

  const ptsMicros = new Float64Array(count);
  const keyFrames: number[] = [];
  for (let frame = 0; frame < count; frame++) {
    const listed = order[frame]!;
    const time = Math.round(frames.times[listed]!);
    // two frames at one time exist in damaged files; each keeps its place in the order
    ptsMicros[frame] = frame > 0 ? Math.max(time, ptsMicros[frame - 1]! + 1) : time;
    if (frames.isKey[listed]) keyFrames.push(frame);
  }
  const placeOf = new Uint32Array(count);
  for (let frame = 0; frame < count; frame++) placeOf[order[frame]!] = frame;
  const last = order[count - 1]!;
  const listedDuration = frames.durations[last]!;
  const { rate, variable } = measureRate(ptsMicros, listedDuration);
  const step = (1e6 * rate.den) / rate.num;
  const lastDuration = listedDuration > 0 ? listedDuration : step;
  const endMicros = Math.round(ptsMicros[count - 1]! + Math.max(1, lastDuration));
  const hours = (endMicros - ptsMicros[0]!) / 3.6e9;
  if (hours > LONGEST_HOURS) return absurd(`a length of ${Math.round(hours)} hours`);
  return ok({
    ...description,
    codec: CODEC_NAMES.get(description.codec) ?? description.codec,
    container: CONTAINER_NAMES.get(description.container) ?? description.container,
    ptsMicros,
    keyFrames: Uint32Array.from(keyFrames),
    openKeyFrames: openKeys(frames.isKey, placeOf),
    endMicros,
    variable,
    rate,
  });
}
