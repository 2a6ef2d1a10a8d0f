import type { JobView } from '../../../electron/service/views.ts';

/** Every running job of a room, and of the finished ones the last, unless it was put away. */
export function roomJobs(
  jobs: readonly JobView[],
  isMine: (job: JobView) => boolean,
  away: ReadonlySet<string>,
): JobView[] {
  const going = (job: JobView) => job.state === 'running' || job.state === 'waiting';
  const mine = jobs.filter(isMine).sort((a, b) => b.at.localeCompare(a.at));
  const last = mine.find((job) => !going(job));
  return mine.filter((job) => going(job) || (job === last && !away.has(job.jobId)));
}
