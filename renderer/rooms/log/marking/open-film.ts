import type { FilmView, PlayView } from '../../../../electron/service/views.ts';

/**
 * A film in which plays are still to be found: no clip takes it whole, as clips do where each file is one play.
 */
export function isOpenFilm(film: FilmView, plays: readonly PlayView[]): boolean {
  return !plays.some((play) =>
    play.clips.some(
      (clip) => clip.filmId === film.filmId && clip.inFrame === 0 && clip.outFrame >= film.frames,
    ),
  );
}

/** The recordings of a game in which plays can be marked, the longest first. */
export function openFilms(
  films: readonly FilmView[],
  gameId: string,
  plays: readonly PlayView[],
): FilmView[] {
  return films
    .filter((film) => film.gameId === gameId && film.path !== null && isOpenFilm(film, plays))
    .sort((a, b) => b.frames - a.frames);
}
