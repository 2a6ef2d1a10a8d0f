import { readSetting, writeSetting } from '../state/settings.ts';
import { createStore } from '../state/store.ts';

/** How the angles of a play stand on the screen. */
export type Layout = 'single' | 'side' | 'stack' | 'inset';

const LAYOUTS: readonly Layout[] = ['single', 'side', 'stack', 'inset'];

export const LAYOUT_WORDS: Readonly<Record<Layout, string>> = {
  single: 'One angle',
  side: 'Side by side',
  stack: 'One above the other',
  inset: 'Picture in picture',
};

const kept = readSetting<Layout>('layout', 'single');

/** One choice for the Log room and for cut-ups: a coach watches film the same way in both. */
export const layoutStore = createStore<Layout>(LAYOUTS.includes(kept) ? kept : 'single');

export function nextLayout(): void {
  const next = LAYOUTS[(LAYOUTS.indexOf(layoutStore.get()) + 1) % LAYOUTS.length] ?? 'single';
  layoutStore.set(next);
  writeSetting('layout', next);
}
