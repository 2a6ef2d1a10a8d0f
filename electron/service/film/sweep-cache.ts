import { readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Library } from '../../../db/library.ts';

/** What a crash leaves half written carries such a name until it is whole. */
const HALF_MADE = /\.part$|^\.tapebook-/;

/**
 * At the start of the service, which alone writes to the cache: removes what was half made when it was last cut off, and
 * proxies without their frame table, which do not count as there. Work folders of exports beside their targets are swept by
 * the next export there.
 * @returns how many were removed
 */
export function sweepCache(library: Library): number {
  let removed = 0;
  const remove = (path: string) => {
    rmSync(path, { recursive: true, force: true });
    removed += 1;
  };
  for (const entry of listed(library.cacheFolder, true)) {
    if (HALF_MADE.test(entry.name)) remove(entry.path);
  }
  const proxies = listed(join(library.cacheFolder, 'proxies'), false).map((entry) => entry.name);
  for (const name of proxies) {
    const other = name.endsWith('.mp4')
      ? name.replace(/\.mp4$/, '.frames')
      : name.replace(/\.frames$/, '.mp4');
    if (!proxies.includes(other)) remove(join(library.cacheFolder, 'proxies', name));
  }
  return removed;
}

function listed(folder: string, recursive: boolean): { name: string; path: string }[] {
  try {
    return readdirSync(folder, { recursive, withFileTypes: true }).map((entry) => ({
      name: entry.name,
      path: join(entry.parentPath, entry.name),
    }));
  } catch {
    // there is no cache yet
    return [];
  }
}
