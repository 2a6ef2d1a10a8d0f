import type { Writable } from 'node:stream';
import { QUIET } from '../film/ffmpeg-input.ts';
import { rateNumber } from '../film/frame-table.ts';
import { startProgram } from '../film/run.ts';
import { CANCELLED, fromEncoder, fromSource, ReelFailure } from './reel-failure.ts';
import type { PlannedSegment, ReelPlan } from './reel-plan.ts';
import type { ReelOptions } from './reel-types.ts';
import { compareTimes, decodeSegment, type Finding, type SegmentDecoder } from './segment-frames.ts';
import { send } from './send.ts';

/** Constant quality of x264 per preset: lower is finer (its scale runs from 0 to 51). */
const QUALITY = { small: 28, standard: 22, fine: 17 } as const;

/** Thrown when a film's clock or index can't be trusted, before anything is finished: it is then decoded by count. */
export class Mistimed extends Error {
  readonly segment: PlannedSegment;
  constructor(segment: PlannedSegment, detail: string) {
    super(detail);
    this.segment = segment;
  }
}

function encoderArgs(plan: ReelPlan, options: ReelOptions, target: string): string[] {
  const rate = `${plan.rate.num}/${plan.rate.den}`;
  const perFrame = plan.rate.den / plan.rate.num;
  // each clip starts at a key frame, so that a player can jump to it and a playlist can be cut there
  // a quarter of a frame early: some versions round to the nearest frame, others take the next one after the time
  const starts = plan.segments.map(({ firstFrame }) =>
    Math.max(0, (firstFrame - 0.25) * perFrame).toFixed(6),
  );
  return [
    ...QUIET,
    'error',
    '-y',
    '-f',
    'rawvideo',
    '-pix_fmt',
    'yuv420p',
    '-s',
    `${plan.width}x${plan.height}`,
    '-r',
    rate,
    '-i',
    'pipe:0',
    '-c:v',
    'libx264',
    '-preset',
    'veryfast',
    '-crf',
    String(QUALITY[options.quality ?? 'standard']),
    '-profile:v',
    'high',
    '-g',
    String(Math.max(1, Math.round(rateNumber(plan.rate)))),
    '-force_key_frames',
    starts.join(','),
    '-fflags',
    '+bitexact',
    '-f',
    'matroska',
    `file:${target}`,
  ];
}

/** Passes the frames of one segment to the encoder; frames that are written more than once are gathered first. */
async function feed(
  decoder: SegmentDecoder,
  segment: PlannedSegment,
  frameBytes: number,
  encoder: Writable,
  onFrame: () => void,
): Promise<number> {
  const wanted = segment.outFrame - segment.inFrame;
  const frame = segment.repeats ? Buffer.allocUnsafe(frameBytes) : null;
  let skip = decoder.lead * frameBytes;
  let filled = 0;
  let frames = 0;
  for await (const chunk of decoder.output ?? []) {
    let rest = chunk as Buffer;
    if (skip > 0) {
      const passed = Math.min(skip, rest.length);
      skip -= passed;
      rest = rest.subarray(passed);
    }
    while (rest.length > 0 && frames < wanted) {
      const part = rest.subarray(0, frameBytes - filled);
      if (frame) part.copy(frame, filled);
      else await send(encoder, part);
      filled += part.length;
      rest = rest.subarray(part.length);
      if (filled < frameBytes) break;
      if (frame) {
        // the buffer is used again, so every write gets its own copy
        for (let time = 0; time < segment.repeats![frames]!; time++) await send(encoder, Buffer.from(frame));
      }
      filled = 0;
      frames++;
      onFrame();
    }
    if (encoder.destroyed) break;
  }
  return frames;
}

/**
 * Encodes the picture of a whole reel into one H.264 file. Every decoded frame's time is compared with its frame table;
 * a film that fails this throws `Mistimed` unless it was already found by count.
 */
export async function encodePicture(
  plan: ReelPlan,
  target: string,
  folder: string,
  options: ReelOptions,
  findingOf: (segment: PlannedSegment) => Finding,
  onFrames: (done: number) => void,
): Promise<void> {
  const { tools, signal } = options;
  const encoder = startProgram(tools.ffmpeg.path, encoderArgs(plan, options, target), {
    signal,
    takesInput: true,
  });
  const frameBytes = (plan.width * plan.height * 3) / 2;
  const start = (segment: PlannedSegment | undefined) =>
    segment && decodeSegment(segment, plan, tools, findingOf(segment), signal);
  let decoder: SegmentDecoder | undefined = start(plan.segments[0]);
  let following: SegmentDecoder | undefined;
  let done = 0;
  try {
    for (const segment of plan.segments) {
      if (!decoder || !encoder.input) break;
      // the next decoder starts up and fills its pipe while this one is read
      following = start(plan.segments[segment.index + 1]);
      const frames = await feed(decoder, segment, frameBytes, encoder.input, () => onFrames(++done));
      if (signal?.aborted) throw new ReelFailure(CANCELLED);
      if (encoder.input.destroyed) throw new ReelFailure(fromEncoder(await encoder.ended, folder));
      const end = await decoder.ended;
      const wanted = segment.outFrame - segment.inFrame;
      const wrong =
        frames < wanted
          ? `${frames} of ${wanted} frames came`
          : findingOf(segment) === 'by-time'
            ? compareTimes(segment, decoder)
            : null;
      if (wrong !== null) {
        const problem = await fromSource(segment, end, wrong);
        if (problem.code === 'film-unreadable' && findingOf(segment) === 'by-time') {
          throw new Mistimed(segment, wrong);
        }
        throw new ReelFailure(problem);
      }
      decoder = following;
      following = undefined;
    }
    encoder.input?.end();
    const end = await encoder.ended;
    if (end.code !== 0) throw new ReelFailure(fromEncoder(end, folder));
  } finally {
    decoder?.stop();
    following?.stop();
    encoder.stop();
    await encoder.ended;
  }
}
