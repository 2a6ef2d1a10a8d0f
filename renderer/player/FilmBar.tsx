import { ActionIcon, Tooltip } from '@mantine/core';
import {
  IconChevronLeft,
  IconChevronRight,
  IconPlayerPause,
  IconPlayerPlay,
  IconRotate2,
} from '@tabler/icons-react';
import type { MouseEvent } from 'react';
import type { PlayView } from '../../electron/service/views.ts';
import { useStore } from '../state/store.ts';
import { ANGLE_WORDS } from './angles.ts';
import type { ClipPlayer } from './clip-player.ts';
import classes from './FilmBar.module.css';
import { formatFilmTime, secondsBetween } from './frame-times.ts';
import { StretchTrack } from './StretchTrack.tsx';
import { switchAngle } from './use-film-keys.ts';

const RATE_WORDS: Readonly<Record<number, string>> = { 1: 'full speed', 0.5: '½ speed', 0.25: '¼ speed' };

/** A button pressed with the mouse leaves the focus where it was, so that the keys go on working. */
const keepFocus = (event: MouseEvent) => event.preventDefault();

/** The thin bar under the film: what is shown, exactly, and the film keys for the mouse. */
export function FilmBar({ player, play }: { readonly player: ClipPlayer; readonly play: PlayView | null }) {
  const { clip, frame, times, playing, rate } = useStore(player.state);
  const angles = play?.clips.length ?? 0;
  const button = (label: string, key: string, Icon: typeof IconPlayerPlay, act: () => void) => (
    <Tooltip label={`${label} (${key})`}>
      <ActionIcon size="sm" aria-label={label} disabled={!clip} onMouseDown={keepFocus} onClick={act}>
        <Icon size={16} />
      </ActionIcon>
    </Tooltip>
  );
  return (
    <div className={classes.bar} role="toolbar" aria-label="Film">
      {button('Run it back', 'R', IconRotate2, () => player.runBack())}
      {button('One frame back', 'A', IconChevronLeft, () => player.step(-1))}
      {button(playing ? 'Pause' : 'Play', 'S', playing ? IconPlayerPause : IconPlayerPlay, () =>
        player.toggle(),
      )}
      {button('One frame forward', 'D', IconChevronRight, () => player.step(1))}
      <button
        type="button"
        className={classes.word}
        onMouseDown={keepFocus}
        onClick={() => player.nextRate()}
        title="Speed: full, half, quarter (F)"
      >
        {RATE_WORDS[rate] ?? `${rate}×`}
      </button>
      <StretchTrack player={player} play={play} />
      <span className={classes.number} data-testid="film-frame" data-frame={frame ?? ''}>
        frame {frame ?? '–'}
      </span>
      <span className={classes.number}>
        {clip && frame !== null && times ? formatFilmTime(secondsBetween(times, clip.inFrame, frame)) : '–'}
      </span>
      <button
        type="button"
        className={classes.word}
        disabled={angles < 2}
        onMouseDown={keepFocus}
        onClick={() => play && switchAngle(player, play)}
        title={angles < 2 ? 'Only one angle' : 'Other angle, at the same instant (W)'}
      >
        {clip ? ANGLE_WORDS[clip.angle] : 'No film'}
      </button>
    </div>
  );
}
