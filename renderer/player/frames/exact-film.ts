import type { FrameTimes } from '../frame-times.ts';
import { FilmDecoder, type Picture, type Shape } from './film-decoder.ts';
import { FrameStore, type Heading } from './frame-store.ts';
import { nextPiece, type Piece, reachOf } from './plan.ts';

/** Bytes for a film that lies ready behind the one on the screen. */
export const IDLE_BYTES = 30 * 1024 * 1024;

/**
 * Any frame of a film, decoded ahead of being wanted. Where the film stands is told by `aim`; what is near it is decoded
 * and kept, within bounds of memory, and given without delay.
 */
export class ExactFilm {
  private readonly store = new FrameStore<Picture>(IDLE_BYTES);
  private limit = IDLE_BYTES;
  private decoder: FilmDecoder | null = null;
  /** frames that the decoder passed over: damaged film has some; they are not asked for again and again */
  private readonly lost = new Set<number>();
  private heading: Heading | null = null;
  private wake: (() => void) | null = null;
  private readonly given = new Set<number>();
  private frameBytes = 0;
  private closed = false;
  /** frames can be had from now on */
  onOpen: (() => void) | null = null;
  /** a picture has come in */
  onPicture: ((frame: number) => void) | null = null;
  /** a frame can't be had by decoding and must be shown another way */
  onLost: ((frame: number) => void) | null = null;
  /** decoding has failed for good; the film must be shown another way */
  onFailure: (() => void) | null = null;
  /** null until the film is open */
  shape: Shape | null = null;

  constructor(
    source: string,
    private readonly times: FrameTimes & { readonly keyFrames: readonly number[] },
  ) {
    void this.work(source);
  }

  get bytes(): number {
    return this.store.bytes;
  }

  setLimit(bytes: number): void {
    if (bytes === this.limit) return;
    this.limit = bytes;
    this.store.setLimit(bytes);
    this.stir();
  }

  aim(heading: Heading): void {
    this.heading = heading;
    this.store.aim(heading, reachOf(heading.direction, this.room()));
    this.stir();
  }

  isLost(frame: number): boolean {
    return this.lost.has(frame);
  }

  picture(frame: number): VideoFrame | null {
    return this.store.get(frame)?.frame ?? null;
  }

  close(): void {
    this.closed = true;
    this.onOpen = null;
    this.onPicture = null;
    this.onLost = null;
    this.onFailure = null;
    this.store.clear();
    this.decoder?.close();
    this.stir();
  }

  private stir(): void {
    this.wake?.();
  }

  private async work(source: string): Promise<void> {
    this.decoder = await FilmDecoder.open(source, this.times, (frame, picture) => this.take(frame, picture));
    if (this.closed) {
      this.decoder?.close();
      return;
    }
    this.shape = this.decoder?.shape ?? null;
    if (this.shape) this.onOpen?.();
    try {
      if (!this.decoder) throw new Error('the film is decoded another way');
      while (!this.closed) {
        const piece = this.next();
        if (piece) await this.decodePiece(piece, this.decoder);
        // one breath a piece, so that a piece that cannot be had does not hold the window up
        await (piece ? new Promise((next) => setTimeout(next)) : this.rest());
      }
    } catch {
      if (this.closed) return;
      this.decoder?.close();
      this.decoder = null;
      this.store.clear();
      this.onFailure?.();
    }
  }

  private next(): Piece | null {
    if (!this.heading || !this.decoder) return null;
    return nextPiece({
      ...this.heading,
      count: this.times.ptsMicros.length,
      room: this.room(),
      has: (frame) => this.store.has(frame) || this.lost.has(frame),
      keyBefore: (frame) => this.keyBefore(frame),
      running: this.decoder.running,
    });
  }

  private async decodePiece(piece: Piece, decoder: FilmDecoder): Promise<void> {
    let stopped = false;
    this.given.clear();
    await decoder.decode(piece, this.keyBefore(piece.from), () => {
      stopped = this.overtaken(piece);
      return stopped;
    });
    if (stopped || this.closed) return;
    for (let frame = piece.from; frame <= piece.to; frame++) {
      if (this.given.has(frame) || this.store.has(frame)) continue;
      this.lost.add(frame);
      this.onLost?.(frame);
    }
  }

  private room(): number {
    return this.frameBytes ? Math.max(3, Math.floor(this.limit / this.frameBytes)) : 12;
  }

  /** The film has gone elsewhere and something nearer is missing. */
  private overtaken(piece: Piece): boolean {
    if (this.closed || !this.heading) return true;
    const { at } = this.heading;
    if (this.store.has(at)) {
      const away = Math.max(piece.from - at, at - piece.to);
      return away > 260;
    }
    const begins = this.keyBefore(piece.from);
    // on the way to the wanted frame, or a little before it; a frame of the piece that does not come is found lost at its end
    const passed = at < piece.from && (this.decoder?.running ?? begins) > at;
    return at < begins || at > piece.to + 30 || passed;
  }

  private take(frame: number, picture: Picture): void {
    if (this.closed) {
      picture.close();
      return;
    }
    if (this.frameBytes !== picture.bytes && this.heading) {
      this.frameBytes = picture.bytes;
      this.aim(this.heading);
    }
    this.given.add(frame);
    this.lost.delete(frame);
    if (this.store.put(frame, picture)) this.onPicture?.(frame);
  }

  private rest(): Promise<void> {
    return new Promise((resolve) => {
      this.wake = () => {
        this.wake = null;
        resolve();
      };
    });
  }

  private keyBefore(frame: number): number {
    const { keyFrames } = this.times;
    let low = 0;
    let high = keyFrames.length - 1;
    if (high < 0 || keyFrames[0]! > frame) return 0;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (keyFrames[middle]! <= frame) low = middle;
      else high = middle - 1;
    }
    return keyFrames[low]!;
  }
}
