import { useState } from 'react';
import type { JobView } from '../../../electron/service/views.ts';
import { useJobs } from '../../service/queries.ts';
import { roomJobs } from './room-jobs.ts';

/** The jobs that a room shows: those that run and the last one, until it is put away. */
export function useRoomJobs(isMine: (job: JobView) => boolean): {
  readonly jobs: readonly JobView[];
  readonly putAway: (jobId: string) => void;
} {
  const { data: jobs = [] } = useJobs();
  const [away, setAway] = useState<ReadonlySet<string>>(new Set());
  return {
    jobs: roomJobs(jobs, isMine, away),
    putAway: (jobId) => setAway((now) => new Set([...now, jobId])),
  };
}
