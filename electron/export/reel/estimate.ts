import { planReel, type ReelPlan } from '../reel-plan.ts';
import type { ReelOptions, ReelSegment, SegmentHow } from '../reel-types.ts';
import { PacketFilms, planCuts, type SegmentCut } from './cut-plan.ts';
import { keptEdges } from './edges.ts';
import { mustEncode } from './make-reel.ts';
import type { PacketFilm } from './packet-film.ts';

/** Upper estimate of what x264 writes, bits per pixel and frame, by quality; noisy turf comes near it. */
const BITS_PER_PIXEL = { small: 0.1, standard: 0.2, fine: 0.4 } as const;
const SMALLEST_ROOM = 2_000_000;
const SOUND_BYTES_PER_SECOND = 16_000;
/** The table of contents of an MP4: sizes and order of its frames. */
const TABLE_BYTES = 1_000;
const TABLE_BYTES_PER_FRAME = 12;
/** Size of what is encoded against the film's own, frame by frame, by quality; measured on made film. */
const AGAINST_FILM = { small: 0.45, standard: 0.9, fine: 1.6 } as const;
const EDGE_AGAINST_FILM = { small: 1.6, standard: 1.6, fine: 2.4 } as const;
/** Where the film's own size is not known: usual sizes of x264 at these qualities, bits per pixel. */
const USUAL_BITS_PER_PIXEL = { small: 0.05, standard: 0.1, fine: 0.2 } as const;

/** How fast this machine is, taken from the reels that it made; pixels and bytes a second. */
export interface ReelSpeeds {
  readonly edgePixels: number;
  readonly picturePixels: number;
  readonly copiedBytes: number;
}

/** A laptop of two cores, until it has made a reel of its own. */
export const USUAL_SPEEDS: ReelSpeeds = { edgePixels: 90e6, picturePixels: 60e6, copiedBytes: 150e6 };
const START_SECONDS = 1;

export interface ReelEstimate {
  readonly frames: number;
  /** length of the reel */
  readonly seconds: number;
  readonly width: number;
  readonly height: number;
  /** how long making it takes, about */
  readonly makingSeconds: number;
  /** how large it gets, about */
  readonly bytes: number;
  /** how many segments are made in which way */
  readonly how: Readonly<Record<SegmentHow, number>>;
  /** the most frequent reason for encoding a segment whole; null where none is */
  readonly whyEncoded: string | null;
}

/** Room that making a reel takes on the drive of its target: the encoded picture and the finished file lie there at once. */
export function neededBytes(plan: ReelPlan, quality: ReelOptions['quality']): number {
  const picture = (plan.width * plan.height * plan.frames * BITS_PER_PIXEL[quality ?? 'standard']) / 8;
  const sound = plan.hasSound ? (plan.startsMicros[plan.frames]! / 1e6) * 20_000 : 0;
  return Math.round(2 * (picture + sound) + SMALLEST_ROOM);
}

function packetBytes(film: PacketFilm, from: number, to: number): number {
  let bytes = 0;
  for (let frame = from; frame < to; frame++) bytes += film.bytes[film.packetOf[frame]!]!;
  return bytes;
}

function mostFrequent(words: readonly string[]): string | null {
  const counts = new Map<string, number>();
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
  return [...counts].sort((one, other) => other[1] - one[1])[0]?.[0] ?? null;
}

async function pictureBytes(
  plan: ReelPlan,
  cut: SegmentCut,
  index: number,
  films: PacketFilms,
  quality: 'small' | 'standard' | 'fine',
): Promise<number> {
  const segment = plan.segments[index]!;
  const pixels = plan.width * plan.height;
  if (segment.card) return segment.frames * pixels * 0.001 + pixels * 0.05;
  const film = await films.film(segment);
  if (cut.pieces.length > 0 || !('setup' in film)) {
    return (segment.frames * pixels * USUAL_BITS_PER_PIXEL[quality]) / 8;
  }
  const scale = Math.min(1, pixels / (film.sps.width * film.sps.height)) ** 0.75;
  return packetBytes(film, segment.inFrame, segment.outFrame) * scale * AGAINST_FILM[quality];
}

/**
 * What a reel will cost before it is made: from the films' own tables of contents, what is copied is known to the byte;
 * what is encoded is reckoned from the films' size and from how fast this machine was before. Null for segments that
 * can't be planned.
 */
export async function estimateReel(
  segments: readonly ReelSegment[],
  options: ReelOptions,
  speeds: ReelSpeeds = USUAL_SPEEDS,
): Promise<ReelEstimate | null> {
  const planned = planReel(segments, options);
  if (!planned.ok) return null;
  const plan = planned.value;
  const quality = options.quality ?? 'standard';
  const films = new PacketFilms();
  const cuts = await planCuts(plan, films, (segment) => mustEncode(segment, options));
  const pixels = plan.width * plan.height;
  const pieces = cuts.flatMap((cut) => cut.pieces);
  const edges = pieces.filter(({ kind }) => kind === 'edge');
  const kept = await keptEdges(edges, {
    tools: options.tools,
    films,
    finer: quality === 'fine' ? 3 : 0,
    keptIn: options.edgeFolder ?? null,
  });
  let bytes = plan.hasSound ? (plan.startsMicros[plan.frames]! / 1e6) * SOUND_BYTES_PER_SECOND : 0;
  bytes += TABLE_BYTES + plan.frames * TABLE_BYTES_PER_FRAME;
  let making = START_SECONDS;
  for (const piece of pieces) {
    const own = packetBytes(piece.film, piece.from, piece.to);
    const known = kept.get(piece);
    bytes += piece.kind === 'copy' ? own : (known ?? own * EDGE_AGAINST_FILM[quality]);
    if (piece.kind === 'edge' && known === undefined) {
      making += ((piece.to - piece.from) * pixels) / speeds.edgePixels;
    }
  }
  for (const [index, cut] of cuts.entries()) {
    if (cut.pieces.length > 0) continue;
    bytes += await pictureBytes(plan, cut, index, films, quality);
    making += (plan.segments[index]!.frames * pixels) / speeds.picturePixels;
  }
  making += bytes / speeds.copiedBytes;
  const how = { copied: 0, edges: 0, encoded: 0 };
  for (const cut of cuts) how[cut.how] += 1;
  return {
    frames: plan.frames,
    seconds: plan.startsMicros[plan.frames]! / 1e6,
    width: plan.width,
    height: plan.height,
    makingSeconds: making,
    bytes: Math.round(bytes),
    how,
    whyEncoded: mostFrequent(cuts.filter((cut) => cut.how === 'encoded').map(({ why }) => why)),
  };
}
