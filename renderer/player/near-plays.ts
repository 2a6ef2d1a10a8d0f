import { useEffect, useMemo } from 'react';
import type { PlayView } from '../../electron/service/views.ts';
import { cache, keys } from '../service/cache.ts';
import { service } from '../service/client.ts';
import { usePlaysById } from '../service/queries.ts';

/** A list up to this long is read as a whole; a longer one by stretches of so many plays, the next one ahead of time. */
const STRETCH = 240;

/** The ids around one of them that are read together. */
export function stretchAround(playIds: readonly string[], index: number): readonly string[] {
  if (playIds.length <= STRETCH) return playIds;
  const first = Math.max(0, Math.floor(index / STRETCH) * STRETCH);
  return playIds.slice(first, first + STRETCH);
}

/** The plays around the one that is shown; undefined while they are being read. */
export function useNearPlays(playIds: readonly string[], index: number): readonly PlayView[] | undefined {
  const stretch = Math.floor(index / STRETCH);
  const near = useMemo(() => stretchAround(playIds, stretch * STRETCH), [playIds, stretch]);
  const { data } = usePlaysById(near);
  useEffect(() => {
    const ahead = (stretch + 1) * STRETCH;
    if (!data || playIds.length <= STRETCH || ahead >= playIds.length) return;
    const next = stretchAround(playIds, ahead);
    void cache.prefetchQuery({ queryKey: keys.playsById(next), queryFn: () => service.playsById(next) });
  }, [data, playIds, stretch]);
  return data;
}
