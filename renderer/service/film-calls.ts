import type { Angle, ProposalView } from '../../electron/service/views.ts';
import { answer, api } from './api.ts';

export interface NewGame {
  readonly title: string;
  readonly season: number | null;
  readonly week: number | null;
  /** as 2025-09-06 */
  readonly date: string | null;
  readonly opponent: string | null;
}

export interface AddFilms {
  readonly paths: readonly string[];
  /** title of a game that is there, or of a new one */
  readonly gameTitle: string;
  /** null: guessed from each file's name */
  readonly angle: Angle | null;
  readonly onePlayPerFile: boolean;
}

/** Gestures on games and film. */
export const filmCalls = {
  addGame: (game: NewGame) => answer(api.games.$post({ json: game })),
  addFilms: ({ paths, ...films }: AddFilms) =>
    answer(api.films.add.$post({ json: { ...films, paths: [...paths] } })),
  relink: (filmId: string, path: string) =>
    answer(api.films[':filmId'].relink.$post({ param: { filmId }, json: { path } })),
  /** Has a copy for viewing made of a film that this window can't show. */
  makeProxy: (filmId: string) => answer(api.films[':filmId'].proxy.$post({ param: { filmId } })),
  dropProxy: (filmId: string) => answer(api.films[':filmId'].proxy.$delete({ param: { filmId } })),
  /** Has the plays of a film looked for; what is found are proposals. */
  split: (filmId: string) => answer(api.films[':filmId'].split.$post({ param: { filmId } })),
  proposals: (filmId: string) => answer(api.films[':filmId'].proposals.$get({ param: { filmId } })),
  accept: (filmId: string, proposals: readonly ProposalView[]) =>
    answer(api.films[':filmId'].accept.$post({ param: { filmId }, json: { proposals: [...proposals] } })),
  relinkFolder: (folder: string) => answer(api.films['relink-folder'].$post({ json: { folder } })),
};

export const stillUrl = (filmId: string, frame: number) =>
  `/media/stills/${encodeURIComponent(filmId)}/${frame}.jpg`;
