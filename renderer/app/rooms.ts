import { type ComponentType, type LazyExoticComponent, lazy } from 'react';
import type { RoomName } from '../commands/command.ts';

interface Room {
  readonly name: RoomName;
  readonly label: string;
  readonly Page: LazyExoticComponent<ComponentType>;
}

type RoomModule = { readonly default: ComponentType };

/** One folder a room, its page the default export of `index.tsx`; loaded when the room is first entered. */
const pages = import.meta.glob<RoomModule>('../rooms/*/index.tsx');

const NAMES: readonly (readonly [RoomName, string])[] = [
  ['film', 'Film'],
  ['log', 'Log'],
  ['ask', 'Ask'],
  ['teach', 'Teach'],
  ['playbook', 'Playbook'],
];

export const ROOMS: readonly Room[] = NAMES.flatMap(([name, label]) => {
  const load = pages[`../rooms/${name}/index.tsx`];
  return load ? [{ name, label, Page: lazy(load) }] : [];
});
