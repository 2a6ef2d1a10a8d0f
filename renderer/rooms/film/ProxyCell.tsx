import { Button, Progress } from '@mantine/core';
import type { FilmView, JobView } from '../../../electron/service/views.ts';
import { bytesInWords } from '../../parts/bytes.ts';
import { service } from '../../service/client.ts';
import { filmCalls } from '../../service/film-calls.ts';
import { gesture } from '../../service/gesture.ts';
import classes from './film.module.css';

/** How the window shows a film: by itself, by a copy for viewing, or not yet; and the way to make and drop the copy. */
export function ProxyCell({ film, job }: { readonly film: FilmView; readonly job: JobView | null }) {
  const make = () => void gesture(() => filmCalls.makeProxy(film.filmId));
  const drop = () => void gesture(() => filmCalls.dropProxy(film.filmId));
  if (film.proxy === 'making') {
    const percent = Math.round((job?.progress ?? 0) * 100);
    return (
      <div className={classes.proxy}>
        <span>{job?.state === 'running' ? `Making a proxy: ${percent} %` : 'Proxy waits its turn'}</span>
        <Progress value={percent} size={4} aria-label={`Progress of the proxy of ${film.name}`} />
        {job && (
          <Button
            size="compact-xs"
            aria-label={`Cancel the proxy of ${film.name}`}
            onClick={() => void gesture(() => service.cancelJob(job.jobId))}
          >
            Cancel
          </Button>
        )}
      </div>
    );
  }
  if (film.proxy === 'ready') {
    return (
      <div className={classes.proxy}>
        <span>Proxy, {bytesInWords(film.proxyBytes ?? 0)}</span>
        <Button size="compact-xs" aria-label={`Drop the proxy of ${film.name}`} onClick={drop}>
          Drop proxy
        </Button>
      </div>
    );
  }
  const wanted = film.proxy === 'wanted';
  return (
    <div className={classes.proxy}>
      <span className={wanted ? classes.missing : undefined} title={film.proxyReason ?? undefined}>
        {wanted ? 'Needs a proxy' : 'Plays as it is'}
      </span>
      {film.proxyReason && <span className={classes.why}>{film.proxyReason}</span>}
      {film.path !== null && (
        <Button
          size="compact-xs"
          variant={wanted ? 'filled' : 'subtle'}
          aria-label={`Make a proxy of ${film.name}`}
          onClick={make}
        >
          Make proxy
        </Button>
      )}
    </div>
  );
}
