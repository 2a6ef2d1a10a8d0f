import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { FilmTools } from '../../film/film-types.ts';
import { planReel } from '../reel-plan.ts';
import type { ReelSegment } from '../reel-types.ts';
import { PacketFilms, planCuts } from './cut-plan.ts';
import { sweepEdges } from './edge-store.ts';
import { edgesFor } from './edges.ts';

/** Makes the edges of clips before a reel asks for them, gently and one run at a time; gives how many there are now. */
export async function prepareEdges(
  clips: readonly ReelSegment[],
  folder: string,
  tools: FilmTools,
  signal?: AbortSignal,
): Promise<number> {
  const films = new PacketFilms();
  const edges = [];
  for (const clip of clips) {
    const planned = planReel([clip], {});
    if (!planned.ok) continue;
    const [cut] = await planCuts(planned.value, films, () => null);
    edges.push(...(cut?.pieces ?? []).filter(({ kind }) => kind === 'edge'));
  }
  if (edges.length === 0) return 0;
  await mkdir(folder, { recursive: true });
  const workFolder = await mkdtemp(join(folder, 'work-'));
  try {
    const { made } = await edgesFor(edges, {
      ...{ tools, films, finer: 0, keptIn: folder, workFolder, background: true },
      ...(signal ? { signal } : {}),
    });
    await sweepEdges(folder);
    return made.size;
  } finally {
    await rm(workFolder, { recursive: true, force: true });
  }
}
