import { cache, keys } from '../service/cache.ts';
import { service } from '../service/client.ts';
import { FilmElement } from './film-element.ts';
import { IDLE_BYTES } from './frames/exact-film.ts';

/** Films kept open at once: this play's angles and the next play's. */
const OPEN_FILMS = 4;
/** Bytes of decoded frames for the films on the screen together; with the idle ones' share under 600 MB. */
const SHOWN_BYTES = 480 * 1024 * 1024;

/**
 * The films that are open, one on top. Those that come next are opened ahead, so that the next play and the other
 * angle stand there at once.
 */
export class FilmDeck {
  private readonly open = new Map<string, FilmElement>();
  private readonly opening = new Map<string, Promise<FilmElement>>();
  private lead: FilmElement | null = null;
  private mate: FilmElement | null = null;
  private closed = false;

  constructor(private readonly host: HTMLElement) {}

  /** Opens a film, or gives the open one. Throws a `ProblemError` where its frames cannot be read. */
  film(filmId: string): Promise<FilmElement> {
    const there = this.open.get(filmId);
    if (there) {
      // youngest last
      this.open.delete(filmId);
      this.open.set(filmId, there);
      return Promise.resolve(there);
    }
    const coming = this.opening.get(filmId) ?? this.load(filmId);
    this.opening.set(filmId, coming);
    return coming;
  }

  /** Puts a film on the screen, and another one beside it; all others lie ready behind. */
  pair(lead: FilmElement | null, mate: FilmElement | null): void {
    for (const element of this.open.values()) if (element !== lead && element !== mate) this.rest(element);
    for (const [element, place] of [
      [lead, 'lead'],
      [mate, 'mate'],
    ] as const) {
      element?.root.setAttribute('data-place', place);
      element?.setLimit(mate ? SHOWN_BYTES / 2 : SHOWN_BYTES);
    }
    this.lead = lead;
    this.mate = mate;
    this.shed();
  }

  drop(filmId: string): void {
    const element = this.open.get(filmId);
    if (!element) return;
    this.open.delete(filmId);
    if (element === this.lead) this.lead = null;
    if (element === this.mate) this.mate = null;
    element.destroy();
  }

  destroy(): void {
    this.closed = true;
    for (const element of this.open.values()) element.destroy();
    this.open.clear();
    this.lead = null;
    this.mate = null;
  }

  private async load(filmId: string): Promise<FilmElement> {
    try {
      const films = await cache.fetchQuery({ queryKey: keys.films, queryFn: service.films });
      const view = films.find((each) => each.filmId === filmId);
      // what the window can't show itself is shown by its copy for viewing, frame for frame
      const proxy = view?.proxy === 'ready';
      const times = await cache.fetchQuery({
        queryKey: [...keys.frameTimes(filmId), proxy],
        queryFn: () => service.frameTimes(filmId, proxy ? 'proxy' : undefined),
      });
      const source = `/media/films/${encodeURIComponent(filmId)}${proxy ? '/proxy' : ''}`;
      const element = new FilmElement(filmId, times, source, proxy, this.host);
      if (this.closed) element.destroy();
      else {
        this.open.set(filmId, element);
        this.shed();
      }
      return element;
    } finally {
      this.opening.delete(filmId);
    }
  }

  private rest(element: FilmElement): void {
    element.pause();
    element.root.removeAttribute('data-place');
    element.setLimit(IDLE_BYTES);
  }

  private shed(): void {
    for (const [filmId, element] of this.open) {
      if (this.open.size <= OPEN_FILMS) return;
      if (element === this.lead || element === this.mate) continue;
      this.open.delete(filmId);
      element.destroy();
    }
  }
}
