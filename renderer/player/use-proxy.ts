import { useEffect } from 'react';
import type { FilmView, JobView } from '../../electron/service/views.ts';
import { filmCalls } from '../service/film-calls.ts';
import { useFilms, useJobs } from '../service/queries.ts';
import { useStore } from '../state/store.ts';
import type { ClipPlayer } from './clip-player.ts';

/** Films whose copy was asked for from this window; a failed one is asked for again by hand, not for ever. */
const asked = new Set<string>();

/**
 * Sees to a copy for viewing where the window can't show a film: asks for one, and puts it in place when it is there. The
 * film itself stays what is tagged and exported.
 */
export function useProxy(player: ClipPlayer): { film: FilmView | null; job: JobView | null } {
  const { clip, trouble, proxy } = useStore(player.state);
  const { data: films = [] } = useFilms();
  const { data: jobs = [] } = useJobs();
  const film = films.find((each) => each.filmId === clip?.filmId) ?? null;
  const filmId = film?.filmId ?? null;
  const unshowable = film !== null && (film.proxyReason !== null || trouble === 'undecodable');
  const state = film?.proxy;

  useEffect(() => {
    if (!filmId || !unshowable || proxy) return;
    if (state === 'ready') void player.reopen(filmId);
    else if (state !== 'making' && !asked.has(filmId)) {
      asked.add(filmId);
      void filmCalls.makeProxy(filmId).catch(() => undefined);
    }
  }, [player, filmId, unshowable, proxy, state]);

  const job = film
    ? (jobs.find(
        (each) => each.kind === 'make-proxy' && each.state !== 'done' && each.label.includes(film.name),
      ) ?? null)
    : null;
  return { film, job };
}
