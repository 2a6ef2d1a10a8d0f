import { useSyncExternalStore } from 'react';

/** A value that any component can read and any code can set; the smallest thing that does it. */
export interface Store<T> {
  readonly get: () => T;
  readonly set: (next: T | ((now: T) => T)) => void;
  readonly subscribe: (listener: () => void) => () => void;
}

export function createStore<T>(initial: T): Store<T> {
  let value = initial;
  const listeners = new Set<() => void>();
  return {
    get: () => value,
    set: (next) => {
      const settled = typeof next === 'function' ? (next as (now: T) => T)(value) : next;
      if (Object.is(settled, value)) return;
      value = settled;
      for (const listener of listeners) listener();
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

export function useStore<T>(store: Store<T>): T {
  return useSyncExternalStore(store.subscribe, store.get);
}
