import type { Writable } from 'node:stream';
import { QUIET } from '../film/ffmpeg-input.ts';
import { rateNumber } from '../film/frame-table.ts';
import { startProgram } from '../film/run.ts';
import { type Layer, layersOf, paintOver, yuvOfPicture } from './overlay/layers.ts';
import { CANCELLED, fromEncoder, fromSource, ReelFailure } from './reel-failure.ts';
import type { PlannedSegment, ReelPlan } from './reel-plan.ts';
import type { ReelOptions } from './reel-types.ts';
import { compareTimes, decodeSegment, type Finding, type SegmentDecoder } from './segment-frames.ts';

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

export interface PictureWork {
  readonly plan: ReelPlan;
  /** those of the plan that are encoded, in order */
  readonly segments: readonly PlannedSegment[];
  readonly target: string;
  /** named in problems with room */
  readonly folder: string;
  readonly options: ReelOptions;
  /** further words for x264 */
  readonly params: readonly string[];
  readonly findingOf: (segment: PlannedSegment) => Finding;
  readonly onFrames: (done: number) => void;
  /** takes the picture of each segment's first and last frame as it goes to the encoder (yuv420p) */
  readonly onEnds: (segment: PlannedSegment, end: 'first' | 'last', picture: Buffer) => void;
}

function encoderArgs({ plan, segments, target, options, params }: PictureWork): string[] {
  const rate = `${plan.rate.num}/${plan.rate.den}`;
  const perFrame = plan.rate.den / plan.rate.num;
  // each clip starts at a key frame, so that a player can jump to it and a playlist can be cut there
  // a quarter of a frame early: some versions round to the nearest frame, others take the next one after the time
  const starts: string[] = [];
  let frame = 0;
  for (const { frames } of segments) {
    starts.push(Math.max(0, (frame - 0.25) * perFrame).toFixed(6));
    frame += frames;
  }
  return [
    ...[
      ...QUIET,
      'error',
      '-y',
      '-f',
      'rawvideo',
      '-pix_fmt',
      'yuv420p',
      '-s',
      `${plan.width}x${plan.height}`,
    ],
    ...['-r', rate, '-i', 'pipe:0', '-c:v', 'libx264', '-preset', 'veryfast'],
    ...['-crf', String(QUALITY[options.quality ?? 'standard']), '-profile:v', 'high'],
    ...['-g', String(Math.max(1, Math.round(rateNumber(plan.rate)))), '-forced-idr', '1'],
    ...['-force_key_frames', starts.join(',')],
    ...(params.length > 0 ? ['-x264-params', params.join(':')] : []),
    ...['-fflags', '+bitexact', '-flags:v', '+bitexact', '-f', 'mp4', `file:${target}`],
  ];
}

/** Hands frames to the encoder in turn, two buffers taking turns so that one is filled while the other is read. */
class FrameQueue {
  private readonly buffers: [Buffer, Buffer];
  private readonly busy: [Promise<void>, Promise<void>] = [Promise.resolve(), Promise.resolve()];
  private turn: 0 | 1 = 0;

  constructor(
    private readonly encoder: Writable,
    frameBytes: number,
  ) {
    this.buffers = [Buffer.allocUnsafe(frameBytes), Buffer.allocUnsafe(frameBytes)];
  }

  /** A buffer to fill. */
  async next(): Promise<Buffer> {
    this.turn = this.turn === 0 ? 1 : 0;
    await this.busy[this.turn];
    return this.buffers[this.turn];
  }

  /** Writes the buffer that was given last, so many times. */
  write(times: number): void {
    const before = this.busy[this.turn === 0 ? 1 : 0];
    const buffer = this.buffers[this.turn];
    this.busy[this.turn] = before.then(() => this.writeAll(buffer, times));
  }

  private async writeAll(buffer: Buffer, times: number): Promise<void> {
    for (let time = 0; time < times && !this.encoder.destroyed; time++) {
      await new Promise<void>((resolve) => {
        const done = () => {
          this.encoder.off('close', done);
          resolve();
        };
        // an encoder that has gone calls nobody back
        this.encoder.once('close', done);
        this.encoder.write(buffer, done);
      });
    }
  }

  async settled(): Promise<void> {
    await Promise.all(this.busy);
  }
}

/** The frames of a segment as they are decoded, cut out of the stream of bytes into buffers of the queue. */
async function* framesOf(
  decoder: SegmentDecoder,
  queue: FrameQueue,
  frameBytes: number,
): AsyncGenerator<Buffer> {
  let skip = decoder.lead * frameBytes;
  let frame = await queue.next();
  let filled = 0;
  for await (const chunk of decoder.output ?? []) {
    let rest = chunk as Buffer;
    if (skip > 0) {
      const passed = Math.min(skip, rest.length);
      skip -= passed;
      rest = rest.subarray(passed);
    }
    while (rest.length > 0) {
      const part = rest.copy(frame, filled, 0, frameBytes - filled);
      rest = rest.subarray(part);
      filled += part;
      if (filled < frameBytes) break;
      yield frame;
      frame = await queue.next();
      filled = 0;
    }
  }
}

/** Passes the frames of one segment to the encoder, drawn over where that is asked for; gives how many came. */
async function feed(
  work: PictureWork,
  segment: PlannedSegment,
  frames: AsyncGenerator<Buffer>,
  queue: FrameQueue,
  encoder: Writable,
  onFrame: () => void,
): Promise<number> {
  const { width, height } = work.plan;
  const layers: readonly Layer[] = layersOf(segment, { width, height });
  const wanted = segment.outFrame - segment.inFrame;
  let done = 0;
  for await (const picture of frames) {
    const frame = segment.inFrame + done;
    for (const layer of layers) {
      if (frame >= layer.fromFrame && frame < layer.toFrame) paintOver(picture, layer, width, height);
    }
    if (done === 0) work.onEnds(segment, 'first', picture);
    if (done === wanted - 1) work.onEnds(segment, 'last', picture);
    queue.write(segment.repeats?.[done] ?? 1);
    done++;
    onFrame();
    if (done === wanted || encoder.destroyed) break;
  }
  return done;
}

async function* cardFrames(picture: Buffer, count: number, queue: FrameQueue): AsyncGenerator<Buffer> {
  for (let frame = 0; frame < count; frame++) {
    const buffer = await queue.next();
    picture.copy(buffer);
    yield buffer;
  }
}

/**
 * Encodes the picture of segments into one H.264 file, one behind the other. Every decoded frame's time is compared with
 * its frame table; a film that fails this throws `Mistimed` unless it was already found by count.
 */
export async function encodePicture(work: PictureWork): Promise<void> {
  const { plan, segments, folder, options, findingOf } = work;
  const { tools, signal } = options;
  const encoder = startProgram(tools.ffmpeg.path, encoderArgs(work), { signal, takesInput: true });
  const frameBytes = (plan.width * plan.height * 3) / 2;
  const start = (segment: PlannedSegment | undefined) =>
    segment && !segment.card ? decodeSegment(segment, plan, tools, findingOf(segment), signal) : undefined;
  let decoder = start(segments[0]);
  let following: SegmentDecoder | undefined;
  let done = 0;
  try {
    const queue = encoder.input && new FrameQueue(encoder.input, frameBytes);
    for (const [at, segment] of segments.entries()) {
      if (!queue || !encoder.input) break;
      // the next decoder starts up and fills its pipe while this one is read
      following = start(segments[at + 1]);
      const wanted = segment.outFrame - segment.inFrame;
      const source = segment.card
        ? cardFrames(yuvOfPicture(segment.card(plan), plan.width, plan.height), wanted, queue)
        : framesOf(decoder!, queue, frameBytes);
      const frames = await feed(work, segment, source, queue, encoder.input, () => work.onFrames(++done));
      if (signal?.aborted) throw new ReelFailure(CANCELLED);
      if (encoder.input.destroyed) throw new ReelFailure(fromEncoder(await encoder.ended, folder));
      if (decoder) {
        const end = await decoder.ended;
        const byTime = findingOf(segment) === 'by-time';
        const wrong =
          frames < wanted
            ? `${frames} of ${wanted} frames came`
            : byTime
              ? compareTimes(segment, decoder)
              : null;
        if (wrong !== null) {
          const problem = await fromSource(segment, end, wrong);
          if (problem.code === 'film-unreadable' && byTime) throw new Mistimed(segment, wrong);
          throw new ReelFailure(problem);
        }
      }
      decoder = following;
      following = undefined;
    }
    await queue?.settled();
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
