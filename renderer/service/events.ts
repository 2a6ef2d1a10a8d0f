import type { JobView, ServiceEvent } from '../../electron/service/views.ts';
import { createStore } from '../state/store.ts';
import { cache, keys } from './cache.ts';
import { refreshPlays } from './play-cache.ts';
import { tellProblem } from './problems.ts';

/** Whether the service is heard; the top bar says so when it is not. */
export const linkStore = createStore<'waiting' | 'open' | 'lost'>('waiting');

function takeJob(job: JobView): void {
  cache.setQueryData<JobView[]>(keys.jobs, (jobs = []) =>
    jobs.some((each) => each.jobId === job.jobId)
      ? jobs.map((each) => (each.jobId === job.jobId ? job : each))
      : [job, ...jobs],
  );
  if (job.state === 'failed' && job.problem) tellProblem(job.problem);
}

/** What each kind of change makes stale. */
const STALE: Readonly<Record<Exclude<ServiceEvent['type'], 'plays' | 'job'>, readonly string[]>> = {
  playbook: ['vocabulary', 'numbers', 'settings', 'metrics'],
  games: ['games', 'library'],
  films: ['films', 'games', 'plays', 'playsById', 'library'],
  cutups: ['cutups', 'library'],
  questions: ['questions'],
};

function takeEvent(event: ServiceEvent): void {
  if (event.type === 'plays') refreshPlays(event.playIds);
  else if (event.type === 'job') takeJob(event.job);
  else for (const queryKey of STALE[event.type]) void cache.invalidateQueries({ queryKey: [queryKey] });
}

/** Listens to the service for as long as the window is open; returns how to stop. */
export function listenToService(): () => void {
  const source = new EventSource('/api/events');
  source.onopen = () => {
    // what happened while nobody listened is unknown
    if (linkStore.get() === 'lost') void cache.invalidateQueries();
    linkStore.set('open');
  };
  source.onerror = () => linkStore.set('lost');
  source.onmessage = (message) => takeEvent(JSON.parse(message.data) as ServiceEvent);
  return () => source.close();
}
