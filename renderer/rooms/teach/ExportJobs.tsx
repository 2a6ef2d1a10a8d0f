import { Button } from '@mantine/core';
import { JobReport } from '../../parts/jobs/JobReport.tsx';
import { useRoomJobs } from '../../parts/jobs/use-room-jobs.ts';
import { desktop } from '../../service/desktop.ts';
import { exportInWords, exportPath } from './export-report.ts';
import classes from './teach.module.css';

/** Exports of this cut-up: progress, where the file lies, what went wrong. */
export function ExportJobs({ name }: { readonly name: string }) {
  const { jobs, putAway } = useRoomJobs(
    (job) => job.kind === 'export-cutup' && job.label === `Write ${name}`,
  );
  return (
    <div className={classes.jobs} data-noprint>
      {jobs.map((job) => {
        const path = exportPath(job.report);
        const bridge = desktop();
        return (
          <JobReport
            key={job.jobId}
            job={job}
            outcome={job.state === 'done' ? exportInWords(job.report) : job.state}
            onPutAway={() => putAway(job.jobId)}
          >
            {path && bridge && job.state === 'done' && (
              <div>
                <Button onClick={() => void bridge.reveal(path)}>Show it in its folder</Button>
              </div>
            )}
          </JobReport>
        );
      })}
    </div>
  );
}
