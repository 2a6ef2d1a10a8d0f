import { ActionIcon, Tooltip } from '@mantine/core';
import { IconMinus, IconPlus, IconX } from '@tabler/icons-react';
import type { MouseEvent } from 'react';
import type { PlayView } from '../../electron/service/views.ts';
import { useStore } from '../state/store.ts';
import { SYNC_WORDS } from './angle-sync.ts';
import type { ClipPlayer } from './clip-player.ts';
import classes from './FilmBar.module.css';
import { letMateGo, moveMate } from './use-mate.ts';

const keepFocus = (event: MouseEvent) => event.preventDefault();

/** What holds the two angles together, and the way to move one against the other by single frames. */
export function SyncControl({ player, play }: { readonly player: ClipPlayer; readonly play: PlayView }) {
  const { mate } = useStore(player.state);
  if (!mate) return null;
  const move = (label: string, key: string, Icon: typeof IconPlus, act: () => void) => (
    <Tooltip label={`${label} (${key})`}>
      <ActionIcon size="xs" aria-label={label} onMouseDown={keepFocus} onClick={act}>
        <Icon size={12} />
      </ActionIcon>
    </Tooltip>
  );
  return (
    <fieldset className={classes.sync} aria-label="Second angle">
      {move('Second angle one frame earlier', 'Shift+Z', IconMinus, () => void moveMate(player, play, -1))}
      <span title={`The two angles are held together ${SYNC_WORDS[mate.by]}.`} data-testid="sync-by">
        {SYNC_WORDS[mate.by]}
      </span>
      {move('Second angle one frame later', 'Shift+X', IconPlus, () => void moveMate(player, play, 1))}
      {mate.by === 'hand' &&
        move('No longer held together by hand', 'Shift+C', IconX, () => void letMateGo(play))}
    </fieldset>
  );
}
