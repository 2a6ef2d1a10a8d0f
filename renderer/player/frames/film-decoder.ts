import {
  ALL_FORMATS,
  type EncodedPacket,
  EncodedPacketSink,
  Input,
  type InputVideoTrack,
  UrlSource,
} from 'mediabunny';
import type { FrameTimes } from '../frame-times.ts';
import type { Held } from './frame-store.ts';
import { clockShift, frameOfPacket } from './packet-frames.ts';
import type { Piece } from './plan.ts';

/** Packets looked at to join the container's clock with the frame table's. */
const FIRST_PACKETS = 60;
/** Packets that may wait in front of the decoder. */
const QUEUE = 6;
/** Bytes of the file kept in memory for reading on. */
const FILE_CACHE = 16 * 1024 * 1024;
/** Later than every frame's time stamp, for packets that are decoded but never shown. */
const UNSHOWN_MICROS = 1e15;

/** A decoded picture as it comes from the decoder, not turned yet. */
export interface Picture extends Held {
  readonly frame: VideoFrame;
}

/** How the decoded picture is put upright. */
export interface Shape {
  /** displayed size: square pixels, turned */
  readonly width: number;
  readonly height: number;
  readonly rotation: number;
  readonly flip: boolean;
}

interface Run {
  readonly decoder: VideoDecoder;
  readonly packets: AsyncGenerator<EncodedPacket, void, unknown>;
  /** first frame that it gives */
  readonly start: number;
  /** the frame that it gives next */
  next: number;
  /** frames fed, to know when all up to one of them are */
  readonly fed: Set<number>;
  fault: Error | null;
}

/**
 * Decodes pieces of one film. Reads the container over range requests; a frame is named by the frame table alone.
 */
export class FilmDecoder {
  private run: Run | null = null;
  /** the decoder takes no recovery point for a key frame, so it is shown the film's first key frame before */
  private primed = false;
  private unshown = 0;

  private constructor(
    private readonly input: Input,
    track: InputVideoTrack,
    private readonly times: FrameTimes,
    private readonly shiftMicros: number,
    private readonly config: VideoDecoderConfig,
    readonly shape: Shape,
    private readonly give: (frame: number, picture: Picture) => void,
    private readonly copies: boolean,
  ) {
    this.sink = new EncodedPacketSink(track);
  }

  private readonly sink: EncodedPacketSink;

  /** Opens a film; null where this window can't decode it this way. */
  static async open(
    source: string,
    times: FrameTimes,
    give: (frame: number, picture: Picture) => void,
  ): Promise<FilmDecoder | null> {
    if (!('VideoDecoder' in globalThis)) return null;
    const input = new Input({
      source: new UrlSource(new URL(source, location.href), {
        maxCacheSize: FILE_CACHE,
        getRetryDelay: (attempts) => (attempts < 2 ? 0.2 : null),
        handleUnhandledError: () => undefined,
      }),
      formats: ALL_FORMATS,
    });
    try {
      const track = await input.getPrimaryVideoTrack();
      const config = await track?.getDecoderConfig();
      if (!track || !config) throw new Error('no picture that can be decoded');
      const chosen = await supported(config);
      if (!chosen) throw new Error('the codec is not supported');
      const shift = clockShift(times, await firstTimes(track));
      if (shift === null) throw new Error('the frames do not meet the frame table');
      const shape: Shape = {
        width: await track.getDisplayWidth(),
        height: await track.getDisplayHeight(),
        rotation: await track.getRotation(),
        flip: await track.getFlip(),
      };
      const soft = chosen.hardwareAcceleration === 'prefer-software';
      return new FilmDecoder(input, track, times, shift, chosen, shape, give, !soft);
    } catch {
      input.dispose();
      return null;
    }
  }

  /** The frame that the decoder under way gives next; null where none is. */
  get running(): number | null {
    return this.run?.next ?? null;
  }

  /**
   * Decodes a piece and gives its frames, with those before it from the key frame on.
   * @param stop asked before each packet; true leaves the piece where it is
   * @throws where the film can't be decoded
   */
  async decode(piece: Piece, keyBefore: number, stop: () => boolean): Promise<void> {
    const goesOn = this.run && this.run.next <= piece.from && keyBefore <= this.run.next;
    if (!goesOn) await this.begin(piece.from);
    const run = this.run;
    if (!run) return;
    try {
      await this.feed(run, piece, stop);
    } catch (error) {
      this.end();
      // a decoder that refuses to start at a recovery point starts at the first key frame instead
      if (this.primed || run.next > run.start) throw error;
      this.primed = true;
      await this.decode(piece, keyBefore, stop);
    }
  }

  close(): void {
    this.end();
    this.input.dispose();
  }

  private async feed(run: Run, piece: Piece, stop: () => boolean): Promise<void> {
    while (run.next <= piece.to) {
      if (run.fault) throw run.fault;
      if (stop()) return;
      if (run.decoder.decodeQueueSize >= QUEUE) {
        await soon(run.decoder);
        continue;
      }
      const { value: packet, done } = await run.packets.next();
      if (this.run !== run) return;
      if (done) return this.flush(run);
      this.put(run, packet, packet.type);
      if (piece.closed && this.allFed(run, piece.to)) return this.flush(run);
    }
  }

  private allFed(run: Run, to: number): boolean {
    for (let frame = to; frame >= run.next; frame--) if (!run.fed.has(frame)) return false;
    return true;
  }

  private async flush(run: Run): Promise<void> {
    await run.decoder.flush();
    if (run.fault) throw run.fault;
    if (this.run === run) this.end();
  }

  private put(run: Run, packet: EncodedPacket, type: 'key' | 'delta'): void {
    const frame = frameOfPacket(this.times, packet.timestamp * 1e6, this.shiftMicros);
    if (frame !== null) run.fed.add(frame);
    const timestamp = frame === null ? UNSHOWN_MICROS + this.unshown++ : this.times.ptsMicros[frame]!;
    run.decoder.decode(new EncodedVideoChunk({ type, timestamp, data: packet.data }));
  }

  /** Starts decoding at the key frame before a frame. */
  private async begin(from: number): Promise<void> {
    this.end();
    // half a millisecond more, so that rounding does not find the key frame before
    const seconds = (this.times.ptsMicros[from]! + this.shiftMicros) / 1e6 + 0.0005;
    const key = (await this.sink.getKeyPacket(seconds)) ?? (await this.sink.getFirstPacket());
    if (!key) throw new Error('the film has no key frame');
    const start = frameOfPacket(this.times, key.timestamp * 1e6, this.shiftMicros) ?? 0;
    const byMicros = new Map<number, number>();
    const run: Run = {
      start,
      next: start,
      fed: new Set(),
      fault: null,
      packets: this.sink.packets(key),
      decoder: new VideoDecoder({
        output: (frame) => this.take(run, frame, byMicros),
        error: (error) => {
          run.fault = error;
        },
      }),
    };
    run.decoder.configure(this.config);
    const first = this.primed && start > 0 ? await this.sink.getFirstPacket() : null;
    if (first) {
      const timestamp = UNSHOWN_MICROS + this.unshown++;
      run.decoder.decode(new EncodedVideoChunk({ type: 'key', timestamp, data: first.data }));
    }
    this.run = run;
  }

  private take(run: Run, decoded: VideoFrame, byMicros: Map<number, number>): void {
    const frame =
      this.run === run && decoded.timestamp < UNSHOWN_MICROS
        ? frameOfPacket(this.times, decoded.timestamp, 0)
        : null;
    // pictures before the start lean on pictures that were not decoded
    if (frame === null || frame < run.start || byMicros.has(decoded.timestamp)) {
      decoded.close();
      return;
    }
    byMicros.set(decoded.timestamp, frame);
    run.next = frame + 1;
    if (this.copies) void this.giveCopy(frame, decoded);
    else this.give(frame, held(decoded));
  }

  /** A hardware decoder has few pictures and waits for those that are kept, so they are copied. */
  private async giveCopy(frame: number, decoded: VideoFrame): Promise<void> {
    try {
      const bytes = new Uint8Array(decoded.allocationSize());
      const layout = await decoded.copyTo(bytes);
      const format = decoded.format;
      if (!format) throw new Error('a picture without a format');
      const rect = decoded.visibleRect;
      const copy = new VideoFrame(bytes, {
        format,
        layout,
        codedWidth: rect?.width ?? decoded.codedWidth,
        codedHeight: rect?.height ?? decoded.codedHeight,
        displayWidth: decoded.displayWidth,
        displayHeight: decoded.displayHeight,
        timestamp: decoded.timestamp,
        colorSpace: decoded.colorSpace,
      });
      this.give(frame, held(copy));
    } catch {
      // a picture that can't be copied is decoded again when it is wanted
    } finally {
      decoded.close();
    }
  }

  private end(): void {
    const { run } = this;
    this.run = null;
    if (!run) return;
    if (run.decoder.state !== 'closed') run.decoder.close();
    void run.packets.return();
  }
}

function held(frame: VideoFrame): Picture {
  // without a format the memory lies elsewhere; 12 bits a pixel is what film has
  const bytes = frame.format ? frame.allocationSize() : Math.ceil(frame.codedWidth * frame.codedHeight * 1.5);
  return { frame, bytes, close: () => frame.close() };
}

async function supported(config: VideoDecoderConfig): Promise<VideoDecoderConfig | null> {
  for (const hardwareAcceleration of ['prefer-software', 'no-preference'] as const) {
    const wanted = { ...config, hardwareAcceleration };
    const answer = await VideoDecoder.isConfigSupported(wanted).catch(() => null);
    if (answer?.supported) return wanted;
  }
  return null;
}

async function firstTimes(track: InputVideoTrack): Promise<number[]> {
  const times: number[] = [];
  const sink = new EncodedPacketSink(track);
  for await (const packet of sink.packets(undefined, undefined, { metadataOnly: true })) {
    times.push(packet.timestamp * 1e6);
    if (times.length >= FIRST_PACKETS) break;
  }
  return times;
}

function soon(decoder: VideoDecoder): Promise<void> {
  return new Promise((resolve) => {
    // a decoder that fails sends no more of these
    const late = setTimeout(done, 30);
    function done() {
      clearTimeout(late);
      decoder.removeEventListener('dequeue', done);
      resolve();
    }
    decoder.addEventListener('dequeue', done);
  });
}
