import { everyFrame, filmInput, QUIET } from '../film/ffmpeg-input.ts';
import type { FilmTools } from '../film/film-types.ts';
import { cutMicros, seekArgs } from '../film/frame-seek.ts';
import { type Running, startProgram } from '../film/run.ts';
import { letterbox, type PlannedSegment, type ReelPlan } from './reel-plan.ts';

/**
 * How the frames of a segment are found. `by-time` seeks to the key frame before and picks frames by their times, which
 * are then compared with the frame table. `by-count` decodes from the start and picks by index: slow and always right,
 * for containers in which seeking or the clock can't be trusted.
 */
export type Finding = 'by-time' | 'by-count';

/** Clocks of containers and of ffmpeg round by up to this much. */
const CLOCK_SLACK_MICROS = 1_500;

export interface SegmentDecoder extends Running {
  /** frames that had to be let through before the first and after the last one, as their times are equal */
  readonly lead: number;
  /** times of the frames given so far, microseconds on the film's clock; empty when found by count */
  readonly times: readonly number[];
}

/** Starts ffmpeg on one segment: raw yuv420p pictures of the reel's size come out, one after the other. */
export function decodeSegment(
  segment: PlannedSegment,
  plan: ReelPlan,
  tools: FilmTools,
  finding: Finding,
  signal?: AbortSignal,
): SegmentDecoder {
  const { table, inFrame, outFrame } = segment;
  const from = cutMicros(table, inFrame, -1);
  const to = cutMicros(table, outFrame, 1);
  const box = letterbox(table, plan);
  const times: number[] = [];
  const picked =
    finding === 'by-time'
      ? `settb=1/1000000,trim=start_pts=${from.micros}:end_pts=${to.micros}`
      : `trim=start_frame=${inFrame}:end_frame=${outFrame}`;
  // the times are written down from a corner of each picture, as doing so sums up all that it is given
  const graph = [
    `[0:v:0]${picked},split[seen][shown]`,
    '[seen]crop=16:16:0:0,showinfo,nullsink',
    `[shown]scale=${box.width}:${box.height}:flags=bicubic,pad=${plan.width}:${plan.height}:${box.x}:${box.y},setsar=1,format=yuv420p[out]`,
  ].join(';');
  const running = startProgram(
    tools.ffmpeg.path,
    [
      ...QUIET,
      'info',
      ...filmInput(segment.path, finding === 'by-time' ? seekArgs(table, inFrame) : ['-copyts']),
      '-filter_complex',
      graph,
      '-map',
      '[out]',
      ...everyFrame(tools.ffmpeg.version),
      '-f',
      'rawvideo',
      'pipe:1',
    ],
    {
      signal,
      givesOutput: true,
      onErrorLine: (line) => {
        const shown = finding === 'by-time' ? /\bn: *\d+ pts: *(-?\d+)/.exec(line) : null;
        if (shown) times.push(Number(shown[1]));
      },
    },
  );
  // a short segment's decoder may end before it is read, and Node throws away what nobody listens for
  running.output?.on('readable', () => {});
  return { ...running, lead: finding === 'by-time' ? inFrame - from.frame : 0, times };
}

/** Says how the times of the decoded frames differ from the frame table; null when they agree. */
export function compareTimes(segment: PlannedSegment, decoder: SegmentDecoder): string | null {
  const { table, inFrame, outFrame } = segment;
  for (let frame = inFrame; frame < outFrame; frame++) {
    const seen = decoder.times[decoder.lead + frame - inFrame];
    if (seen === undefined) return `frame ${frame} is missing`;
    if (Math.abs(seen - table.ptsMicros[frame]!) > CLOCK_SLACK_MICROS) {
      return `frame ${frame} stands at ${seen} instead of ${table.ptsMicros[frame]} microseconds`;
    }
  }
  return null;
}
