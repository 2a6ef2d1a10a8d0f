import type { FrameRate } from '../../film/frame-table.ts';
import { readPacket, writeAvcC } from './avc.ts';
import { type Piece, withFile } from './cut-plan.ts';
import { type PacketFilm, readPacketOf } from './packet-film.ts';
import { type PicturePacket, writeMp4 } from './write-mp4.ts';

/** Where the frames of one edge stand in the feed, and the picture put before them, which the film shows behind them. */
export interface FedEdge {
  readonly edge: Piece;
  /** first wanted frame of the feed, the one after the last, and the picture behind */
  readonly first: number;
  readonly after: number;
  readonly behind: number;
}

interface Group {
  readonly film: PacketFilm;
  readonly packets: readonly number[];
}

/** Packets from the edge's key frame on, without those that only show a picture that nobody asked for. */
async function packetsFor({ film, from, to, startPacket }: Piece): Promise<number[]> {
  return withFile(film.path, async (file) => {
    const packets: number[] = [];
    for (let packet = startPacket, left = to - from; left > 0 && packet < film.at.length; packet++) {
      const frame = film.frameOf[packet]!;
      const wanted = frame >= from && frame < to;
      if (wanted) left -= 1;
      else if (readPacket(await readPacketOf(film, file, packet), film.setup.lengthBytes).disposable)
        continue;
      packets.push(packet);
    }
    return packets;
  });
}

/**
 * Writes a small MP4 of only the groups of pictures that the edges need. Its frames are numbered: frame n is shown at
 * n / rate. Before each edge stands one key picture more (the frame that a copy goes on with, where there is one): it takes
 * what an encoder writes only at its start, and gives every edge two IDR pictures, so that what is written for one edge does
 * not depend on how many came before it.
 */
export async function writeFeed(
  edges: readonly Piece[],
  rate: FrameRate,
  target: string,
): Promise<FedEdge[]> {
  const picture: PicturePacket[] = [];
  const fed: FedEdge[] = [];
  let frames = 0;
  const add = ({ film, packets }: Group) => {
    const order = [...packets].sort((one, other) => film.shownAt[one]! - film.shownAt[other]!);
    const place = new Map(order.map((packet, at) => [packet, frames + at]));
    for (const packet of packets) {
      const [at, bytes] = [film.at[packet]!, film.bytes[packet]!];
      const isKey = packet === packets[0];
      picture.push({ path: film.path, at, bytes, before: null, frame: place.get(packet)!, isKey });
    }
    frames += packets.length;
    return place;
  };
  for (const edge of edges) {
    const { film, from, to, startPacket } = edge;
    const next = to < film.packetOf.length ? film.packetOf[to]! : -1;
    const goesOn = next >= 0 && film.isKey[next] === 1;
    const behind = [...add({ film, packets: [goesOn ? next : startPacket] }).values()][0]!;
    const place = add({ film, packets: await packetsFor(edge) });
    const first = place.get(film.packetOf[from]!)!;
    fed.push({ edge, first, after: first + to - from, behind });
  }
  const { sps, setup } = edges[0]!.film;
  await writeMp4(
    target,
    {
      width: sps.width,
      height: sps.height,
      avcC: writeAvcC(setup.sps, setup.pps),
      timescale: rate.num,
      starts: Array.from({ length: frames + 1 }, (_, frame) => frame * rate.den),
      packets: picture,
    },
    null,
  );
  return fed;
}
