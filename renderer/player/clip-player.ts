import type { Angle } from '../../electron/service/views.ts';
import type { Problem } from '../../football/result.ts';
import { problemFrom } from '../service/http.ts';
import { createStore } from '../state/store.ts';
import { FilmDeck } from './film-deck.ts';
import type { FilmElement, FilmTrouble } from './film-element.ts';
import {
  clampTo,
  type FrameTimes,
  frameAfterSeconds,
  type Stretch,
  sameInstant,
  withinFilm,
} from './frame-times.ts';

/** What plays: one angle of one play, or a whole film. */
export interface PlayedClip extends Stretch {
  readonly filmId: string;
  readonly angle: Angle;
}

export interface PlayerState {
  readonly clip: PlayedClip | null;
  /** null until the first picture is there */
  readonly frame: number | null;
  readonly times: FrameTimes | null;
  readonly playing: boolean;
  readonly rate: number;
  readonly trouble: FilmTrouble | { readonly problem: Problem } | null;
}

export const RATES: readonly number[] = [1, 0.5, 0.25];

const NOTHING: PlayerState = { clip: null, frame: null, times: null, playing: false, rate: 1, trouble: null };

/** Plays a clip between its bounds and obeys the film keys. Its state is a store that a screen reads. */
export class ClipPlayer {
  readonly state = createStore<PlayerState>(NOTHING);
  /** called when the last frame of the clip has been shown while playing */
  onEnd: (() => void) | null = null;
  private deck: FilmDeck | null = null;
  private film: FilmElement | null = null;
  private turn = 0;

  attach(host: HTMLElement): () => void {
    this.deck = new FilmDeck(host);
    const { clip, frame, playing } = this.state.get();
    if (clip) void this.load(clip, { at: frame ?? clip.inFrame, play: playing });
    return () => {
      this.turn += 1;
      this.deck?.destroy();
      this.deck = null;
      this.film = null;
      // what was on the screen is asked for again by the next screen
      this.patch({ playing: false });
    };
  }

  /** Opens films that are about to be wanted. */
  warm(filmIds: readonly string[]): void {
    for (const filmId of filmIds) void this.deck?.film(filmId).catch(() => undefined);
  }

  /** Puts a clip on the screen at a frame; `null` takes the film away. */
  async load(
    clip: PlayedClip | null,
    start: { readonly at?: number; readonly play?: boolean } = {},
  ): Promise<void> {
    const turn = ++this.turn;
    this.film?.pause();
    if (!clip || !this.deck) {
      this.patch({ clip, frame: start.at ?? null, playing: start.play ?? false, times: null, trouble: null });
      return;
    }
    this.patch({ clip, playing: false, trouble: null });
    let film: FilmElement;
    try {
      film = await this.deck.film(clip.filmId);
    } catch (error) {
      if (turn === this.turn) this.patch({ trouble: { problem: problemFrom(error) }, frame: null });
      return;
    }
    if (turn !== this.turn || !this.deck) return;
    this.take(film);
    const bounds = withinFilm(film.times, clip);
    const at = clampTo(bounds, start.at ?? bounds.inFrame);
    this.patch({ clip: { ...clip, ...bounds }, times: film.times, frame: film.shown === at ? at : null });
    film.show(at);
    if (start.play) this.play();
  }

  play(): void {
    const { clip, rate } = this.state.get();
    if (!this.film || !clip) return;
    // at the end, play means again
    if ((this.film.heading ?? 0) >= clip.outFrame - 1) this.film.show(clip.inFrame);
    this.patch({ playing: true });
    void this.film.play(rate);
  }

  pause(): void {
    this.film?.pause();
    this.patch({ playing: false });
    // the picture that stands is the one that is meant; a pause falls between two
    if (this.film?.shown !== null && this.film) this.film.show(this.film.shown);
  }

  toggle(): void {
    if (this.state.get().playing) this.pause();
    else this.play();
  }

  runBack(): void {
    const { clip } = this.state.get();
    if (!clip || !this.film) return;
    this.film.show(clip.inFrame);
    this.play();
  }

  step(frames: number): void {
    this.moveTo((here) => here + frames);
  }

  jump(seconds: number): void {
    this.moveTo((here, times) => frameAfterSeconds(times, here, seconds), true);
  }

  goTo(frame: number): void {
    this.moveTo(() => frame);
  }

  nextRate(): void {
    const rate = RATES[(RATES.indexOf(this.state.get().rate) + 1) % RATES.length] ?? 1;
    this.setRate(rate);
  }

  setRate(rate: number): void {
    this.film?.setRate(rate);
    this.patch({ rate });
  }

  /** Moves the bounds of what plays and leaves the picture where it is, unless it lies outside. */
  bound(stretch: Stretch): void {
    const { clip } = this.state.get();
    if (!clip || !this.film) return;
    const bounds = withinFilm(this.film.times, stretch);
    this.patch({ clip: { ...clip, ...bounds } });
    const here = this.film.heading ?? bounds.inFrame;
    if (clampTo(bounds, here) !== here) this.film.show(clampTo(bounds, here));
  }

  /** Shows another angle at the instant that is on the screen. */
  async switchTo(
    clip: PlayedClip,
    snaps: { readonly here: number | null; readonly there: number | null },
  ): Promise<void> {
    const { clip: from, playing } = this.state.get();
    if (!this.film || !this.deck || !from) return this.load(clip);
    const leaving = this.film;
    const turn = this.turn;
    const film = await this.deck.film(clip.filmId).catch(() => null);
    if (turn !== this.turn) return;
    const at =
      film &&
      sameInstant(
        { times: leaving.times, clip: from, snapFrame: snaps.here },
        leaving.heading ?? from.inFrame,
        { times: film.times, clip, snapFrame: snaps.there },
      );
    await this.load(clip, at === null ? { play: playing } : { at, play: playing });
  }

  private moveTo(where: (here: number, times: FrameTimes) => number, keepPlaying = false): void {
    const { clip, playing } = this.state.get();
    if (!this.film || !clip) return;
    const here = this.film.heading ?? clip.inFrame;
    if (playing && !keepPlaying) {
      this.film.pause();
      this.patch({ playing: false });
    }
    this.film.show(clampTo(clip, where(here, this.film.times)));
  }

  private take(film: FilmElement): void {
    if (this.film && this.film !== film) {
      this.film.onFrame = null;
      this.film.onTrouble = null;
    }
    this.film = film;
    this.deck?.bringUp(film);
    film.onFrame = (frame) => this.onFrame(frame);
    film.onTrouble = (trouble) => this.patch({ trouble, playing: false });
    if (film.trouble) this.patch({ trouble: film.trouble });
  }

  private onFrame(frame: number): void {
    const { clip, playing } = this.state.get();
    if (!clip || !this.film) return;
    const last = clip.outFrame - 1;
    this.patch({ frame: Math.min(frame, last) });
    if (!playing || frame < last || this.film.heading !== frame) return;
    this.film.pause();
    this.patch({ playing: false });
    if (frame > last) this.film.show(last);
    this.onEnd?.();
  }

  private patch(more: Partial<PlayerState>): void {
    this.state.set((now) => ({ ...now, ...more }));
  }
}
