import { JobReport } from '../../parts/jobs/JobReport.tsx';
import { useRoomJobs } from '../../parts/jobs/use-room-jobs.ts';
import { readAddReport, reportInWords } from './add-report.ts';
import classes from './film.module.css';

/** How far bringing film in is, and what came of it; the last one stays until it is put away. */
export function ImportJobs() {
  const { jobs, putAway } = useRoomJobs((job) => job.kind === 'add-films');
  return (
    <div className={classes.jobs} data-noprint>
      {jobs.map((job) => {
        const report = readAddReport(job.report);
        return (
          <JobReport
            key={job.jobId}
            job={job}
            outcome={reportInWords(job.state, report)}
            onPutAway={() => putAway(job.jobId)}
          >
            {report && report.knownNames.length > 0 && (
              <p className={classes.refused}>
                Here already, known by its content: {report.knownNames.slice(0, 6).join(', ')}
                {report.knownNames.length > 6 && ` and ${report.knownNames.length - 6} more`}. No second film
                was made of it.
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
          </JobReport>
        );
      })}
    </div>
  );
}
