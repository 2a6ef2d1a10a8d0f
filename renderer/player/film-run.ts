import type { FilmElement } from './film-element.ts';
import { type FrameTimes, frameAt, type Stretch, startMicros } from './frame-times.ts';

/** Where a run stands after so much time: frames last as long as the film says, at the speed asked for, either way. */
export class RunClock {
  private since: number;
  private base: number;

  constructor(
    private readonly times: FrameTimes,
    private readonly direction: -1 | 1,
    private readonly rate: number,
    from: number,
    nowMs: number,
  ) {
    this.since = nowMs;
    this.base = this.baseOf(from);
  }

  frame(nowMs: number): number {
    const micros = Math.max(0, nowMs - this.since) * 1000 * this.rate;
    // backwards a frame starts at its end
    return this.direction === 1
      ? frameAt(this.times, this.base + micros)
      : frameAt(this.times, this.base - micros - 1);
  }

  /** The run was held up: it goes on from this frame as if it had just come. */
  goOnFrom(frame: number, nowMs: number): void {
    this.base = this.baseOf(frame);
    this.since = nowMs;
  }

  private baseOf(frame: number): number {
    if (this.direction === 1) return startMicros(this.times, frame);
    const next = this.times.ptsMicros[frame + 1];
    return next ?? startMicros(this.times, frame) + 1e6 / (this.times.fps || 30);
  }
}

/** A film that is locked to the one that leads. */
export interface RunMate {
  readonly film: FilmElement;
  readonly frameFor: (leadFrame: number) => number;
}

export interface FilmRunOptions {
  readonly direction: -1 | 1;
  readonly rate: number;
  readonly bounds: () => Stretch;
  readonly mate: () => RunMate | null;
  /** the last frame in that direction has had its time */
  readonly onEnd: () => void;
}

/** Runs a film, and the one locked to it, frame by frame out of their caches: backwards, slowly, or both together. */
export class FilmRun {
  private request = 0;
  private clock: RunClock | null = null;

  constructor(
    private readonly lead: FilmElement,
    private readonly options: FilmRunOptions,
  ) {
    const from = lead.heading ?? options.bounds().inFrame;
    lead.prepare(from, options.direction);
    const mate = options.mate();
    mate?.film.prepare(mate.frameFor(from), options.direction);
    this.request = requestAnimationFrame(this.tick);
  }

  stop(): void {
    cancelAnimationFrame(this.request);
    this.request = 0;
  }

  private readonly tick = (now: number): void => {
    this.request = requestAnimationFrame(this.tick);
    const { direction, rate, bounds } = this.options;
    const { inFrame, outFrame } = bounds();
    const here = this.lead.heading ?? inFrame;
    // the first frame has its time from when it stands there
    if (this.lead.shown === null) return;
    this.clock ??= new RunClock(this.lead.times, direction, rate, here, now);
    const due = this.clock.frame(now);
    const last = direction === 1 ? outFrame - 1 : inFrame;
    const target = direction === 1 ? Math.min(due, last) : Math.max(due, last);
    if ((target - here) * direction > 0) this.go(here, target, now);
    else if (here === last && this.isOver(here, due, now)) {
      this.stop();
      this.options.onEnd();
    }
  };

  private overAt = 0;

  /** A film's own last frame has none after it, so its time is counted here. */
  private isOver(here: number, due: number, now: number): boolean {
    if (due !== here) return true;
    const edge = this.options.direction === 1 ? this.lead.times.ptsMicros.length - 1 : 0;
    if (here !== edge) return false;
    this.overAt ||= now + 1000 / (this.lead.times.fps || 30) / this.options.rate;
    return now >= this.overAt;
  }

  private go(here: number, target: number, now: number): void {
    if (this.tryShow(target)) return;
    const next = here + this.options.direction;
    if (next !== target && this.tryShow(next)) this.clock?.goOnFrom(next, now);
    else {
      // what is not decoded yet is waited for, not jumped over
      this.clock?.goOnFrom(here, now - 1000 / (this.lead.times.fps || 30) / this.options.rate);
    }
  }

  private tryShow(frame: number): boolean {
    const { direction } = this.options;
    const mate = this.options.mate();
    const mateFrame = mate?.frameFor(frame) ?? 0;
    if (!canShow(this.lead, frame) || (mate && !canShow(mate.film, mateFrame))) return false;
    this.lead.show(frame, direction);
    if (mate && mate.film.heading !== mateFrame) mate.film.show(mateFrame, direction);
    return true;
  }
}

/** At hand; a film that is sought is asked for a frame when it has shown the one before. */
function canShow(film: FilmElement, frame: number): boolean {
  if (film.heading === frame) return film.shown === frame || !film.decodes;
  return film.decodes ? film.ready(frame) : film.heading === film.shown;
}
