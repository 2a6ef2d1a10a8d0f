import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { ProblemError } from '../../../football/result.ts';
import type { FilmTools } from '../../film/film-types.ts';
import { makeStill } from '../../film/stills.ts';
import { findFilmTools } from '../../film/tools.ts';
import type { Station } from '../station.ts';
import { filmPathOrProblem, frameTableOf } from './shelf.ts';

let tools: Promise<FilmTools> | null = null;

/** The film programs of this machine, looked for once. @throws ProblemError when there is no ffmpeg */
export function filmTools(): Promise<FilmTools> {
  tools ??= findFilmTools().then((found) => {
    if (!found.ok) {
      tools = null;
      throw new ProblemError(found.problem);
    }
    return found.value;
  });
  return tools;
}

const making = new Map<string, Promise<void>>();

/** The path of a small JPEG of a frame, made when it is first asked for. */
export async function stillPath(station: Station, filmId: string, frame: number): Promise<string> {
  const { library } = station;
  const path = join(library.cacheFolder, 'stills', filmId, `${frame}.jpg`);
  if (existsSync(path)) return path;
  const film = filmPathOrProblem(library, filmId);
  const table = await frameTableOf(library, filmId);
  const known = making.get(path);
  const work =
    known ??
    filmTools()
      .then((t) => makeStill({ path: film, table, frame, target: path, tools: t }))
      .then((made) => {
        if (!made.ok) throw new ProblemError(made.problem);
      })
      .finally(() => making.delete(path));
  making.set(path, work);
  await work;
  return path;
}
