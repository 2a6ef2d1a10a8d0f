import { Button } from '@mantine/core';
import { useState } from 'react';
import type { FilmView, JobView } from '../../../electron/service/views.ts';
import { cache, keys } from '../../service/cache.ts';
import { service } from '../../service/client.ts';
import { filmCalls, stillUrl } from '../../service/film-calls.ts';
import { gesture } from '../../service/gesture.ts';
import { problemFrom } from '../../service/http.ts';
import { tellProblem } from '../../service/problems.ts';
import { showPlays } from '../../state/showing.ts';
import classes from './film.module.css';
import { angleLabel, codecInWords, lengthInWords, oddities, rateInWords, stillFrame } from './film-words.ts';
import { ProxyCell } from './ProxyCell.tsx';

interface FilmRowProps {
  readonly film: FilmView;
  /** that makes its proxy, while it does */
  readonly job: JobView | null;
  readonly onRelink: () => void;
}

/** A film longer than one play, in seconds. */
const LONG_SECONDS = 25;

/** One film: what the probe found, and the way to its plays. */
export function FilmRow({ film, job, onRelink }: FilmRowProps) {
  const odd = oddities(film);
  return (
    <tr>
      <td>
        <Still film={film} />
      </td>
      <th scope="row" className={classes.name} title={film.path ?? film.name}>
        {film.name}
        {film.path === null ? (
          <span className={classes.path}>
            <span className={classes.missing}>Not where it was. </span>
            <Button size="compact-xs" onClick={onRelink}>
              Relink
            </Button>
          </span>
        ) : (
          <span className={classes.path}>{folderOf(film.path)}</span>
        )}
      </th>
      <td>{angleLabel(film.angle)}</td>
      <td className={classes.number}>{lengthInWords(film.seconds)}</td>
      <td className={classes.number}>{film.frames.toLocaleString('en-US')}</td>
      <td className={classes.number}>
        {rateInWords(film.fps)} fps{film.variable && <span className={classes.path}>variable</span>}
      </td>
      <td>
        {film.width}×{film.height} {codecInWords(film.codec)}
        {odd && <span className={classes.path}>{odd}</span>}
      </td>
      <td>
        <ProxyCell film={film} job={job} />
      </td>
      <td className={classes.number}>
        {film.clips === 0 ? (
          <NoClips film={film} />
        ) : (
          <button
            type="button"
            className={classes.plays}
            title="Play its clips"
            onClick={() => void playFilm(film)}
          >
            {film.clips}
          </button>
        )}
      </td>
    </tr>
  );
}

/** A recording in which nobody has marked a play yet can be looked through; what is found is proposed in the Log room. */
function NoClips({ film }: { readonly film: FilmView }) {
  if (film.path === null || film.seconds < LONG_SECONDS) return '0';
  return (
    <Button
      size="compact-xs"
      aria-label={`Find the plays of ${film.name}`}
      title="Proposes plays; you accept them in the Log room"
      onClick={() => void gesture(() => filmCalls.split(film.filmId))}
    >
      Find the plays
    </Button>
  );
}

/** A picture out of the film; a film that is missing, or whose still cannot be made, has a blank of the same size. */
function Still({ film }: { readonly film: FilmView }) {
  const [failed, setFailed] = useState(false);
  if (film.path === null || failed) return <span className={classes.still} />;
  return (
    <img
      className={classes.still}
      src={stillUrl(film.filmId, stillFrame(film))}
      alt=""
      width={96}
      height={54}
      loading="lazy"
      onError={() => setFailed(true)}
    />
  );
}

function folderOf(path: string): string {
  return path.replace(/[\\/][^\\/]*$/, '');
}

async function playFilm(film: FilmView): Promise<void> {
  if (film.gameId === null) return;
  const { gameId } = film;
  try {
    const plays = await cache.fetchQuery({
      queryKey: keys.plays(gameId),
      queryFn: () => service.plays(gameId),
    });
    const here = plays.filter((play) => play.clips.some((clip) => clip.filmId === film.filmId));
    showPlays({ title: film.name, playIds: here.map((play) => play.playId) });
  } catch (error) {
    tellProblem(problemFrom(error));
  }
}
