import { type FileHandle, open } from 'node:fs/promises';
import type { PlannedSegment, ReelPlan } from '../reel-plan.ts';
import type { ReelSegment, SegmentHow } from '../reel-types.ts';
import { type PacketFacts, readPacket } from './avc.ts';
import { type NotCopied, openPacketFilm, type PacketFilm, readPacketOf } from './packet-film.ts';

/** Frames from..to - 1 of a film: their packets are copied, or they are encoded anew from the film's own pictures. */
export interface Piece {
  readonly kind: 'copy' | 'edge';
  readonly film: PacketFilm;
  readonly from: number;
  readonly to: number;
  /** edge: packet of the IDR picture from which decoding starts */
  readonly startPacket: number;
}

/** How one segment will be made. No pieces: it goes through decoded pictures, with everything else that has to. */
export interface SegmentCut {
  readonly how: SegmentHow;
  /** in words, for the report */
  readonly why: string;
  readonly pieces: readonly Piece[];
}

/** A group shorter than this is not worth a join. */
const FEWEST_COPIED = 12;
/** Farther back than this is not decoded for an edge. */
const FARTHEST_IDR_PACKETS = 1200;

/** Films as packets, opened once for a reel; looks into packets where the table of contents is not proof enough. */
export class PacketFilms {
  private readonly films = new Map<string, Promise<PacketFilm | NotCopied>>();
  private readonly facts = new Map<PacketFilm, Map<number, PacketFacts>>();

  film({ path, table, filmId }: ReelSegment): Promise<PacketFilm | NotCopied> {
    const known = this.films.get(path);
    if (known) return known;
    const opened: Promise<PacketFilm | NotCopied> =
      table.codec !== 'avc'
        ? Promise.resolve({ why: `its picture is ${table.codec}, not H.264` })
        : table.container !== 'mp4' && table.container !== 'mov'
          ? Promise.resolve({ why: `packets are copied from MP4 and MOV files, not from ${table.container}` })
          : openPacketFilm(path, table, filmId ?? null).catch(() => ({
              why: 'its file could not be opened as packets',
            }));
    this.films.set(path, opened);
    return opened;
  }

  /** What stands in the packets of key frames, each read once. */
  async keyFacts(film: PacketFilm, packet: number): Promise<PacketFacts> {
    const known = this.facts.get(film) ?? new Map<number, PacketFacts>();
    this.facts.set(film, known);
    const found = known.get(packet);
    if (found) return found;
    const facts = await withFile(film.path, async (file) => {
      const { slice, ...rest } = readPacket(await readPacketOf(film, file, packet), film.setup.lengthBytes);
      // a copy of the slice's head, so that the whole packet need not be kept
      return { ...rest, slice: slice && Uint8Array.from(slice.subarray(0, 64)) };
    });
    known.set(packet, facts);
    return facts;
  }
}

export async function withFile<T>(path: string, use: (file: FileHandle) => Promise<T>): Promise<T> {
  const file = await open(path, 'r');
  try {
    return await use(file);
  } finally {
    await file.close();
  }
}

function sameBytes(one: Uint8Array, other: Uint8Array): boolean {
  return Buffer.compare(one, other) === 0;
}

/** Why no packet of this film may stand in this reel; null when they may. */
function unfit(film: PacketFilm, segment: PlannedSegment, plan: ReelPlan, first: PacketFilm): string | null {
  const { sps } = film;
  if (film.setup.lengthBytes !== 4) return 'its packets count their parts in an odd way';
  if (film.setup.sps.length > 1) return 'it holds several kinds of picture';
  if (!sps.plainPixels) return 'its pixels are not 8-bit 4:2:0';
  if (!sps.progressive) return 'it is interlaced';
  if (!sps.squarePixels) return 'its pixels are not square';
  if (segment.table.rotation !== 0) return 'its camera was turned';
  if (sps.width !== plan.width || sps.height !== plan.height) {
    return `its picture is ${sps.width} x ${sps.height} and the reel's ${plan.width} x ${plan.height}`;
  }
  const lead = first.sps;
  const sameColors =
    sps.fullRange === lead.fullRange &&
    sps.matrix === lead.matrix &&
    sps.primaries === lead.primaries &&
    sps.transfer === lead.transfer;
  return sameColors ? null : 'its colors are coded in another way than those of the first clip';
}

/** The packet of the last IDR picture shown at or before `frame`; -1 where there is none near. */
async function idrBefore(films: PacketFilms, film: PacketFilm, frame: number): Promise<number> {
  for (
    let packet = film.packetOf[frame]!, left = FARTHEST_IDR_PACKETS;
    packet >= 0 && left > 0;
    packet--, left--
  ) {
    if (film.isKey[packet] !== 1 || film.frameOf[packet]! > frame) continue;
    if ((await films.keyFacts(film, packet)).idr) return packet;
  }
  return -1;
}

/** The packet of the first IDR picture shown at or after `frame` and before `limit`; -1 where there is none. */
async function idrFrom(films: PacketFilms, film: PacketFilm, frame: number, limit: number): Promise<number> {
  for (let at = frame; at < limit; at++) {
    const packet = film.packetOf[at]!;
    if (film.isKey[packet] === 1 && (await films.keyFacts(film, packet)).idr) return packet;
  }
  return -1;
}

/**
 * The longest run of packets from `first` on that holds exactly the frames from..end - 1 with end <= `to`: a stream may be
 * cut there without a frame too many or one that is missing. Gives `end`.
 */
function copyableUntil(film: PacketFilm, first: number, from: number, to: number): number {
  let end = from;
  let last = from - 1;
  for (let packet = first, count = 1; packet < film.frameOf.length && count <= to - from; packet++, count++) {
    const frame = film.frameOf[packet]!;
    if (frame < from) return end;
    last = Math.max(last, frame);
    if (last === from + count - 1) end = from + count;
  }
  return end;
}

function plural(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`;
}

async function cutFilm(films: PacketFilms, film: PacketFilm, segment: PlannedSegment): Promise<SegmentCut> {
  const { inFrame, outFrame } = segment;
  const before = await idrBefore(films, film, inFrame);
  if (before < 0)
    return pictures('its groups of pictures are open: no frame before it can be decoded by itself');
  const { sets } = await films.keyFacts(film, before);
  const known = [...film.setup.sps, ...film.setup.pps];
  if (!sets.every((set) => known.some((one) => sameBytes(one, set)))) {
    return pictures('its parameter sets change on the way');
  }
  const edge = (from: number, to: number, startPacket: number): Piece => ({
    kind: 'edge',
    film,
    from,
    to,
    startPacket,
  });
  const whole = (why: string): SegmentCut => ({
    how: 'encoded',
    why,
    pieces: [edge(inFrame, outFrame, before)],
  });

  const start = await idrFrom(films, film, inFrame, outFrame);
  if (start < 0) return whole('it holds no key frame at which a copy could start');
  const from = film.frameOf[start]!;
  const to = copyableUntil(film, start, from, outFrame);
  if (to - from < Math.min(FEWEST_COPIED, outFrame - inFrame))
    return whole('hardly a whole group lies inside it');
  const pieces: Piece[] = [];
  if (from > inFrame) pieces.push(edge(inFrame, from, before));
  pieces.push({ kind: 'copy', film, from, to, startPacket: start });
  if (to < outFrame) {
    const tailStart = await idrBefore(films, film, to);
    if (tailStart < 0) return pictures('its last frames can not be decoded from a key frame near');
    pieces.push(edge(to, outFrame, tailStart));
  }
  if (pieces.length === 1)
    return { how: 'copied', why: 'it starts at a key frame and ends between packets', pieces };
  const words = [
    ...(from > inFrame ? [`${plural(from - inFrame, 'frame')} before its first key frame`] : []),
    ...(to < outFrame
      ? [`${plural(outFrame - to, 'frame')} at its end that others are predicted across`]
      : []),
  ];
  return { how: 'edges', why: `encoded: ${words.join(' and ')}`, pieces };
}

function pictures(why: string): SegmentCut {
  return { how: 'encoded', why, pieces: [] };
}

/** Asked for each segment first: why it has to be encoded whatever its film is like; null when it need not be. */
export type MustEncode = (segment: PlannedSegment) => string | null;

/** Decides for every segment what is copied and what is encoded. Reads headers only. */
export async function planCuts(
  plan: ReelPlan,
  films: PacketFilms,
  mustEncode: MustEncode,
): Promise<SegmentCut[]> {
  let first: PacketFilm | null = null;
  const cuts: SegmentCut[] = [];
  for (const segment of plan.segments) {
    const must = segment.repeats ? 'frames of it are shown more than once' : mustEncode(segment);
    if (must !== null) {
      cuts.push(pictures(must));
      continue;
    }
    const film = await films.film(segment);
    if (!('setup' in film)) {
      cuts.push(pictures(film.why));
      continue;
    }
    const why = unfit(film, segment, plan, first ?? film);
    if (why !== null) {
      cuts.push(pictures(why));
      continue;
    }
    first ??= film;
    cuts.push(await cutFilm(films, film, segment));
  }
  return cuts;
}
