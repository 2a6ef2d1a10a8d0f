import { Button, Progress } from '@mantine/core';
import type { ReactNode } from 'react';
import type { JobView } from '../../../electron/service/views.ts';
import { service } from '../../service/client.ts';
import { gesture } from '../../service/gesture.ts';
import classes from './jobs.module.css';

interface JobReportProps {
  readonly job: JobView;
  /** what came of it, once it is over */
  readonly outcome: string;
  readonly onPutAway: () => void;
  /** the report in full, under the line */
  readonly children?: ReactNode;
}

/** Long work in the room it was started from: how far it is, cancel and resume, what came of it, what went wrong. */
export function JobReport({ job, outcome, onPutAway, children }: JobReportProps) {
  const going = job.state === 'running' || job.state === 'waiting';
  const stopped = job.state === 'cancelled' || job.state === 'failed';
  return (
    <section className={classes.job} aria-label={job.label}>
      <div className={classes.line}>
        <span className={classes.label} role="status">
          {job.label}: {going ? `${Math.round(job.progress * 100)} %` : outcome}
        </span>
        {going && <Button onClick={() => void gesture(() => service.cancelJob(job.jobId))}>Cancel</Button>}
        {stopped && <Button onClick={() => void gesture(() => service.resumeJob(job.jobId))}>Resume</Button>}
        {!going && <Button onClick={onPutAway}>Put away</Button>}
      </div>
      {going && <Progress value={job.progress * 100} size={5} aria-label={`Progress of ${job.label}`} />}
      {job.problem && (
        <p className={classes.problem} role="alert">
          <strong>{job.problem.message}</strong> {job.problem.kept} {job.problem.next}
        </p>
      )}
      {children}
    </section>
  );
}
