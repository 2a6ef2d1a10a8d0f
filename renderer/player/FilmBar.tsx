import { ActionIcon, Tooltip } from '@mantine/core';
import {
  IconChevronLeft,
  IconChevronRight,
  IconLayoutColumns,
  IconLayoutRows,
  IconPictureInPicture,
  IconPlayerPause,
  IconPlayerPlay,
  IconRotate2,
  IconSquare,
} from '@tabler/icons-react';
import type { MouseEvent } from 'react';
import type { PlayView } from '../../electron/service/views.ts';
import { useFilms } from '../service/queries.ts';
import { useStore } from '../state/store.ts';
import { ANGLE_WORDS } from './angles.ts';
import type { ClipPlayer } from './clip-player.ts';
import classes from './FilmBar.module.css';
import { formatFilmTime, secondsBetween } from './frame-times.ts';
import { LAYOUT_WORDS, type Layout, layoutStore, nextLayout } from './layout.ts';
import { StretchTrack } from './StretchTrack.tsx';
import { SyncControl } from './SyncControl.tsx';
import { switchAngle } from './use-film-keys.ts';

const RATE_WORDS: Readonly<Record<number, string>> = { 1: 'full speed', 0.5: '½ speed', 0.25: '¼ speed' };

const LAYOUT_ICONS: Readonly<Record<Layout, typeof IconSquare>> = {
  single: IconSquare,
  side: IconLayoutColumns,
  stack: IconLayoutRows,
  inset: IconPictureInPicture,
};

/** A button pressed with the mouse leaves the focus where it was, so that the keys go on working. */
const keepFocus = (event: MouseEvent) => event.preventDefault();

function IconPlayBackwards({ size }: { readonly size?: number | string }) {
  return <IconPlayerPlay size={size ?? 16} style={{ transform: 'scaleX(-1)' }} />;
}

/** The thin bar under the film: what is shown, exactly, and the film keys for the mouse. */
export function FilmBar({ player, play }: { readonly player: ClipPlayer; readonly play: PlayView | null }) {
  const { clip, frame, times, playing, direction, rate } = useStore(player.state);
  const layout = useStore(layoutStore);
  const { data: films = [] } = useFilms();
  const angles = play?.clips.length ?? 0;
  const button = (
    label: string,
    key: string,
    Icon: (props: { size?: number | string }) => React.ReactNode,
    act: () => void,
  ) => (
    <Tooltip label={`${label} (${key})`}>
      <ActionIcon size="sm" aria-label={label} disabled={!clip} onMouseDown={keepFocus} onClick={act}>
        <Icon size={16} />
      </ActionIcon>
    </Tooltip>
  );
  const LayoutIcon = LAYOUT_ICONS[layout];
  const backwards = direction === -1;
  const running = (way: -1 | 1) => playing && direction === way;
  return (
    <div className={classes.bar} role="toolbar" aria-label="Film">
      {button('Run it back', 'R', IconRotate2, () => player.runBack())}
      {button(
        running(-1) ? 'Pause backwards' : 'Play backwards',
        'Shift+S',
        running(-1) ? IconPlayerPause : IconPlayBackwards,
        () => player.toggleBackwards(),
      )}
      {button('One frame back', 'A, held it runs', IconChevronLeft, () => player.step(-1))}
      {button(running(1) ? 'Pause' : 'Play', 'S', running(1) ? IconPlayerPause : IconPlayerPlay, () =>
        running(1) ? player.pause() : player.play(),
      )}
      {button('One frame forward', 'D, held it runs', IconChevronRight, () => player.step(1))}
      <button
        type="button"
        className={classes.word}
        data-running={playing || undefined}
        onMouseDown={keepFocus}
        onClick={() => player.nextRate()}
        title="Speed: full, half, quarter (F)"
      >
        {backwards ? '◀ ' : '▶ '}
        {RATE_WORDS[rate] ?? `${rate}×`}
        <span className="unseen">{backwards ? ', backwards' : ''}</span>
      </button>
      <StretchTrack player={player} play={play} />
      <span className={classes.number} data-testid="film-frame" data-frame={frame ?? ''}>
        frame {frame ?? '–'}
      </span>
      <span className={classes.number}>
        {clip && frame !== null && times ? formatFilmTime(secondsBetween(times, clip.inFrame, frame)) : '–'}
      </span>
      {play && <SyncControl player={player} play={play} />}
      <Tooltip label={`${LAYOUT_WORDS[layout]}. Next layout (Shift+W)`}>
        <ActionIcon
          size="sm"
          aria-label={`Layout of the angles: ${LAYOUT_WORDS[layout].toLowerCase()}`}
          disabled={!clip}
          onMouseDown={keepFocus}
          onClick={nextLayout}
        >
          <LayoutIcon size={16} />
        </ActionIcon>
      </Tooltip>
      <button
        type="button"
        className={classes.word}
        disabled={angles < 2}
        onMouseDown={keepFocus}
        onClick={() => play && switchAngle(player, play, films)}
        title={angles < 2 ? 'Only one angle' : 'Other angle, at the same instant (W)'}
      >
        {clip ? ANGLE_WORDS[clip.angle] : 'No film'}
      </button>
    </div>
  );
}
