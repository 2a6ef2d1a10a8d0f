import type { Angle, FilmView, GameView, JobView } from '../../electron/service/views.ts';
import { ask } from './http.ts';

export interface NewGame {
  readonly title: string;
  readonly season?: number | null;
  readonly week?: number | null;
  readonly date?: string | null;
  readonly opponent?: string | null;
}

export interface AddFilms {
  readonly paths: readonly string[];
  readonly gameId: string;
  /** null: guessed from each file's name */
  readonly angle: Angle | null;
  readonly onePlayPerFile: boolean;
}

/** Gestures on games and film. */
export const filmCalls = {
  addGame: (game: NewGame) => ask<GameView>('/api/games', game),
  addFilms: (films: AddFilms) => ask<JobView>('/api/films/add', films),
  relink: (filmId: string, path: string) =>
    ask<FilmView>(`/api/films/${encodeURIComponent(filmId)}/relink`, { path }),
  relinkFolder: (folder: string) =>
    ask<{ found: number; missing: number }>('/api/films/relink-folder', { folder }),
};

export const stillUrl = (filmId: string, frame: number) =>
  `/media/stills/${encodeURIComponent(filmId)}/${frame}.jpg`;
