import { useState } from 'react';
import type { PlayView } from '../../../electron/service/views.ts';
import type { MomentKind } from '../../../football/play.ts';
import { useCommand } from '../../commands/Commands.tsx';
import type { ClipPlayer } from '../../player/clip-player.ts';
import { changePlays } from '../../service/gesture.ts';
import { playCalls } from '../../service/play-calls.ts';

/** Stamps moments on the frame that is on the screen. */
export function useStamps(player: ClipPlayer, play: PlayView | null) {
  const [pending, setPending] = useState<MomentKind | null>(null);
  const stamp = async (kind: MomentKind) => {
    const { clip, frame } = player.state.get();
    if (!play || !clip || frame === null) return;
    setPending(kind);
    await changePlays(() => playCalls.stamp(play.playId, kind, clip.filmId, frame));
    setPending(null);
  };
  useCommand('moment.snap', () => void stamp('snap'));
  useCommand('moment.release', () => void stamp('release'));
  useCommand('moment.catch', () => void stamp('catch'));
  useCommand('moment.contact', () => void stamp('contact'));
  useCommand('moment.whistle', () => void stamp('whistle'));
  return { pending, stamp };
}
