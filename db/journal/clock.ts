/**
 * Hybrid logical clock: wall time where it moves on, a counter where it does not, so that stamps of
 * one station only ever grow and stamps of several stations order the same way everywhere.
 *
 * A stamp is text that sorts: 12 hex digits of milliseconds since 1970, 4 hex digits of counter,
 * the station's id.
 */
export interface Stamp {
  readonly ms: number;
  readonly counter: number;
  readonly station: string;
}

const MAX_COUNTER = 0xffff;

export function formatStamp({ ms, counter, station }: Stamp): string {
  return `${ms.toString(16).padStart(12, '0')}-${counter.toString(16).padStart(4, '0')}-${station}`;
}

export function parseStamp(text: string): Stamp {
  return {
    ms: Number.parseInt(text.slice(0, 12), 16),
    counter: Number.parseInt(text.slice(13, 17), 16),
    station: text.slice(18),
  };
}

export class HybridClock {
  private ms = 0;
  private counter = 0;

  constructor(
    readonly station: string,
    private readonly now: () => number = Date.now,
  ) {}

  /** Never give a stamp at or before this one: called with the newest stamp the journal holds. */
  observe(stamp: string): void {
    const seen = parseStamp(stamp);
    if (seen.ms > this.ms || (seen.ms === this.ms && seen.counter > this.counter)) {
      this.ms = seen.ms;
      this.counter = seen.counter;
    }
  }

  next(): string {
    const wall = this.now();
    if (wall > this.ms) {
      this.ms = wall;
      this.counter = 0;
    } else if (this.counter < MAX_COUNTER) {
      this.counter += 1;
    } else {
      this.ms += 1;
      this.counter = 0;
    }
    return formatStamp({ ms: this.ms, counter: this.counter, station: this.station });
  }
}
