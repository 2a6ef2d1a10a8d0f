import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { type FilmRow, listFilms } from '../../../db/repositories/film.ts';
import { ProblemError } from '../../../football/result.ts';
import { isFilmName } from '../../film/film-files.ts';
import type { FilmFacts } from '../../film/film-types.ts';
import { probeFilm } from '../../film/probe.ts';
import { relinkTo } from '../film/add-films.ts';
import { proxyViews } from '../film/proxies.ts';
import { filmFacts, filmIdOf, filmOrProblem, lookAgain, whereAreAll } from '../film/shelf.ts';
import type { Station } from '../station.ts';
import type { Angle, FilmView } from '../views.ts';

export function filmViews(station: Station): FilmView[] {
  const places = whereAreAll(station.library);
  const proxyOf = proxyViews(station);
  const unknown: { filmId: string; path: string }[] = [];
  const views = listFilms(station.library).map((f) => {
    const facts = filmFacts(station.library, f.id);
    const path = places.get(f.id) ?? null;
    if (!facts && path) unknown.push({ filmId: f.id, path });
    return filmView(f, path, facts, proxyOf(f.id, facts));
  });
  if (unknown.length > 0) {
    void lookAgain(station.library, unknown).then((found) => found > 0 && station.tell({ type: 'films' }));
  }
  return views;
}

function filmView(
  f: FilmRow,
  path: string | null,
  facts: FilmFacts | null,
  proxy: Pick<FilmView, 'proxy' | 'proxyReason' | 'proxyBytes'>,
): FilmView {
  return {
    filmId: f.id,
    gameId: f.gameId,
    name: f.name,
    angle: f.angle as Angle,
    frames: f.frames,
    fps: f.fps,
    seconds: f.seconds,
    width: f.width,
    height: f.height,
    codec: f.codec,
    path,
    clips: f.clips,
    variable: facts?.variable ?? false,
    interlaced: facts?.interlaced ?? false,
    startTimecode: facts?.startTimecode ?? null,
    ...proxy,
  };
}

/**
 * Tells where a film lies now. The file is recognised by its content, whatever it is called.
 * @throws ProblemError `film-unknown`, `film-other`, or why the file cannot be read
 */
export async function relinkFilm(station: Station, filmId: string, path: string): Promise<FilmView> {
  const film = filmOrProblem(station.library, filmId);
  const probe = await probeFilm(path);
  if (!probe.ok) throw new ProblemError(probe.problem);
  if (!relinkTo(station, filmId, probe.value)) {
    throw new ProblemError({
      code: 'film-other',
      message: `${path} is not ${film.name}: its content is another.`,
      kept: 'Nothing was changed.',
      next: 'Choose the file itself; a copy that was cut or converted is another film.',
    });
  }
  station.tell({ type: 'films' });
  return filmViews(station).find((f) => f.filmId === filmId) as FilmView;
}

/** Looks through a folder for films that are missing, by their size first and then by their content. */
export async function relinkFolder(
  station: Station,
  folder: string,
): Promise<{ found: number; missing: number }> {
  const there = whereAreAll(station.library);
  const missing = new Set(
    listFilms(station.library)
      .filter((f) => !there.has(f.id))
      .map((f) => f.id),
  );
  const sizes = new Set(
    (
      station.library.db.prepare('SELECT film_id AS id, bytes FROM film_places').all() as {
        id: string;
        bytes: number;
      }[]
    )
      .filter((p) => missing.has(p.id))
      .map((p) => p.bytes),
  );
  let found = 0;
  for (const entry of readFolder(folder)) {
    if (missing.size === 0) break;
    const size = statSync(entry, { throwIfNoEntry: false })?.size;
    if (size === undefined || (sizes.size > 0 && !sizes.has(size))) continue;
    const probe = await probeFilm(entry);
    if (!probe.ok || !missing.has(filmIdOf(probe.value))) continue;
    relinkTo(station, filmIdOf(probe.value), probe.value);
    missing.delete(filmIdOf(probe.value));
    found += 1;
  }
  if (found > 0) station.tell({ type: 'films' });
  return { found, missing: missing.size };
}

function readFolder(folder: string): string[] {
  try {
    return readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((e) => e.isFile() && isFilmName(e.name))
      .map((e) => join(e.parentPath, e.name));
  } catch (error) {
    throw new ProblemError(
      {
        code: 'folder-missing',
        message: `The folder ${folder} cannot be read.`,
        kept: 'Nothing was changed.',
        next: 'Choose another folder.',
      },
      { cause: error },
    );
  }
}
