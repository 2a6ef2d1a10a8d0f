import { Button, Progress } from '@mantine/core';
import { useState } from 'react';
import type { JobView } from '../../../electron/service/views.ts';
import { service } from '../../service/client.ts';
import { gesture } from '../../service/gesture.ts';
import { useJobs } from '../../service/queries.ts';
import { readAddReport, reportInWords } from './add-report.ts';
import classes from './film.module.css';

/** How far bringing film in is, and what came of it; the last one stays until it is put away. */
export function ImportJobs() {
  const { data: jobs = [] } = useJobs();
  const [away, setAway] = useState<ReadonlySet<string>>(new Set());
  const shown = jobs
    .filter((job) => job.kind === 'add-films' && !away.has(job.jobId))
    .filter((job, index) => index === 0 || job.state === 'running' || job.state === 'waiting');
  return (
    <div className={classes.jobs} data-noprint>
      {shown.map((job) => (
        <ImportJob
          key={job.jobId}
          job={job}
          onPutAway={() => setAway((now) => new Set([...now, job.jobId]))}
        />
      ))}
    </div>
  );
}

function ImportJob({ job, onPutAway }: { readonly job: JobView; readonly onPutAway: () => void }) {
  const going = job.state === 'running' || job.state === 'waiting';
  const report = readAddReport(job.report);
  return (
    <section className={classes.job} aria-label={job.label}>
      <div className={classes.jobLine}>
        <span className={classes.jobLabel} role="status">
          {job.label}: {going ? `${Math.round(job.progress * 100)} %` : reportInWords(job.state, report)}
        </span>
        {going && <Button onClick={() => void gesture(() => service.cancelJob(job.jobId))}>Cancel</Button>}
        {(job.state === 'cancelled' || job.state === 'failed') && (
          <Button onClick={() => void gesture(() => service.resumeJob(job.jobId))}>Resume</Button>
        )}
        {!going && <Button onClick={onPutAway}>Put away</Button>}
      </div>
      {going && <Progress value={job.progress * 100} size={5} aria-label={`Progress of ${job.label}`} />}
      {job.problem && (
        <p className={classes.sub}>
          <span className={classes.missing}>{job.problem.message}</span> {job.problem.kept} {job.problem.next}
        </p>
      )}
      {report && report.refused.length > 0 && (
        <ul className={classes.refused} aria-label="Refused files">
          {report.refused.map(({ path, reason }) => (
            <li key={path} title={path}>
              <strong>Refused</strong> {reason}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
