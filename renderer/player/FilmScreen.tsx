import { useEffect, useRef } from 'react';
import { useStore } from '../state/store.ts';
import type { ClipPlayer, PlayerState } from './clip-player.ts';
import classes from './FilmScreen.module.css';
import './film-element.css';

/** The film itself, and words in its place where there is none. A click plays or pauses. */
export function FilmScreen({ player, empty }: { readonly player: ClipPlayer; readonly empty?: string }) {
  const host = useRef<HTMLDivElement>(null);
  const state = useStore(player.state);
  useEffect(() => player.attach(host.current!), [player]);
  const words = wordsFor(state, empty ?? 'This play has no film.');
  return (
    <div className={classes.screen}>
      {/* the same is on the play key and the button of the bar, so this needs no way by keyboard */}
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: the play command is the way by keyboard */}
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the play command is the way by keyboard */}
      <div ref={host} className={classes.host} onClick={() => player.toggle()} data-film-screen />
      {words && (
        <div className={classes.words} role="status">
          <strong>{words.what}</strong>
          {words.next && <span>{words.next}</span>}
        </div>
      )}
    </div>
  );
}

function wordsFor(state: PlayerState, empty: string): { what: string; next?: string } | null {
  if (!state.clip) return { what: empty };
  const { trouble } = state;
  if (trouble === 'missing')
    return {
      what: 'The film is not where it was.',
      next: 'Tags are safe. Point to it again in the Film room: “Relink”.',
    };
  if (trouble === 'undecodable')
    return {
      what: 'This window cannot decode the film.',
      next: 'The file is there and its tags are safe. A copy in H.264 will play; exports still use the original.',
    };
  if (trouble)
    return { what: trouble.problem.message, ...(trouble.problem.next ? { next: trouble.problem.next } : {}) };
  return null;
}
