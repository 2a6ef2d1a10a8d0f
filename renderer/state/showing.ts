import { createStore } from './store.ts';

/** Plays that are being looked at: what a number, a cell or a mark of a chart stands on. */
export interface Showing {
  readonly title: string;
  /** in the order they play */
  readonly playIds: readonly string[];
  /** index into `playIds` of the first one to play */
  readonly startAt: number;
  /** a new number each time, so that the same plays can be opened anew */
  readonly turn: number;
}

export const showingStore = createStore<Showing | null>(null);

/** Opens the film of plays over any room. Every count, rate, bar or cell calls this with the plays behind it. */
export function showPlays(plays: {
  readonly title: string;
  readonly playIds: readonly string[];
  readonly startAt?: number;
}): void {
  const turn = (showingStore.get()?.turn ?? 0) + 1;
  const last = Math.max(0, plays.playIds.length - 1);
  showingStore.set({
    title: plays.title,
    playIds: plays.playIds,
    startAt: Math.min(plays.startAt ?? 0, last),
    turn,
  });
}

export function closeShowing(): void {
  showingStore.set(null);
}
