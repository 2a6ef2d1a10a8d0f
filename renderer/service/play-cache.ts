import type { ChangedView, LibraryView, PlayView } from '../../electron/service/views.ts';
import { cache, keys } from './cache.ts';
import { service } from './client.ts';

/** Plays by number, those without one last: the order in which the service lists a game. */
const byNumber = (a: PlayView, b: PlayView) =>
  (a.record.playNumber ?? Number.MAX_SAFE_INTEGER) - (b.record.playNumber ?? Number.MAX_SAFE_INTEGER);

/** Puts plays as the service gave them in place of the ones that are kept, wherever they are shown. */
export function patchPlays(plays: readonly PlayView[]): void {
  const byId = new Map(plays.map((play) => [play.playId, play]));
  const swap = (kept: PlayView[] | undefined) => kept?.map((play) => byId.get(play.playId) ?? play);
  cache.setQueriesData<PlayView[]>({ queryKey: ['playsById'] }, swap);
  for (const gameId of new Set(plays.map((play) => play.gameId))) {
    const kept = cache.getQueryData<PlayView[]>(keys.plays(gameId));
    if (!kept) continue;
    const known = new Set(kept.map((play) => play.playId));
    const added = plays.filter((play) => play.gameId === gameId && !known.has(play.playId));
    const swapped = swap(kept) ?? kept;
    cache.setQueryData<PlayView[]>(
      keys.plays(gameId),
      added.length ? [...swapped, ...added].sort(byNumber) : swapped,
    );
  }
}

/** Takes in the answer to a gesture: the plays it changed, and what could be undone next. */
export function takeIn(changed: ChangedView): void {
  patchPlays(changed.plays);
  cache.setQueryData<LibraryView>(keys.library, (library) =>
    library ? { ...library, undo: changed.undo, redo: changed.redo } : library,
  );
}

let waitingIds = new Set<string>();
let timer: ReturnType<typeof setTimeout> | undefined;

/** Fetches plays that someone changed, a burst of changes at once. */
export function refreshPlays(playIds: readonly string[]): void {
  for (const playId of playIds) waitingIds.add(playId);
  // a single tag shows in every open number at once; only a burst waits
  if (timer === undefined) void cache.invalidateQueries({ queryKey: ['numbers'] });
  clearTimeout(timer);
  timer = setTimeout(async () => {
    const ids = [...waitingIds];
    timer = undefined;
    waitingIds = new Set();
    const plays = await service.playsById(ids).catch(() => null);
    if (plays) patchPlays(plays);
    // fewer than asked for: some were removed; and a change moves the prediction of what follows
    void cache.invalidateQueries({ queryKey: ['plays'] });
    void cache.invalidateQueries({ queryKey: ['numbers'] });
    void cache.invalidateQueries({ queryKey: keys.games });
    void cache.invalidateQueries({ queryKey: keys.library });
  }, 60);
}
