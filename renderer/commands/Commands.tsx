import {
  createContext,
  type ReactNode,
  useContext,
  useEffect,
  useLayoutEffect,
  useRef,
  useState,
} from 'react';
import { useStore } from '../state/store.ts';
import { ALL_COMMANDS, type CommandName } from './all-commands.ts';
import type { RoomName } from './command.ts';
import { type CommandHandler, Dispatcher, STATION_LAYER } from './dispatcher.ts';
import { focusPlace } from './focus.ts';
import { keyChoicesStore, withChoices } from './key-settings.ts';

export const isMac = /Mac|iPhone|iPad/.test(globalThis.navigator?.platform ?? '');

export const dispatcher = new Dispatcher(withChoices(ALL_COMMANDS, keyChoicesStore.get()), isMac);

const LayerContext = createContext(STATION_LAYER);

/** Says what a command does while this component is mounted. */
export function useCommand(name: CommandName, act: () => void, when?: () => boolean): void {
  const layer = useContext(LayerContext);
  const latest = useRef<CommandHandler>({ do: act });
  latest.current = when ? { do: act, when } : { do: act };
  useEffect(() => dispatcher.bind(name, layer, () => latest.current), [name, layer]);
}

/** The same for a command whose key can be held: `hold` begins then, and what it gives ends it. */
export function useHeldCommand(name: CommandName, act: () => void, hold: () => () => void): void {
  const layer = useContext(LayerContext);
  const latest = useRef<CommandHandler>({ do: act, hold });
  latest.current = { do: act, hold };
  useEffect(() => dispatcher.bind(name, layer, () => latest.current), [name, layer]);
}

/** The commands of what is inside belong to this layer; a sheet over the room opens one. */
export function CommandLayer({ over, children }: { readonly over?: boolean; readonly children: ReactNode }) {
  const [layer] = useState(() => (over ? dispatcher.newLayer() : 0));
  useLayoutEffect(() => (over ? dispatcher.openLayer(layer) : undefined), [over, layer]);
  return <LayerContext.Provider value={layer}>{children}</LayerContext.Provider>;
}

/** The one listener for keys. */
export function CommandKeys({ room }: { readonly room: RoomName | null }) {
  dispatcher.room = room;
  const choices = useStore(keyChoicesStore);
  useEffect(() => dispatcher.useTable(withChoices(ALL_COMMANDS, choices)), [choices]);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.defaultPrevented || event.isComposing) return;
      const name = dispatcher.match(event, focusPlace(document.activeElement));
      if (!name) return;
      event.preventDefault();
      dispatcher.press(name, event);
    };
    const onKeyUp = (event: KeyboardEvent) => dispatcher.release(event.code);
    const onBlur = () => dispatcher.release();
    window.addEventListener('keydown', onKey);
    window.addEventListener('keyup', onKeyUp);
    window.addEventListener('blur', onBlur);
    return () => {
      window.removeEventListener('keydown', onKey);
      window.removeEventListener('keyup', onKeyUp);
      window.removeEventListener('blur', onBlur);
      dispatcher.release();
    };
  }, []);
  return null;
}
