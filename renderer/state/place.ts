import { readSetting, writeSetting } from './settings.ts';
import { createStore } from './store.ts';

/** Where logging stands: the game and the play that the Log room opens on. */
export interface Place {
  readonly gameId: string | null;
  readonly playId: string | null;
}

export const placeStore = createStore<Place>(readSetting<Place>('place', { gameId: null, playId: null }));

export function goToPlace(place: Place): void {
  placeStore.set(place);
  writeSetting('place', place);
}
