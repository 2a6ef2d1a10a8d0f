import { createStore } from './store.ts';

/**
 * What the top bar says about the last gesture. `saved` is only ever set after the service has answered that
 * the edit is committed.
 */
export interface Saving {
  /** gestures sent and not yet answered */
  readonly waiting: number;
  readonly last: 'nothing' | 'saved' | 'failed';
  /** when the last answer came, ms since the epoch */
  readonly at: number | null;
}

export const savingStore = createStore<Saving>({ waiting: 0, last: 'nothing', at: null });

export function gestureSent(): void {
  savingStore.set((now) => ({ ...now, waiting: now.waiting + 1 }));
}

export function gestureAnswered(kept: boolean): void {
  savingStore.set((now) => ({
    waiting: Math.max(0, now.waiting - 1),
    last: kept ? 'saved' : 'failed',
    at: Date.now(),
  }));
}
