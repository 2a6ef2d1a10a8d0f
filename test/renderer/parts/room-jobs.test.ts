import { describe, expect, it } from 'vitest';
import type { JobState, JobView } from '../../../electron/service/views.ts';
import { roomJobs } from '../../../renderer/parts/jobs/room-jobs.ts';

function job(jobId: string, state: JobState, at: string, kind = 'add-films'): JobView {
  return { jobId, kind, label: jobId, state, progress: 0, report: null, problem: null, at };
}

const JOBS = [
  job('old', 'done', '2025-09-01'),
  job('running', 'running', '2025-09-02'),
  job('last', 'failed', '2025-09-03'),
  job('reel', 'done', '2025-09-04', 'export-cutup'),
];
const mine = (each: JobView) => each.kind === 'add-films';

describe('the work that a room shows', () => {
  it('is what runs, and the last that is over', () => {
    expect(roomJobs(JOBS, mine, new Set()).map((each) => each.jobId)).toEqual(['last', 'running']);
  });

  it('is not what was put away, nor an older one in its place', () => {
    expect(roomJobs(JOBS, mine, new Set(['last'])).map((each) => each.jobId)).toEqual(['running']);
  });
});
