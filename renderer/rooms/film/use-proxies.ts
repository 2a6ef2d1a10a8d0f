import { useMemo } from 'react';
import type { FilmView, JobView } from '../../../electron/service/views.ts';
import { useCommand } from '../../commands/Commands.tsx';
import { filmCalls } from '../../service/film-calls.ts';
import { gesture } from '../../service/gesture.ts';
import { useJobs } from '../../service/queries.ts';

/** The jobs that make proxies now or wait for it, by film. */
export function useProxyJobs(): ReadonlyMap<string, JobView> {
  const { data: jobs = [] } = useJobs();
  return useMemo(
    () =>
      new Map(
        jobs
          .filter((job) => job.kind === 'make-proxy' && (job.state === 'running' || job.state === 'waiting'))
          .flatMap((job) => (job.filmId ? [[job.filmId, job] as const] : [])),
      ),
    [jobs],
  );
}

/** Keys for all films that are shown: make the proxies they need, drop the ones they have. */
export function useProxyCommands(films: readonly FilmView[]): void {
  const missing = films.filter((film) => film.proxy === 'wanted' && film.path !== null);
  const ready = films.filter((film) => film.proxy === 'ready');
  const each = async (some: readonly FilmView[], call: (filmId: string) => Promise<unknown>) => {
    for (const film of some) if (!(await gesture(() => call(film.filmId)))) return;
  };
  useCommand(
    'films.makeProxies',
    () => void each(missing, filmCalls.makeProxy),
    () => missing.length > 0,
  );
  useCommand(
    'films.dropProxies',
    () => void each(ready, filmCalls.dropProxy),
    () => ready.length > 0,
  );
}
