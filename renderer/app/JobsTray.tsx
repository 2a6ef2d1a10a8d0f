import { ActionIcon, Button, Popover, Progress, Tooltip } from '@mantine/core';
import { IconStack2 } from '@tabler/icons-react';
import { useState } from 'react';
import type { JobView } from '../../electron/service/views.ts';
import { useCommand } from '../commands/Commands.tsx';
import { service } from '../service/client.ts';
import { gesture } from '../service/gesture.ts';
import { useJobs } from '../service/queries.ts';
import classes from './JobsTray.module.css';

const STATE_WORDS: Readonly<Record<JobView['state'], string>> = {
  waiting: 'waiting',
  running: 'running',
  done: 'done',
  failed: 'failed',
  cancelled: 'cancelled',
};

/** Long work of the station: how far it is, and its cancel and resume. */
export function JobsTray() {
  const { data: jobs = [] } = useJobs();
  const [open, setOpen] = useState(false);
  useCommand('jobs.open', () => setOpen((now) => !now));
  const busy = jobs.filter((job) => job.state === 'running' || job.state === 'waiting').length;
  const label = busy === 0 ? 'No running work' : busy === 1 ? '1 job running' : `${busy} jobs running`;
  return (
    <Popover opened={open} onChange={setOpen} position="bottom-end" width={360} shadow="md">
      <Popover.Target>
        <Tooltip label={`${label} (Ctrl+J)`} disabled={open}>
          <ActionIcon aria-label={label} onClick={() => setOpen((now) => !now)} className={classes.button}>
            <IconStack2 size={17} />
            {busy > 0 && <span className={classes.count}>{busy}</span>}
          </ActionIcon>
        </Tooltip>
      </Popover.Target>
      <Popover.Dropdown aria-label="Work of the station">
        {jobs.length === 0 && <p className={classes.none}>Imports, reels and exports show here.</p>}
        <ul className={classes.list}>
          {jobs.slice(0, 12).map((job) => (
            <Job key={job.jobId} job={job} />
          ))}
        </ul>
      </Popover.Dropdown>
    </Popover>
  );
}

function Job({ job }: { readonly job: JobView }) {
  const going = job.state === 'running' || job.state === 'waiting';
  return (
    <li className={classes.job}>
      <div className={classes.line}>
        <span className={classes.label}>{job.label}</span>
        <span className={classes.state} data-state={job.state}>
          {job.state === 'running' ? `${Math.round(job.progress * 100)} %` : STATE_WORDS[job.state]}
        </span>
        {going && (
          <Button size="compact-xs" onClick={() => void gesture(() => service.cancelJob(job.jobId))}>
            Cancel
          </Button>
        )}
        {(job.state === 'failed' || job.state === 'cancelled') && (
          <Button size="compact-xs" onClick={() => void gesture(() => service.resumeJob(job.jobId))}>
            Resume
          </Button>
        )}
      </div>
      {going && <Progress value={job.progress * 100} size={4} aria-label={`Progress of ${job.label}`} />}
      {job.problem && <p className={classes.problem}>{job.problem.message}</p>}
    </li>
  );
}
