import { createHash } from 'node:crypto';
import { appendFile, mkdir, readdir, readFile, rename, rm, stat, utimes } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { writeAvcC } from './avc.ts';
import type { Piece } from './cut-plan.ts';
import type { EdgeSettings, MadeEdge } from './make-edges.ts';
import { box } from './mp4-boxes.ts';
import { openPacketFilm } from './packet-film.ts';
import { THUMB_BYTES } from './thumbs.ts';
import { writeMp4 } from './write-mp4.ts';

/** Counted up when edges are encoded or kept in another way, so that old ones are not found any more. */
const RECIPE = 2;
const SUM_BYTES = 32;
const TAIL_BYTES = 3 * THUMB_BYTES + SUM_BYTES;
/** All that is kept of all films; the ones that were not used for longest go first. */
export const KEPT_BYTES = 3_000_000_000;

type Settings = Pick<EdgeSettings, 'tools' | 'rate' | 'qp' | 'setId'>;

/** Where an edge is kept; null for a film whose content has no name. */
export function edgePath(folder: string, edge: Piece, { tools, rate, qp, setId }: Settings): string | null {
  const { id } = edge.film;
  if (id === null || !/^[\w-]+$/.test(id)) return null;
  const words = [RECIPE, tools.ffmpeg.version, rate.num, rate.den, qp, setId, edge.startPacket].join(' ');
  const sum = createHash('sha256').update(words).digest('hex').slice(0, 12);
  return join(folder, id, `${edge.from}-${edge.to}-${sum}.mp4`);
}

/** Keeps an edge: a small MP4, behind it three small pictures, behind them a sum over all of it. */
export async function keepEdge(path: string, { edge, made, first, ...thumbs }: MadeEdge): Promise<void> {
  await mkdir(dirname(path), { recursive: true });
  const part = `${path}.${process.pid}.part`;
  const frames = edge.to - edge.from;
  const { num, den } = made.rate;
  await writeMp4(
    part,
    {
      width: made.sps.width,
      height: made.sps.height,
      avcC: writeAvcC(made.setup.sps, made.setup.pps),
      timescale: num,
      starts: Array.from({ length: frames + 1 }, (_, frame) => frame * den),
      packets: Array.from({ length: frames }, (_, frame) => {
        const packet = made.packetOf[first + frame]!;
        const [at, bytes] = [made.at[packet]!, made.bytes[packet]!];
        return { path: made.path, at, bytes, before: null, frame, isKey: made.isKey[packet] === 1 };
      }),
    },
    null,
  );
  const pictures = Buffer.concat([thumbs.firstThumb, thumbs.lastThumb, thumbs.behindThumb]);
  const head = box('free', pictures, Buffer.alloc(SUM_BYTES)).subarray(0, -SUM_BYTES);
  const sum = createHash('sha256')
    .update(await readFile(part))
    .update(head)
    .digest();
  await appendFile(part, Buffer.concat([head, sum]));
  await rename(part, path);
}

/** Finds an edge that was kept; null where there is none, or a damaged one. */
export async function findEdge(path: string, edge: Piece): Promise<MadeEdge | null> {
  const bytes = await readFile(path).catch(() => null);
  if (!bytes || bytes.length < TAIL_BYTES) return null;
  const sum = createHash('sha256').update(bytes.subarray(0, -SUM_BYTES)).digest();
  if (!sum.equals(bytes.subarray(-SUM_BYTES))) return null;
  const made = await openPacketFilm(path, null);
  if (!('setup' in made) || made.packetOf.length !== edge.to - edge.from) return null;
  const [firstThumb, lastThumb, behindThumb] = [0, 1, 2].map((at) => {
    const start = bytes.length - TAIL_BYTES + at * THUMB_BYTES;
    // a copy, so that the whole file is not kept in memory with it
    return Buffer.from(bytes.subarray(start, start + THUMB_BYTES));
  });
  const now = new Date();
  await utimes(path, now, now).catch(() => {});
  return { edge, made, first: 0, firstThumb: firstThumb!, lastThumb: lastThumb!, behindThumb: behindThumb! };
}

/** Removes what was not used for longest until the folder is within its bounds, and pieces that a crash left. */
export async function sweepEdges(folder: string, keptBytes = KEPT_BYTES): Promise<void> {
  const files: { path: string; bytes: number; usedMs: number }[] = [];
  for (const film of await readdir(folder).catch(() => [])) {
    for (const name of await readdir(join(folder, film)).catch(() => [])) {
      const path = join(folder, film, name);
      const stats = await stat(path).catch(() => null);
      if (!stats) continue;
      const old = Date.now() - stats.mtimeMs > 3_600_000;
      if (name.endsWith('.part')) {
        if (old) await rm(path, { force: true });
      } else files.push({ path, bytes: stats.size, usedMs: stats.mtimeMs });
    }
  }
  let total = files.reduce((sum, { bytes }) => sum + bytes, 0);
  for (const { path, bytes } of files.sort((one, other) => one.usedMs - other.usedMs)) {
    if (total <= keptBytes) return;
    await rm(path, { force: true });
    total -= bytes;
  }
}
