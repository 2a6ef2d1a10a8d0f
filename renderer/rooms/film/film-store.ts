import { readSetting, writeSetting } from '../../state/settings.ts';
import { createStore } from '../../state/store.ts';

/** The game whose film is looked at. */
export const chosenGameStore = createStore<string | null>(readSetting<string | null>('film.game', null));

export function chooseGame(gameId: string): void {
  chosenGameStore.set(gameId);
  writeSetting('film.game', gameId);
}
