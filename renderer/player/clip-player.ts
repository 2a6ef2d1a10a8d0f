import { problemFrom } from '../service/http.ts';
import { createStore } from '../state/store.ts';
import { type AngleSide, beyondMate, mateFrameAt, type Sync, syncAngles } from './angle-sync.ts';
import { FilmDeck } from './film-deck.ts';
import type { FilmElement } from './film-element.ts';
import { FilmRun, type RunMate } from './film-run.ts';
import {
  clampFrame,
  clampTo,
  type FrameTimes,
  frameAfterSeconds,
  type Stretch,
  withinFilm,
} from './frame-times.ts';
import { NOTHING, type PlayedClip, type PlayerState, RATES, type WantedMate } from './player-state.ts';

interface Mate {
  readonly film: FilmElement;
  readonly clip: PlayedClip;
  readonly sync: Sync;
}

/** Plays a clip between its bounds and obeys the film keys. Its state is a store that a screen reads. */
export class ClipPlayer {
  readonly state = createStore<PlayerState>(NOTHING);
  /** called when the last frame of the clip has been shown while playing */
  onEnd: (() => void) | null = null;
  private deck: FilmDeck | null = null;
  private film: FilmElement | null = null;
  private leading: PlayedClip | null = null;
  private mate: Mate | null = null;
  private wantedMate: WantedMate | null = null;
  private run: FilmRun | null = null;
  /** what was asked for while a film is being opened; the film before it must not obey in its place */
  private waiting: (() => void)[] | null = null;
  private turn = 0;
  private mateTurn = 0;

  attach(host: HTMLElement): () => void {
    this.deck = new FilmDeck(host);
    const { clip, frame, playing } = this.state.get();
    if (clip) void this.load(clip, { at: frame ?? clip.inFrame, play: playing });
    return () => {
      this.turn += 1;
      this.mateTurn += 1;
      this.halt();
      this.deck?.destroy();
      this.deck = null;
      this.film = null;
      this.mate = null;
      // what was on the screen is asked for again by the next screen
      this.patch({ playing: false, mate: null });
    };
  }

  /** Opens a film anew where its copy for viewing has come, and stands where it stood. */
  async reopen(filmId: string): Promise<void> {
    const { clip, frame, playing } = this.state.get();
    if (this.mate?.film.filmId === filmId) this.mate = null;
    if (this.film?.filmId === filmId) this.film = null;
    this.deck?.drop(filmId);
    if (clip) await this.load(clip, { at: frame ?? clip.inFrame, play: playing });
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
    this.waiting = null;
    this.halt();
    if (!clip || !this.deck) {
      void this.setMate(null);
      this.patch({ clip, frame: start.at ?? null, playing: start.play ?? false, times: null, trouble: null });
      return;
    }
    this.patch({ clip, playing: false, trouble: null });
    const waiting: (() => void)[] = [];
    this.waiting = waiting;
    let film: FilmElement;
    try {
      film = await this.deck.film(clip.filmId);
    } catch (error) {
      if (turn !== this.turn) return;
      this.waiting = null;
      this.patch({ trouble: { problem: problemFrom(error) }, frame: null });
      return;
    }
    if (turn !== this.turn || !this.deck) return;
    this.waiting = null;
    this.take(film);
    const bounds = withinFilm(film.times, clip);
    const at = clampTo(bounds, start.at ?? bounds.inFrame);
    this.patch({
      clip: { ...clip, ...bounds },
      times: film.times,
      proxy: film.proxy,
      frame: film.shown === at ? at : null,
    });
    this.showAt(at);
    if (start.play) this.play();
    for (const act of waiting) act();
    void this.placeMate();
  }

  /** Puts another angle beside the one that leads, held to it; `null` takes it away. */
  setMate(mate: WantedMate | null): Promise<void> {
    this.wantedMate = mate;
    return this.placeMate();
  }

  private async placeMate(): Promise<void> {
    const wanted = this.wantedMate;
    const turn = ++this.mateTurn;
    const film = wanted && (await this.deck?.film(wanted.clip.filmId).catch(() => null));
    if (turn !== this.mateTurn) return;
    const lead = this.film;
    if (this.mate && this.mate.film !== film && this.mate.film !== lead) {
      this.mate.film.onFrame = null;
      this.mate.film.onTrouble = null;
    }
    const had = this.mate !== null;
    if (!wanted || !film || !lead || film === lead || lead.filmId !== wanted.lead.filmId) {
      this.mate = null;
      this.deck?.pair(lead, null);
      this.patch({ mate: null });
    } else {
      const sync = syncAngles(wanted.lead, lead.times, wanted.side, film.times);
      this.mate = { film, clip: wanted.clip, sync };
      this.deck?.pair(lead, film);
      film.onTrouble = null;
      film.onFrame = (frame) => this.onMateFrame(frame);
      this.patch({ mate: { clip: wanted.clip, by: sync.by, frame: film.shown, beyond: false } });
      if (!this.run && lead.heading !== null) film.show(this.mateFrame(lead.heading));
    }
    // two films run out of their caches, one alone by its video element
    const { playing, direction } = this.state.get();
    if (playing && had !== (this.mate !== null)) this.play(direction);
  }

  play(direction: -1 | 1 = 1): void {
    const { clip } = this.state.get();
    if (!this.film || !clip || this.waiting) return;
    this.halt();
    // at the end, play means again
    if (this.atEnd(direction)) this.showAt(direction === 1 ? clip.inFrame : clip.outFrame - 1);
    this.begin(direction, false);
  }

  private atEnd(direction: -1 | 1): boolean {
    const { clip } = this.state.get();
    if (!clip) return true;
    const edge = direction === 1 ? clip.outFrame - 1 : clip.inFrame;
    return ((this.film?.heading ?? clip.inFrame) - edge) * direction >= 0;
  }

  /** @param cached forwards at full speed too, so that it starts and stops without the video element's delay */
  private begin(direction: -1 | 1, cached: boolean): void {
    const { clip, rate } = this.state.get();
    if (!this.film || !clip) return;
    this.patch({ playing: true, direction });
    const byVideo = !this.film.decodes || (rate === 1 && !cached && this.film.playsByVideo);
    if (direction === 1 && !this.mate && byVideo) this.film.play(rate);
    else
      this.run = new FilmRun(this.film, {
        direction,
        rate,
        bounds: () => this.state.get().clip ?? clip,
        mate: () => this.runMate(),
        onEnd: () => this.ended(),
      });
  }

  pause(): void {
    this.halt();
    this.patch({ playing: false });
    const shown = this.film?.shown ?? null;
    if (shown !== null) this.showAt(shown);
  }

  toggle(): void {
    if (this.waiting) {
      this.waiting.push(() => this.toggle());
      return;
    }
    if (this.state.get().playing) this.pause();
    else this.play();
  }

  toggleBackwards(): void {
    if (this.waiting) {
      this.waiting.push(() => this.toggleBackwards());
      return;
    }
    const { playing, direction } = this.state.get();
    if (playing && direction === -1) this.pause();
    else this.play(-1);
  }

  /** Runs a way until what it gives is called; then it stands on the frame that is shown. */
  runWhile(direction: -1 | 1): () => void {
    if (this.waiting || this.atEnd(direction)) return () => undefined;
    this.halt();
    this.begin(direction, true);
    const { run } = this;
    return () => {
      // a clip that came to its end meanwhile, or another one, is left as it is
      if (this.state.get().playing && this.run === run) this.pause();
    };
  }

  runBack(): void {
    const { clip } = this.state.get();
    if (!clip || !this.film) return;
    this.halt();
    this.showAt(clip.inFrame);
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
    if (rate === this.state.get().rate) return;
    this.patch({ rate });
    const { playing, direction } = this.state.get();
    if (playing) this.play(direction);
  }

  /** Runs a way at full speed; asked again while it runs, at half, at a quarter, and at full speed again. */
  runSlower(direction: -1 | 1): void {
    const now = this.state.get();
    const again = now.playing && now.direction === direction;
    const rate = again ? (RATES[(RATES.indexOf(now.rate) + 1) % RATES.length] ?? 1) : now.rate;
    this.patch({ rate });
    this.play(direction);
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

  /** Shows another angle at the instant that is on the screen, and goes on as it was going. */
  async switchTo(
    clip: PlayedClip,
    sides: { readonly here: AngleSide; readonly there: AngleSide },
  ): Promise<void> {
    const { clip: from } = this.state.get();
    if (!this.film || !this.deck || !from) return this.load(clip);
    const leaving = this.film;
    const turn = this.turn;
    const film = await this.deck.film(clip.filmId).catch(() => null);
    if (turn !== this.turn) return;
    const { playing, direction } = this.state.get();
    if (!film) return this.load(clip, { play: playing });
    const sync = syncAngles(sides.here, leaving.times, sides.there, film.times);
    const at = mateFrameAt(sync, leaving.times, leaving.heading ?? from.inFrame, film.times);
    await this.load(clip, { at: clampTo(withinFilm(film.times, clip), at) });
    if (playing && this.film === film) this.play(direction);
  }

  private moveTo(where: (here: number, times: FrameTimes) => number, keepPlaying = false): void {
    if (this.waiting) {
      this.waiting.push(() => this.moveTo(where, keepPlaying));
      return;
    }
    const { clip, playing, direction } = this.state.get();
    if (!this.film || !clip) return;
    const here = this.film.heading ?? clip.inFrame;
    this.halt();
    if (playing && !keepPlaying) this.patch({ playing: false });
    this.showAt(clampTo(clip, where(here, this.film.times)));
    if (playing && keepPlaying) this.play(direction);
  }

  /** Shows a frame of the leading film, and the other angle's of the same instant with it. */
  private showAt(frame: number): void {
    this.film?.show(frame);
    if (this.mate) this.mate.film.show(this.mateFrame(frame));
  }

  private mateFrame(frame: number): number {
    if (!this.film || !this.mate) return 0;
    return mateFrameAt(this.mate.sync, this.film.times, frame, this.mate.film.times);
  }

  /** The other angle's frame that would stand here if it were moved by some frames. */
  mateFrameMoved(by: number): number | null {
    const frame = this.film?.heading ?? null;
    if (frame === null || !this.mate) return null;
    return clampFrame(this.mate.film.times, this.mateFrame(frame) + by);
  }

  private runMate(): RunMate | null {
    return this.mate && { film: this.mate.film, frameFor: (frame) => this.mateFrame(frame) };
  }

  private halt(): void {
    this.run?.stop();
    this.run = null;
    this.film?.pause();
  }

  private take(film: FilmElement): void {
    const { film: before, mate, leading } = this;
    if (before && before !== film) {
      before.onFrame = null;
      before.onTrouble = null;
      before.onVideoLost = null;
    }
    this.film = film;
    this.leading = this.state.get().clip;
    if (mate?.film === film) {
      // the two change places, and neither gives up what it has decoded
      const { by, leadMicros, mateMicros } = mate.sync;
      this.mate =
        before && leading
          ? { film: before, clip: leading, sync: { by, leadMicros: mateMicros, mateMicros: leadMicros } }
          : null;
      if (before) before.onFrame = (frame) => this.onMateFrame(frame);
      this.patch({
        mate: this.mate && { clip: this.mate.clip, by, frame: this.mate.film.shown, beyond: false },
      });
    } else if (before !== film && mate) {
      this.mate = null;
      this.patch({ mate: null });
    }
    this.deck?.pair(film, this.mate?.film ?? null);
    film.onFrame = (frame) => this.onFrame(frame);
    film.onTrouble = (trouble) => this.patch({ trouble, playing: false });
    film.onVideoLost = () => {
      if (this.state.get().playing) this.play(this.state.get().direction);
    };
    if (film.trouble) this.patch({ trouble: film.trouble });
  }

  private onMateFrame(frame: number): void {
    const { mate } = this.state.get();
    if (mate) this.patch({ mate: { ...mate, frame } });
  }

  private tellBeyond(frame: number): void {
    const { mate } = this.state.get();
    if (!mate || !this.mate || !this.film) return;
    const beyond = beyondMate(this.mate.sync, this.film.times, frame, this.mate.film.times);
    if (beyond !== mate.beyond) this.patch({ mate: { ...mate, beyond } });
  }

  private onFrame(frame: number): void {
    const { clip, playing } = this.state.get();
    if (!clip || !this.film) return;
    const last = clip.outFrame - 1;
    this.patch({ frame: Math.min(frame, last) });
    this.tellBeyond(frame);
    // a run out of the cache counts its own end
    if (!playing || this.run || frame < last || this.film.heading !== frame) return;
    this.film.pause();
    if (frame > last) this.film.show(last);
    this.ended();
  }

  private ended(): void {
    const { direction } = this.state.get();
    this.halt();
    this.patch({ playing: false });
    if (direction === 1) this.onEnd?.();
  }

  private patch(more: Partial<PlayerState>): void {
    this.state.set((now) => ({ ...now, ...more }));
  }
}
