import { listFilms } from '../../../db/repositories/film.ts';
import { ProblemError } from '../../../football/result.ts';
import { makeFilmProxy } from '../film/make-proxy.ts';
import { dropProxy, filmsWithoutProxy, keptProxies } from '../film/proxies.ts';
import { changeProxySettings, proxySettings } from '../film/proxy-settings.ts';
import type { Station } from '../station.ts';
import type { Exit, Output } from './output.ts';

export interface ProxyOptions {
  readonly make?: boolean;
  readonly drop?: boolean;
  readonly limit?: number;
  readonly height?: number;
}

/** Lists proxies after doing what the options say: change the settings, drop, make. */
export async function proxiesCommand(
  station: Station,
  names: readonly string[],
  options: ProxyOptions,
  output: Output,
): Promise<Exit> {
  const { library } = station;
  const { limit, height } = options;
  if (limit !== undefined || height !== undefined) {
    changeProxySettings(library, {
      ...(limit === undefined ? {} : { limitGigabytes: limit }),
      ...(height === undefined ? {} : { height }),
    });
  }
  const named = names.map((name) => filmNamed(station, name));
  if (options.drop) {
    const ids = named.length > 0 ? named.map((film) => film.id) : keptProxies(library).map((p) => p.filmId);
    for (const filmId of ids) dropProxy(station, filmId);
  }
  const refused: { name: string; reason: string }[] = [];
  for (const film of options.make ? (named.length > 0 ? named : filmsWithoutProxy(station)) : []) {
    try {
      const made = await makeFilmProxy(station, { filmId: film.id, awaited: true });
      output.say(`${film.name}: ${made.frames} frames, ${(made.bytes / 1e6).toFixed(1)} MB`);
    } catch (error) {
      if (!(error instanceof ProblemError)) throw error;
      const { message, next } = error.problem;
      refused.push({ name: film.name, reason: next ? `${message} ${next}` : message });
    }
  }
  const nameOf = new Map(listFilms(library).map((film) => [film.id, film.name]));
  const proxies = keptProxies(library).map(({ filmId, bytes, usedMs }) => ({
    filmId,
    name: nameOf.get(filmId) ?? null,
    bytes,
    used: new Date(usedMs).toISOString(),
  }));
  const missing = filmsWithoutProxy(station).map((film) => film.name);
  const { limitBytes, fit } = proxySettings(library);
  const bytes = proxies.reduce((sum, proxy) => sum + proxy.bytes, 0);
  output.print({ proxies, missing, refused, bytes, limitBytes, height: fit.height }, () => [
    ...proxies.map((p) => `${p.name ?? p.filmId}: ${(p.bytes / 1e6).toFixed(1)} MB, used ${p.used}`),
    `${proxies.length} proxies, ${(bytes / 1e9).toFixed(2)} of ${(limitBytes / 1e9).toFixed(0)} GB; ${missing.length} needed and missing.`,
  ]);
  for (const { name, reason } of refused) output.say(`Refused ${name}: ${reason}`);
  return refused.length > 0 ? 1 : 0;
}

function filmNamed(station: Station, name: string) {
  const film = listFilms(station.library).find((each) => each.name === name || each.id === name);
  if (film) return film;
  throw new ProblemError({
    code: 'film-unknown',
    message: `There is no film ${name} in the library.`,
    kept: 'Nothing was changed.',
    next: 'Look at the names in the Film room.',
  });
}
