import type { Library } from '../library.ts';
import { angleLock } from '../migrations/0002-angle-lock.ts';
import { libraryVersion } from '../migrations/run.ts';

const LOCKS_SINCE = angleLock.version;

export interface FilmRow {
  readonly id: string;
  readonly gameId: string | null;
  readonly name: string;
  readonly angle: string;
  readonly frames: number;
  readonly fps: number;
  readonly seconds: number;
  readonly width: number;
  readonly height: number;
  readonly codec: string;
  readonly clips: number;
}

export interface FilmPlace {
  readonly filmId: string;
  readonly path: string;
  readonly bytes: number;
  readonly modifiedMs: number;
}

export interface ClipRow {
  readonly id: string;
  readonly playId: string;
  readonly filmId: string;
  readonly angle: string;
  readonly inFrame: number;
  readonly outFrame: number;
  /** a frame of this clip, and the frame of another film at the same instant; null: not set by hand */
  readonly lockFrame: number | null;
  readonly lockFilmId: string | null;
  readonly lockFilmFrame: number | null;
}

export interface MomentRow {
  readonly playId: string;
  readonly filmId: string;
  readonly kind: string;
  readonly frame: number;
  readonly ptsMicros: number;
}

const FILM_SELECT = `SELECT f.id, f.game_id AS gameId, f.name, f.angle, f.frames, f.fps, f.seconds, f.width, f.height, f.codec,
  (SELECT count(*) FROM clips c JOIN plays p ON p.id = c.play_id AND p.removed = 0
    WHERE c.film_id = f.id AND c.removed = 0) AS clips
  FROM films f WHERE f.removed = 0`;

export function listFilms(library: Library): FilmRow[] {
  return library.db.prepare(`${FILM_SELECT} ORDER BY f.game_id, f.name, f.id`).all() as FilmRow[];
}

export function findFilm(library: Library, filmId: string): FilmRow | null {
  return (library.db.prepare(`${FILM_SELECT} AND f.id = ?`).get(filmId) as FilmRow | undefined) ?? null;
}

export function playsOfFilm(library: Library, filmId: string): string[] {
  return library.db
    .prepare('SELECT DISTINCT play_id FROM clips WHERE film_id = ? AND removed = 0')
    .pluck()
    .all(filmId) as string[];
}

/** Where films lie on this station: the place seen last comes first. */
export function filmPlaces(library: Library, filmId: string): FilmPlace[] {
  return library.db
    .prepare(
      'SELECT film_id AS filmId, path, bytes, modified_ms AS modifiedMs FROM film_places WHERE film_id = ? ORDER BY rowid DESC',
    )
    .all(filmId) as FilmPlace[];
}

export function allFilmPlaces(library: Library): FilmPlace[] {
  return library.db
    .prepare(
      'SELECT film_id AS filmId, path, bytes, modified_ms AS modifiedMs FROM film_places ORDER BY rowid DESC',
    )
    .all() as FilmPlace[];
}

export function rememberPlace(library: Library, place: FilmPlace): void {
  library.db
    .prepare('INSERT OR REPLACE INTO film_places (film_id, path, bytes, modified_ms) VALUES (?, ?, ?, ?)')
    .run(place.filmId, place.path, place.bytes, place.modifiedMs);
}

/** A library from before locks is looked at without being brought up to date, and has none. */
function clipSelect(library: Library): string {
  const lock = (column: string) => (libraryVersion(library.db) < LOCKS_SINCE ? 'NULL' : `c.${column}`);
  return `SELECT c.id, c.play_id AS playId, c.film_id AS filmId, c.angle, c.in_frame AS inFrame, c.out_frame AS outFrame,
    ${lock('lock_frame')} AS lockFrame, ${lock('lock_film_id')} AS lockFilmId, ${lock('lock_film_frame')} AS lockFilmFrame
    FROM clips c WHERE c.removed = 0`;
}

/** Sideline first, then end zone: the order in which film is watched (common practice, no source). */
const CLIP_ORDER = "ORDER BY CASE c.angle WHEN 'sideline' THEN 0 WHEN 'endzone' THEN 1 ELSE 2 END, c.id";

export function clipsOfPlays(library: Library, playIds: readonly string[]): ClipRow[] {
  return library.db
    .prepare(`${clipSelect(library)} AND c.play_id IN (SELECT value FROM json_each(?)) ${CLIP_ORDER}`)
    .all(JSON.stringify(playIds)) as ClipRow[];
}

export function findClip(library: Library, clipId: string): ClipRow | null {
  return (
    (library.db.prepare(`${clipSelect(library)} AND c.id = ?`).get(clipId) as ClipRow | undefined) ?? null
  );
}

export function momentsOfPlays(library: Library, playIds: readonly string[]): MomentRow[] {
  return library.db
    .prepare(
      `SELECT play_id AS playId, film_id AS filmId, kind, frame, pts_micros AS ptsMicros FROM moments
       WHERE removed = 0 AND play_id IN (SELECT value FROM json_each(?)) ORDER BY film_id, frame`,
    )
    .all(JSON.stringify(playIds)) as MomentRow[];
}
