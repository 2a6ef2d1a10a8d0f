/** A decoded picture that must be closed to give its memory back. */
export interface Held {
  readonly bytes: number;
  close(): void;
}

/** Where the film stands and which way it runs; 0 where it stands still. */
export interface Heading {
  readonly at: number;
  readonly direction: -1 | 0 | 1;
}

/** Frames wanted above and below where the film stands. */
export interface Reach {
  readonly up: number;
  readonly down: number;
}

/** A frame behind the run is worth as much as one so many times as far ahead. */
const BEHIND = 3;

/** What lies out of reach gives way before anything within it. */
const OUT_OF_REACH = 1e6;

/** How little a frame is worth keeping: 0 for the one on the screen, more the later it can be wanted. */
function farness(heading: Heading, reach: Reach, frame: number): number {
  const up = frame - heading.at;
  const out = up > reach.up || -up > reach.down ? OUT_OF_REACH : 0;
  if (heading.direction === 0) return out + Math.abs(up);
  const ahead = up * heading.direction;
  return out + (ahead >= 0 ? ahead : -ahead * BEHIND);
}

/**
 * The decoded frames of one film, never more than a bound of bytes: what is farthest from where the film stands gives
 * way. Knows nothing of decoding.
 */
export class FrameStore<T extends Held> {
  private readonly held = new Map<number, T>();
  private total = 0;
  private heading: Heading = { at: 0, direction: 0 };
  private reach: Reach = { up: 0, down: 0 };

  /** @param limit the most bytes to hold */
  constructor(private limit: number) {}

  get bytes(): number {
    return this.total;
  }

  get size(): number {
    return this.held.size;
  }

  has(frame: number): boolean {
    return this.held.has(frame);
  }

  get(frame: number): T | undefined {
    return this.held.get(frame);
  }

  aim(heading: Heading, reach: Reach): void {
    this.heading = heading;
    this.reach = reach;
  }

  setLimit(limit: number): void {
    this.limit = limit;
    while (this.total > this.limit) this.drop(this.farthest());
  }

  /** Takes a picture over. It is closed at once where every frame held is worth more; false then. */
  put(frame: number, picture: T): boolean {
    this.drop(frame);
    while (this.total + picture.bytes > this.limit) {
      const far = this.farthest();
      if (far === null || this.farness(far) <= this.farness(frame)) {
        picture.close();
        return false;
      }
      this.drop(far);
    }
    this.held.set(frame, picture);
    this.total += picture.bytes;
    return true;
  }

  clear(): void {
    for (const frame of [...this.held.keys()]) this.drop(frame);
  }

  private farness(frame: number): number {
    return farness(this.heading, this.reach, frame);
  }

  private farthest(): number | null {
    let far: number | null = null;
    let most = -1;
    for (const frame of this.held.keys()) {
      const here = this.farness(frame);
      if (here > most) {
        most = here;
        far = frame;
      }
    }
    return far;
  }

  private drop(frame: number | null): void {
    const picture = frame === null ? undefined : this.held.get(frame);
    if (frame === null || !picture) return;
    this.held.delete(frame);
    this.total -= picture.bytes;
    picture.close();
  }
}
