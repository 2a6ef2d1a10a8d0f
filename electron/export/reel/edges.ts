import { rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { FilmTools } from '../../film/film-types.ts';
import { qpOfIdr, readPps, writeAvcC } from './avc.ts';
import type { PacketFilms, Piece } from './cut-plan.ts';
import { edgePath, findEdge, keepEdge } from './edge-store.ts';
import { EdgeFailure, type EdgeSettings, type MadeEdge, makeEdges } from './make-edges.ts';
import type { PacketFilm } from './packet-film.ts';

export interface EdgeWork {
  readonly tools: FilmTools;
  readonly films: PacketFilms;
  /** how much finer than the film the edges are encoded, steps of the quantiser */
  readonly finer: number;
  /** where edges are kept and looked for; null: nowhere */
  readonly keptIn: string | null;
  /** a folder for what is made on the way */
  readonly workFolder: string;
  readonly background: boolean;
  readonly signal?: AbortSignal;
  readonly onEdges?: (done: number) => void;
}

export interface EdgesMade {
  readonly made: ReadonlyMap<Piece, MadeEdge>;
  readonly failed: ReadonlyMap<Piece, string>;
}

/** As many in one run of ffmpeg: its start is spread over them, and its small film stays small. */
const EDGES_PER_RUN = 24;
const SAMPLED_IDRS = 8;
const USUAL_QP = 21;
const FINEST_QP = 12;
const COARSEST_QP = 38;

/** The first number for parameter sets that the film itself does not use. */
function freeSetId({ setup, sps }: PacketFilm): number {
  const used = new Set([sps.id, ...setup.pps.map((set) => readPps(set)?.id ?? 0)]);
  let id = 1;
  while (used.has(id)) id += 1;
  return id;
}

/** The quantiser that fits what the film was encoded with: the middle one of some of its key frames. */
async function qpFor(films: PacketFilms, film: PacketFilm, finer: number): Promise<number> {
  const keys: number[] = [];
  for (let packet = 0; packet < film.isKey.length; packet++) if (film.isKey[packet] === 1) keys.push(packet);
  const found: number[] = [];
  const step = Math.max(1, Math.floor(keys.length / SAMPLED_IDRS));
  for (let at = 0; at < keys.length; at += step) {
    const { slice } = await films.keyFacts(film, keys[at]!);
    const qp = slice && qpOfIdr(slice, film.sps, film.pps);
    if (qp !== null) found.push(qp);
  }
  const middle = found.sort((one, other) => one - other)[found.length >> 1] ?? USUAL_QP;
  // the number is that of predicted frames, three steps above the key frames; so these end up a little finer
  return Math.min(COARSEST_QP, Math.max(FINEST_QP, middle + 2 - finer));
}

interface Batch {
  readonly edges: Piece[];
  readonly settings: EdgeSettings;
}

async function batch(
  edges: readonly Piece[],
  work: Pick<EdgeWork, 'tools' | 'films' | 'finer' | 'background' | 'signal'>,
): Promise<Batch[]> {
  const settingsOf = new Map<PacketFilm, EdgeSettings>();
  const open = new Map<string, Batch>();
  const batches: Batch[] = [];
  for (const edge of edges) {
    const { film } = edge;
    const { tools, background, signal } = work;
    const settings = settingsOf.get(film) ?? {
      tools,
      rate: film.rate,
      qp: await qpFor(work.films, film, work.finer),
      setId: freeSetId(film),
      background,
      signal,
    };
    settingsOf.set(film, settings);
    const { rate, qp, setId } = settings;
    const sets = writeAvcC(film.setup.sps, film.setup.pps).toString('hex');
    const key = [sets, rate.num, rate.den, qp, setId].join(' ');
    let group = open.get(key);
    if (!group || group.edges.length >= EDGES_PER_RUN) {
      group = { edges: [], settings };
      open.set(key, group);
      batches.push(group);
    }
    group.edges.push(edge);
  }
  return batches;
}

/** Bytes of those edges that are kept already. */
export async function keptEdges(
  edges: readonly Piece[],
  work: Pick<EdgeWork, 'tools' | 'films' | 'finer' | 'keptIn'>,
): Promise<Map<Piece, number>> {
  const found = new Map<Piece, number>();
  const { keptIn } = work;
  if (keptIn === null) return found;
  for (const { edges: some, settings } of await batch(edges, { ...work, background: false })) {
    for (const edge of some) {
      const path = edgePath(keptIn, edge, settings);
      const stats = path === null ? null : await stat(path).catch(() => null);
      if (stats) found.set(edge, stats.size);
    }
  }
  return found;
}

/** Edges as they are needed: those kept from before, the others encoded now and kept. */
export async function edgesFor(edges: readonly Piece[], work: EdgeWork): Promise<EdgesMade> {
  const made = new Map<Piece, MadeEdge>();
  const failed = new Map<Piece, string>();
  const missing: Piece[] = [];
  const { keptIn } = work;
  for (const { edges: some, settings } of await batch(edges, work)) {
    for (const edge of some) {
      const path = keptIn === null ? null : edgePath(keptIn, edge, settings);
      const known = path === null ? null : await findEdge(path, edge);
      if (known) made.set(edge, known);
      else missing.push(edge);
    }
  }
  work.onEdges?.(made.size);
  const waiting = [...(await batch(missing, work)).entries()];
  const run = async () => {
    for (let next = waiting.shift(); next; next = waiting.shift()) {
      const [number, { edges: some, settings }] = next;
      const folder = join(work.workFolder, `edges-${number}`);
      try {
        for (const one of await makeEdges(some, folder, settings)) {
          if ('failed' in one) {
            failed.set(one.edge, one.failed);
            continue;
          }
          const path = keptIn === null ? null : edgePath(keptIn, one.edge, settings);
          made.set(one.edge, one);
          // keeping it is a convenience: a full cache drive does not stop the reel
          if (path !== null) await keepEdge(path, one).catch(() => {});
        }
      } catch (error) {
        if (!(error instanceof EdgeFailure)) throw error;
        for (const edge of some) failed.set(edge, error.message);
      }
      work.onEdges?.(made.size + failed.size);
    }
  };
  // each run encodes on one thread; two of them fill a small laptop
  await Promise.all(work.background ? [run()] : [run(), run()]);
  if (work.background) {
    for (const { made: file } of made.values()) {
      if (file.path.startsWith(work.workFolder)) await rm(file.path, { force: true });
    }
  }
  return { made, failed };
}
