import { clampFrame, type FrameTimes } from './frame-times.ts';
import { ExactFilm } from './frames/exact-film.ts';
import type { Heading } from './frames/frame-store.ts';
import { PictureCanvas } from './frames/picture-canvas.ts';
import { type FilmTrouble, VideoFilm } from './video-film.ts';

/** How long a frame stands before the video element is brought to it, so that play starts there at once, ms. */
const SETTLE_MS = 180;
/** How long play waits for the video element to reach the frame, ms. */
const REACH_MS = 700;

export type ElementTimes = FrameTimes & { readonly keyFrames: readonly number[] };

/**
 * One film on the screen: a video element that plays forward, and over it a canvas that shows single frames from the
 * cache of decoded ones. Says which frame is on the screen, whichever of the two shows it.
 */
export class FilmElement {
  readonly root: HTMLDivElement;
  /** the frame on the screen */
  shown: number | null = null;
  onFrame: ((frame: number) => void) | null = null;
  onTrouble: ((trouble: FilmTrouble) => void) | null = null;
  /** the video element can play no longer; the frames can still be had */
  onVideoLost: (() => void) | null = null;
  private readonly video: VideoFilm;
  private readonly canvas: PictureCanvas;
  private exact: ExactFilm | null;
  private wanted: number | null = null;
  /** play that waits for the video element to stand on its first frame */
  private starting: { readonly from: number; readonly rate: number; readonly late: number } | null = null;
  private running = false;
  private settle = 0;

  constructor(
    readonly filmId: string,
    readonly times: ElementTimes,
    source: string,
    /** what is shown is a copy for viewing; its frame n is the film's frame n */
    readonly proxy: boolean,
    host: HTMLElement,
  ) {
    this.root = document.createElement('div');
    this.root.className = 'film-element';
    host.append(this.root);
    this.video = new VideoFilm(times, source, this.root);
    this.canvas = new PictureCanvas(this.root);
    this.video.onFrame = (frame) => this.onVideoFrame(frame);
    this.video.onTrouble = (trouble) => this.onVideoTrouble(trouble);
    this.exact = new ExactFilm(source, times);
    this.exact.onOpen = () => {
      if (this.running && this.video.trouble) this.onVideoTrouble(this.video.trouble);
    };
    this.exact.onPicture = (frame) => {
      if (frame === this.wanted && !this.running) this.paint(frame);
    };
    this.exact.onLost = (frame) => {
      if (frame === this.wanted) this.uncover(frame);
    };
    this.exact.onFailure = () => this.giveUpExact();
  }

  /** Single frames come from the cache, so that the film can be run either way. */
  get decodes(): boolean {
    return this.exact?.shape != null;
  }

  /** The video element plays the film forward. */
  get playsByVideo(): boolean {
    return this.video.trouble === null;
  }

  get trouble(): FilmTrouble | null {
    return this.exact && this.video.trouble === 'undecodable' ? null : this.video.trouble;
  }

  /** The frame that will be on the screen when what was asked for is done. */
  get heading(): number | null {
    return this.wanted ?? this.shown;
  }

  setLimit(bytes: number): void {
    this.exact?.setLimit(bytes);
  }

  /** Shows the frame as soon as may be; of several wishes in a row the last one counts. */
  show(frame: number, direction: Heading['direction'] = 0): void {
    this.stopVideo();
    this.wanted = clampFrame(this.times, frame);
    this.exact?.aim({ at: this.wanted, direction });
    if (this.paint(this.wanted)) return;
    if (!this.decodes || this.exact?.isLost(this.wanted)) this.uncover(this.wanted);
  }

  /** The frame is at hand and can be on the screen without delay. */
  ready(frame: number): boolean {
    return this.exact?.picture(frame) != null;
  }

  /** Has what is near decoded, and leaves the screen as it is. */
  prepare(frame: number, direction: Heading['direction']): void {
    this.exact?.aim({ at: clampFrame(this.times, frame), direction });
  }

  /** Plays forward by the video element, from the frame that is on the screen. */
  play(rate: number): void {
    const from = this.heading ?? 0;
    this.stopVideo();
    this.running = true;
    this.wanted = null;
    clearTimeout(this.settle);
    const late = window.setTimeout(() => this.start(), REACH_MS);
    this.starting = { from, rate, late };
    if (this.video.shown === from) this.start();
    else this.video.show(from);
  }

  setRate(rate: number): void {
    if (this.starting) this.starting = { ...this.starting, rate };
    else this.video.setRate(rate);
  }

  pause(): void {
    const ran = this.running;
    this.stopVideo();
    // the picture that stands is the one that is meant; a pause falls between two
    if (ran && this.shown !== null) this.show(this.shown);
  }

  destroy(): void {
    clearTimeout(this.settle);
    if (this.starting) clearTimeout(this.starting.late);
    this.onFrame = null;
    this.onTrouble = null;
    this.onVideoLost = null;
    this.exact?.close();
    this.exact = null;
    this.video.destroy();
    this.root.remove();
  }

  private start(): void {
    if (!this.starting) return;
    clearTimeout(this.starting.late);
    const { rate } = this.starting;
    this.starting = null;
    void this.video.play(rate);
  }

  private stopVideo(): void {
    if (this.starting) clearTimeout(this.starting.late);
    this.starting = null;
    this.running = false;
    this.video.pause();
  }

  /** Puts a decoded frame on the screen; false where it is not at hand. */
  private paint(frame: number): boolean {
    const picture = this.exact?.picture(frame);
    const shape = this.exact?.shape;
    if (!picture || !shape) return false;
    this.canvas.draw(picture, shape, frame);
    this.tell(frame);
    clearTimeout(this.settle);
    this.settle = window.setTimeout(() => {
      if (!this.running && this.shown === frame && !this.video.trouble) this.video.show(frame);
    }, SETTLE_MS);
    return true;
  }

  /** Lets the video element show a frame that cannot be decoded otherwise. */
  private uncover(frame: number): void {
    if (this.decodes) this.canvas.hide();
    this.video.show(frame);
  }

  private onVideoFrame(frame: number): void {
    if (this.starting && frame === this.starting.from) this.start();
    if (this.running) {
      if (this.starting) return;
      this.canvas.hide();
      // what is just passing is what is stepped through after a pause
      if (frame % 4 === 0) this.exact?.aim({ at: frame, direction: 0 });
    } else if (this.canvas.covers) return;
    this.tell(frame);
  }

  private onVideoTrouble(trouble: FilmTrouble): void {
    // seeking breaks the video element on some film (open groups) whose frames can be had all the same
    if (trouble === 'undecodable' && this.exact) {
      if (!this.running) return;
      this.stopVideo();
      this.onVideoLost?.();
    } else this.onTrouble?.(trouble);
  }

  private giveUpExact(): void {
    this.exact = null;
    this.canvas.hide();
    const heading = this.heading;
    if (this.video.trouble) this.onTrouble?.(this.video.trouble);
    else if (heading !== null && !this.running) this.video.show(heading);
  }

  private tell(frame: number): void {
    this.shown = frame;
    if (this.wanted === frame) this.wanted = null;
    this.onFrame?.(frame);
  }
}
