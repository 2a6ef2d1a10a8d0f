import { useEffect, useRef } from 'react';
import type { FilmView, JobView } from '../../electron/service/views.ts';
import { useStore } from '../state/store.ts';
import { ANGLE_WORDS } from './angles.ts';
import type { ClipPlayer } from './clip-player.ts';
import classes from './FilmScreen.module.css';
import type { PlayerState } from './player-state.ts';
import './film-element.css';
import { layoutStore } from './layout.ts';
import { useProxy } from './use-proxy.ts';

/** The film itself, and words in its place where there is none. A click plays or pauses. */
export function FilmScreen({ player, empty }: { readonly player: ClipPlayer; readonly empty?: string }) {
  const host = useRef<HTMLDivElement>(null);
  const state = useStore(player.state);
  const wanted = useStore(layoutStore);
  const { film, job } = useProxy(player);
  useEffect(() => player.attach(host.current!), [player]);
  const words = wordsFor(state, empty ?? 'This play has no film.', film, job);
  const layout = state.mate ? wanted : 'single';
  return (
    <div className={classes.screen}>
      {/* the same is on the play key and the button of the bar, so this needs no way by keyboard */}
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: the play command is the way by keyboard */}
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the play command is the way by keyboard */}
      <div
        ref={host}
        className={classes.host}
        onClick={() => player.toggle()}
        data-film-screen
        data-layout={layout}
      />
      {state.mate && state.clip && (
        <div className={classes.names} data-layout={layout}>
          <span className={classes.name}>{ANGLE_WORDS[state.clip.angle]}</span>
          <span
            className={classes.name}
            data-mate
            data-testid="mate-frame"
            data-frame={state.mate.frame ?? ''}
          >
            {ANGLE_WORDS[state.mate.clip.angle]},{' '}
            {state.mate.beyond ? 'no picture of this instant' : `frame ${state.mate.frame ?? '–'}`}
          </span>
        </div>
      )}
      {state.proxy && !words && (
        <span
          className={classes.proxy}
          title="A copy for viewing. Frame numbers, tags and exports are the film’s own."
        >
          proxy
        </span>
      )}
      {words && (
        <div className={classes.words} role="status">
          <strong>{words.what}</strong>
          {words.next && <span>{words.next}</span>}
        </div>
      )}
    </div>
  );
}

function wordsFor(
  state: PlayerState,
  empty: string,
  film: FilmView | null,
  job: JobView | null,
): { what: string; next?: string } | null {
  if (!state.clip) return { what: empty };
  const { trouble } = state;
  if (trouble === 'missing')
    return {
      what: 'The film is not where it was.',
      next: 'Tags are safe. Point to it again in the Film room: “Relink”.',
    };
  if (trouble === 'undecodable') return proxyWords(film, job);
  if (trouble)
    return { what: trouble.problem.message, ...(trouble.problem.next ? { next: trouble.problem.next } : {}) };
  return null;
}

function proxyWords(film: FilmView | null, job: JobView | null): { what: string; next: string } {
  const safe = 'The film is there and its tags are safe; exports still use the film itself.';
  if (job?.state === 'failed' || job?.state === 'cancelled')
    return { what: 'This window cannot show the film, and there is no copy for viewing.', next: safe };
  if (film?.proxy === 'making' || job) {
    const percent = job ? `: ${Math.floor(job.progress * 100)} %` : '';
    return { what: `A copy for viewing is being made${percent}.`, next: `${whyProxy(film)} ${safe}` };
  }
  return { what: 'This window cannot show the film.', next: `A copy for viewing was asked for. ${safe}` };
}

function whyProxy(film: FilmView | null): string {
  if (!film?.proxyReason) return 'This window does not play the film as it is.';
  return `${film.proxyReason[0]?.toUpperCase()}${film.proxyReason.slice(1)}.`;
}
