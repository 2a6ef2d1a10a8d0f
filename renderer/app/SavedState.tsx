import { IconAlertTriangle, IconCheck, IconDots, IconPlugConnectedX } from '@tabler/icons-react';
import { linkStore } from '../service/events.ts';
import { savingStore } from '../state/saving.ts';
import { useStore } from '../state/store.ts';
import classes from './SavedState.module.css';

/** Says "saved" only once the service has answered that the edit is on disk. */
export function SavedState() {
  const saving = useStore(savingStore);
  const link = useStore(linkStore);
  const [state, words, Icon] =
    link === 'lost'
      ? (['failed', 'no answer from the station', IconPlugConnectedX] as const)
      : saving.waiting > 0
        ? (['waiting', 'saving', IconDots] as const)
        : saving.last === 'failed'
          ? (['failed', 'not saved', IconAlertTriangle] as const)
          : (['saved', saving.last === 'saved' ? 'saved' : 'all saved', IconCheck] as const);
  return (
    <output className={classes.state} data-state={state} data-testid="saved-state">
      <Icon size={14} aria-hidden />
      {words}
    </output>
  );
}
