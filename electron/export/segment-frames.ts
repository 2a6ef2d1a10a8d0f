import { everyFrame, filmInput, QUIET } from '../film/ffmpeg-input.ts';
import type { FilmTools } from '../film/film-types.ts';
import { type FrameTable, keyFrameBefore, startMicros } from '../film/frame-table.ts';
import { type Running, startProgram } from '../film/run.ts';
import { letterbox, type PlannedSegment, type ReelPlan } from './reel-plan.ts';

/**
 * How the frames of a segment are found. `by-time` seeks to the key frame before and picks frames by their times, which
 * are then compared with the frame table. `by-count` decodes from the start and picks by index: slow and always right,
 * for containers in which seeking or the clock can't be trusted.
 */
export type Finding = 'by-time' | 'by-count';

/** Containers with an index of key frames; in the others a seek lands somewhere near, so more is decoded to be safe. */
const INDEXED = new Set(['mp4', 'mov', 'mkv', 'webm']);
const UNINDEXED_MARGIN_MICROS = 3_000_000;
/** Clocks of containers and of ffmpeg round by up to this much. */
const CLOCK_SLACK_MICROS = 1_500;

export interface SegmentDecoder extends Running {
  /** frames that had to be let through before the first and after the last one, as their times are equal */
  readonly lead: number;
  /** times of the frames given so far, microseconds on the film's clock; empty when found by count */
  readonly times: readonly number[];
}

/** A cut between frame - 1 and frame that lies well between two times; damaged films have frames at equal times. */
function cutMicros(table: FrameTable, frame: number, towards: -1 | 1): { micros: number; frame: number } {
  const count = table.ptsMicros.length;
  let at = frame;
  while (at > 0 && at < count && table.ptsMicros[at]! - table.ptsMicros[at - 1]! < 4) at += towards;
  if (at <= 0) return { micros: table.ptsMicros[0]! - 10_000_000, frame: 0 };
  if (at >= count) return { micros: table.endMicros + 10_000_000, frame: count };
  return { micros: Math.floor((table.ptsMicros[at - 1]! + table.ptsMicros[at]!) / 2), frame: at };
}

function seekArgs(table: FrameTable, inFrame: number): string[] {
  const key = keyFrameBefore(table, inFrame);
  if (key === 0 && !INDEXED.has(table.container)) return [];
  const middle = (startMicros(table, key) + startMicros(table, key + 1)) / 2;
  const micros = INDEXED.has(table.container) ? middle : middle - UNINDEXED_MARGIN_MICROS;
  return ['-seek_timestamp', '1', '-noaccurate_seek', '-ss', (micros / 1e6).toFixed(6)];
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
  const filter = [
    picked,
    'metadata=mode=add:key=tapebook:value=1',
    'metadata=mode=print:key=tapebook',
    `scale=${box.width}:${box.height}:flags=bicubic`,
    `pad=${plan.width}:${plan.height}:${box.x}:${box.y}`,
    'setsar=1',
    'format=yuv420p',
  ].join(',');
  const running = startProgram(
    tools.ffmpeg.path,
    [
      ...QUIET,
      'info',
      ...filmInput(segment.path, ['-copyts', ...(finding === 'by-time' ? seekArgs(table, inFrame) : [])]),
      '-map',
      '0:v:0',
      '-vf',
      filter,
      ...everyFrame(tools.ffmpeg.version),
      '-f',
      'rawvideo',
      'pipe:1',
    ],
    {
      signal,
      givesOutput: true,
      onErrorLine: (line) => {
        const shown = finding === 'by-time' ? /\bframe:\d+ +pts:(-?\d+)/.exec(line) : null;
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
