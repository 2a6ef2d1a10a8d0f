import type { ReelPlan } from '../reel-plan.ts';
import { type AvcSetup, readPps, readSps, withLengths, writeAvcC } from './avc.ts';
import type { SegmentCut } from './cut-plan.ts';
import type { EdgesMade } from './edges.ts';
import type { MadeEdge } from './make-edges.ts';
import type { PacketFilm } from './packet-film.ts';
import type { PicturePacket, PictureTrack } from './write-mp4.ts';

/** Segments that were encoded through decoded pictures, all in one file, one behind the other. */
export interface PicturesMade {
  readonly made: PacketFilm;
  /** first frame in that file of each segment that is in it, by index of the segment */
  readonly firstOf: ReadonlyMap<number, number>;
  /** small pictures of each segment's first frame as it decodes */
  readonly firstThumbs: ReadonlyMap<number, Buffer>;
}

/** A run of packets of the reel that begins with a key frame of its own. */
export interface Run {
  readonly segment: number;
  /** the film's own packets; else what was encoded from it */
  readonly copied: boolean;
  readonly film: PacketFilm;
  readonly packets: readonly number[];
  /** first frame of the reel in it */
  readonly firstFrame: number;
  /** what its first frame must look like; null where the film itself has to be asked */
  readonly thumb: Buffer | null;
}

function fromEdge({ made, first, edge, firstThumb }: MadeEdge): Omit<Run, 'segment' | 'firstFrame'> {
  const packets = Array.from({ length: edge.to - edge.from }, (_, frame) => made.packetOf[first + frame]!);
  return { copied: false, film: made, packets, thumb: firstThumb };
}

/** The packets of a reel in order, as runs; segments without pieces come from the file of pictures. */
export function runsOf(
  plan: ReelPlan,
  cuts: readonly SegmentCut[],
  { made }: EdgesMade,
  pictures: PicturesMade | null,
): Run[] {
  const runs: Run[] = [];
  for (const segment of plan.segments) {
    const { index, firstFrame, frames } = segment;
    const { pieces } = cuts[index]!;
    if (pieces.length === 0) {
      const from = pictures!.firstOf.get(index)!;
      const film = pictures!.made;
      // the encoder closes its groups at the start of each segment, so its packets are a stretch of the file
      const packets: number[] = [];
      for (let packet = film.packetOf[from]!; packets.length < frames; packet++) packets.push(packet);
      runs.push({
        segment: index,
        copied: false,
        film,
        packets,
        firstFrame,
        thumb: pictures!.firstThumbs.get(index) ?? null,
      });
      continue;
    }
    let frame = firstFrame;
    let behind: Buffer | null = null;
    for (const piece of pieces) {
      const count = piece.to - piece.from;
      if (piece.kind === 'edge') {
        const edge = made.get(piece)!;
        runs.push({ segment: index, firstFrame: frame, ...fromEdge(edge) });
        behind = edge.behindThumb;
      } else {
        const { film, startPacket } = piece;
        const packets = Array.from({ length: count }, (_, at) => startPacket + at);
        runs.push({ segment: index, copied: true, film, packets, firstFrame: frame, thumb: behind });
      }
      frame += count;
    }
  }
  return runs;
}

/** Parameter sets of all runs. `inBand`: two of them share a number, so each key frame brings its own along. */
export interface ReelSets {
  readonly avcC: Buffer;
  readonly inBand: boolean;
}

export function setsOf(runs: readonly Run[]): ReelSets {
  const sps = new Map<number, Uint8Array>();
  const pps = new Map<number, Uint8Array>();
  let inBand = false;
  const add = (sets: Map<number, Uint8Array>, id: number, set: Uint8Array) => {
    const known = sets.get(id);
    if (!known) sets.set(id, set);
    else if (Buffer.compare(known, set) !== 0) inBand = true;
  };
  for (const setup of new Set<AvcSetup>(runs.map(({ film }) => film.setup))) {
    for (const set of setup.sps) add(sps, readSps(set).id, set);
    for (const set of setup.pps) add(pps, readPps(set)?.id ?? 0, set);
  }
  return { avcC: writeAvcC([...sps.values()], [...pps.values()]), inBand };
}

/** Access unit delimiter for a key picture (H.264, 7.3.2.4), behind its length. */
const DELIMITER = Buffer.from([0, 0, 0, 2, 9, 0x10]);

/** Times of the reel in whole units: a constant rate to the fraction, else 90,000 a second. */
export function unitsOf(plan: ReelPlan): { timescale: number; starts: Float64Array } {
  const { constant, rate, startsMicros } = plan;
  return constant
    ? { timescale: rate.num, starts: startsMicros.map((_, frame) => frame * rate.den) }
    : { timescale: 90_000, starts: startsMicros.map((micros) => Math.round(micros * 0.09)) };
}

/** Lays the runs out as the picture track of the reel. */
export function layPicture(plan: ReelPlan, runs: readonly Run[], sets: ReelSets): PictureTrack {
  const packets: PicturePacket[] = [];
  const fronts = new Map<AvcSetup, Buffer>();
  for (const { film, packets: numbers, firstFrame } of runs) {
    const front = fronts.get(film.setup) ?? withLengths([...film.setup.sps, ...film.setup.pps]);
    fronts.set(film.setup, front);
    const firstShown = film.frameOf[numbers[0]!]!;
    for (const [at, packet] of numbers.entries()) {
      const isKey = film.isKey[packet] === 1;
      // two key frames side by side may look like one to a decoder that goes by their headers
      const beside = at === 0 && packets.at(-1)?.isKey === true;
      const before = sets.inBand && isKey ? front : beside ? DELIMITER : null;
      packets.push({
        path: film.path,
        at: film.at[packet]!,
        bytes: film.bytes[packet]!,
        before,
        frame: firstFrame + film.frameOf[packet]! - firstShown,
        isKey,
      });
    }
  }
  return { width: plan.width, height: plan.height, avcC: sets.avcC, ...unitsOf(plan), packets };
}
