import videojs from 'video.js';
import { clampFrame, type FrameTimes, nearestFrame, seekMicros } from './frame-times.ts';

type Player = ReturnType<typeof videojs>;

export type FilmTrouble = 'missing' | 'undecodable';

/** How long the first picture may take before the film is sought without its offset, ms. */
const FIRST_PICTURE_MS = 400;

declare global {
  interface Window {
    VIDEOJS_NO_DYNAMIC_STYLE?: boolean;
  }
}
window.VIDEOJS_NO_DYNAMIC_STYLE = true;

/**
 * One film in one video element: plays forward, seeks to a frame, and says which frame it shows. A seek decodes again from
 * the key frame before, so single frames are shown by `ExactFilm` wherever that can be had.
 */
export class VideoFilm {
  /** the frame on the screen */
  shown: number | null = null;
  trouble: FilmTrouble | null = null;
  onFrame: ((frame: number) => void) | null = null;
  onTrouble: ((trouble: FilmTrouble) => void) | null = null;
  private readonly player: Player;
  private readonly video: HTMLVideoElement;
  private readonly calibrated: Promise<void>;
  /** media time of frame 0 less its own time stamp, micros: a browser may shift the film by the sound's priming */
  private offsetMicros = 0;
  private wanted: number | null = null;
  private seeking = false;
  private gone = false;

  constructor(
    private readonly times: FrameTimes,
    source: string,
    root: HTMLElement,
  ) {
    const holder = document.createElement('video');
    holder.className = 'video-js';
    holder.muted = true;
    holder.playsInline = true;
    root.append(holder);
    this.player = videojs(holder, {
      controls: false,
      muted: true,
      preload: 'auto',
      children: ['mediaLoader'],
      errorDisplay: false,
      userActions: { click: false, doubleClick: false, hotkeys: false },
    });
    // several films lie over each other; the bar under them is what is named and used
    this.player.el().removeAttribute('role');
    this.player.el().removeAttribute('aria-label');
    this.video = root.querySelector('video')!;
    // the keys are the registry's; nothing of the element itself takes the focus
    root.querySelectorAll('[tabindex]').forEach((each) => {
      each.removeAttribute('tabindex');
    });
    this.video.tabIndex = -1;
    this.calibrated = this.calibrate();
    this.video.addEventListener('seeked', this.afterSeek);
    this.player.on('error', () => void this.explain(source));
    this.player.src({ src: source, type: 'video/mp4' });
    this.watch();
  }

  get playing(): boolean {
    return !this.video.paused && !this.video.ended;
  }

  /** Shows the frame as soon as may be; of several wishes in a row the last one counts. */
  show(frame: number): void {
    this.wanted = clampFrame(this.times, frame);
    void this.calibrated.then(() => this.pump());
  }

  /** Displayed size, once it is known. */
  get size(): { width: number; height: number } | null {
    const { videoWidth: width, videoHeight: height } = this.video;
    return width && height ? { width, height } : null;
  }

  async play(rate: number): Promise<void> {
    await this.calibrated;
    this.video.playbackRate = rate;
    // a film that is taken off the screen at once rejects the promise; there is nothing to do then
    await this.video.play().catch(() => undefined);
  }

  setRate(rate: number): void {
    this.video.playbackRate = rate;
  }

  pause(): void {
    this.video.pause();
  }

  destroy(): void {
    this.gone = true;
    this.onFrame = null;
    this.onTrouble = null;
    this.video.removeEventListener('seeked', this.afterSeek);
    this.player.dispose();
  }

  private calibrate(): Promise<void> {
    return new Promise((resolve) => {
      const giveUp = setTimeout(resolve, FIRST_PICTURE_MS);
      this.video.requestVideoFrameCallback((_now, picture) => {
        clearTimeout(giveUp);
        if (this.shown === null && this.video.currentTime === 0)
          this.offsetMicros = picture.mediaTime * 1e6 - (this.times.ptsMicros[0] ?? 0);
        resolve();
      });
    });
  }

  /** Reports every picture that is put on the screen. */
  private watch(): void {
    this.video.requestVideoFrameCallback((_now, picture) => {
      if (this.gone) return;
      this.tell(nearestFrame(this.times, picture.mediaTime * 1e6 - this.offsetMicros));
      this.watch();
    });
  }

  private tell(frame: number): void {
    this.shown = frame;
    if (this.wanted === frame) this.wanted = null;
    this.onFrame?.(frame);
  }

  /** One seek at a time: a second one before the first has landed only makes both late. */
  private pump(): void {
    if (this.seeking || this.wanted === null || this.gone || this.video.readyState === 0) {
      if (this.video.readyState === 0 && !this.gone)
        this.video.addEventListener('loadedmetadata', () => this.pump(), { once: true });
      return;
    }
    if (this.wanted === this.shown && !this.playing) {
      this.tell(this.wanted);
      return;
    }
    this.seeking = true;
    this.sought = this.wanted;
    this.video.currentTime = (seekMicros(this.times, this.wanted) + this.offsetMicros) / 1e6;
  }

  private sought: number | null = null;

  private readonly afterSeek = (): void => {
    this.seeking = false;
    const landed = this.sought;
    if (this.wanted !== null && this.wanted !== landed) {
      this.pump();
      return;
    }
    // no picture is reported when the one asked for already stands on the screen
    requestAnimationFrame(() =>
      requestAnimationFrame(() => {
        if (!this.gone && !this.seeking && landed !== null && this.wanted === landed) this.tell(landed);
      }),
    );
  };

  /** Tells a film that is not there from one that this window cannot decode. */
  private async explain(source: string): Promise<void> {
    const there = await fetch(source, { headers: { range: 'bytes=0-0' } }).then(
      (answer) => answer.ok,
      () => false,
    );
    if (this.gone) return;
    this.trouble = there ? 'undecodable' : 'missing';
    this.onTrouble?.(this.trouble);
  }
}
