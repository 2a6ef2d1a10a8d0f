import { cache, keys } from '../service/cache.ts';
import { service } from '../service/client.ts';
import { FilmElement } from './film-element.ts';

/** Films kept open at once: this play's angles and the next play's. */
const OPEN_FILMS = 4;

/**
 * The films that are open, one on top. Those that come next are opened ahead, so that the next play and the other
 * angle stand there at once.
 */
export class FilmDeck {
  private readonly open = new Map<string, FilmElement>();
  private readonly opening = new Map<string, Promise<FilmElement>>();
  private top: FilmElement | null = null;
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

  bringUp(element: FilmElement): void {
    if (this.top !== element) {
      this.top?.pause();
      this.top?.root.removeAttribute('data-top');
    }
    this.top = element;
    element.root.setAttribute('data-top', '');
    this.shed();
  }

  destroy(): void {
    this.closed = true;
    for (const element of this.open.values()) element.destroy();
    this.open.clear();
    this.top = null;
  }

  private async load(filmId: string): Promise<FilmElement> {
    try {
      const times = await cache.fetchQuery({
        queryKey: keys.frameTimes(filmId),
        queryFn: () => service.frameTimes(filmId),
      });
      const source = `/media/films/${encodeURIComponent(filmId)}`;
      const element = new FilmElement(filmId, times, source, this.host);
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

  private shed(): void {
    for (const [filmId, element] of this.open) {
      if (this.open.size <= OPEN_FILMS) return;
      if (element === this.top) continue;
      this.open.delete(filmId);
      element.destroy();
    }
  }
}
