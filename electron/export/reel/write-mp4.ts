import { type FileHandle, open } from 'node:fs/promises';
import { CANCELLED, ReelFailure } from '../reel-failure.ts';
import { avcEntry, box, MATRIX, sampleTable, trackBox, u16, u32 } from './mp4-boxes.ts';

/** One packet of the file to be made: where its bytes lie, and what is put in front of them. */
export interface OutPacket {
  readonly path: string;
  readonly at: number;
  readonly bytes: number;
  readonly before: Buffer | null;
}

export interface PicturePacket extends OutPacket {
  /** place in the order of presentation */
  readonly frame: number;
  readonly isKey: boolean;
}

export interface PictureTrack {
  readonly width: number;
  readonly height: number;
  readonly avcC: Uint8Array;
  readonly timescale: number;
  /** when each frame starts, in order of presentation, and one entry more for the end; units of the time scale */
  readonly starts: ArrayLike<number>;
  /** in decode order */
  readonly packets: readonly PicturePacket[];
}

export interface SoundTrack {
  /** content of the sample entry mp4a */
  readonly entry: Buffer;
  readonly sampleRate: number;
  readonly packets: readonly OutPacket[];
  /** packets at the start that only prepare the decoder */
  readonly priming: number;
}

export interface WriteOptions {
  readonly signal?: AbortSignal;
  /** bytes written so far */
  readonly onBytes?: (written: number) => void;
}

const SOUND_PACKET = 1024;
/** Picture and sound take turns at about this distance. */
const CHUNK_SECONDS = 0.5;
const WINDOW_BYTES = 2 * 1024 * 1024;
const sizeOf = (packet: OutPacket) => packet.bytes + (packet.before?.length ?? 0);

interface Chunk {
  readonly kind: 'picture' | 'sound';
  readonly first: number;
  readonly count: number;
}

function interleave(picture: PictureTrack, sound: SoundTrack | null): Chunk[] {
  const chunks: Chunk[] = [];
  let heard = 0;
  const addSound = (untilSeconds: number) => {
    if (!sound) return;
    const until = Math.min(
      sound.packets.length,
      Math.ceil((untilSeconds * sound.sampleRate) / SOUND_PACKET) + sound.priming,
    );
    if (until > heard) chunks.push({ kind: 'sound', first: heard, count: until - heard });
    heard = Math.max(heard, until);
  };
  const step = CHUNK_SECONDS * picture.timescale;
  for (let first = 0; first < picture.packets.length; ) {
    let after = first + 1;
    while (after < picture.packets.length && picture.starts[after]! - picture.starts[first]! < step) after++;
    chunks.push({ kind: 'picture', first, count: after - first });
    addSound(picture.starts[after]! / picture.timescale);
    first = after;
  }
  addSound(Number.POSITIVE_INFINITY);
  return chunks;
}

/** Gives the bytes of packets that lie near each other in their files, read in large pieces. */
class PacketReader {
  private readonly files = new Map<string, FileHandle>();
  private windows: { path: string; start: number; bytes: Buffer }[] = [];

  async read(packets: readonly OutPacket[], index: number): Promise<Buffer> {
    const { path, at, bytes } = packets[index]!;
    const known = this.windows.find(
      (one) => one.path === path && at >= one.start && at + bytes <= one.start + one.bytes.length,
    );
    if (known) return known.bytes.subarray(at - known.start, at - known.start + bytes);
    let end = at + bytes;
    for (let next = index + 1; next < packets.length; next++) {
      const packet = packets[next]!;
      if (packet.path !== path || packet.at < at || packet.at + packet.bytes > at + WINDOW_BYTES) break;
      end = Math.max(end, packet.at + packet.bytes);
    }
    const window = Buffer.allocUnsafe(end - at);
    const file = await this.file(path);
    const { bytesRead } = await file.read(window, 0, window.length, at);
    if (bytesRead < window.length) throw new RangeError(`${path} is shorter than its table of contents says`);
    this.windows = [{ path, start: at, bytes: window }, ...this.windows.slice(0, 1)];
    return window.subarray(0, bytes);
  }

  async close(): Promise<void> {
    for (const file of this.files.values()) await file.close();
    this.files.clear();
  }

  private async file(path: string): Promise<FileHandle> {
    const known = this.files.get(path);
    if (known) return known;
    // a reel of many small files must not hold them all open
    if (this.files.size > 32) await this.close();
    const file = await open(path, 'r');
    this.files.set(path, file);
    return file;
  }
}

/** How long packets in decode order have to wait for those shown before them, in units of the time scale. */
function reorderDelay({ packets, starts }: PictureTrack): number {
  let delay = 0;
  for (const [at, { frame }] of packets.entries()) delay = Math.max(delay, starts[at]! - starts[frame]!);
  return delay;
}

function moovOf(
  picture: PictureTrack,
  sound: SoundTrack | null,
  chunks: readonly Chunk[],
  dataStart: number,
): Buffer {
  const starts = { picture: [] as number[], sound: [] as number[] };
  const counts = { picture: [] as number[], sound: [] as number[] };
  let at = dataStart;
  for (const { kind, first, count } of chunks) {
    starts[kind].push(at);
    counts[kind].push(count);
    const packets = kind === 'picture' ? picture.packets : sound!.packets;
    for (let packet = first; packet < first + count; packet++) at += sizeOf(packets[packet]!);
  }
  const frames = picture.packets.length;
  const units = picture.starts[frames]!;
  const delay = reorderDelay(picture);
  const durations = picture.packets.map((_, packet) => picture.starts[packet + 1]! - picture.starts[packet]!);
  const shifts = picture.packets.map(
    ({ frame }, packet) => picture.starts[frame]! + delay - picture.starts[packet]!,
  );
  const keys = picture.packets.flatMap(({ isKey }, packet) => (isKey ? [packet] : []));
  const { width, height, timescale } = picture;
  const pictureTrack = trackBox(
    {
      id: 1,
      kind: 'vide',
      timescale,
      mediaUnits: units,
      startUnits: delay,
      movieUnits: units,
      width,
      height,
    },
    sampleTable({
      entry: avcEntry(width, height, picture.avcC),
      durations,
      offsets: shifts.some((shift) => shift !== 0) ? shifts : null,
      keys: keys.length === frames ? null : keys,
      sizes: picture.packets.map(sizeOf),
      chunkPackets: counts.picture,
      chunkStarts: starts.picture,
    }),
  );
  const soundTrack =
    sound &&
    trackBox(
      {
        id: 2,
        kind: 'soun',
        timescale: sound.sampleRate,
        mediaUnits: sound.packets.length * SOUND_PACKET,
        startUnits: sound.priming * SOUND_PACKET,
        movieUnits: units,
        width: 0,
        height: 0,
      },
      sampleTable({
        entry: box('mp4a', sound.entry),
        durations: sound.packets.map(() => SOUND_PACKET),
        offsets: null,
        keys: null,
        sizes: sound.packets.map(sizeOf),
        chunkPackets: counts.sound,
        chunkStarts: starts.sound,
      }),
    );
  const mvhd = box(
    'mvhd',
    u32(0, 0, 0, timescale, units, 0x10000),
    u16(0x100, 0),
    u32(0, 0),
    MATRIX,
    u32(0, 0, 0, 0, 0, 0, 3),
  );
  return box('moov', mvhd, pictureTrack, ...(soundTrack ? [soundTrack] : []));
}

/** Writes one MP4, its table of contents first, out of packets that lie in other files. Same packets, same bytes. */
export async function writeMp4(
  target: string,
  picture: PictureTrack,
  sound: SoundTrack | null,
  options: WriteOptions = {},
): Promise<void> {
  const chunks = interleave(picture, sound);
  const order = chunks.flatMap(({ kind, first, count }) =>
    (kind === 'picture' ? picture.packets : sound!.packets).slice(first, first + count),
  );
  const dataBytes = order.reduce((sum, packet) => sum + sizeOf(packet), 0);
  const ftyp = box('ftyp', Buffer.from('isom'), u32(0x200), Buffer.from('isomiso2avc1mp41'));
  const long = dataBytes + 16 > 0xffffffff;
  const mdat = long
    ? Buffer.concat([
        u32(1),
        Buffer.from('mdat'),
        u32(Math.floor((dataBytes + 16) / 2 ** 32), dataBytes + 16),
      ])
    : Buffer.concat([u32(dataBytes + 8), Buffer.from('mdat')]);
  // the size of the table does not depend on the places in it, but for the step from 4 to 8 bytes
  const guess = ftyp.length + moovOf(picture, sound, chunks, 0).length + mdat.length;
  const head = ftyp.length + moovOf(picture, sound, chunks, guess).length + mdat.length;
  const moov = moovOf(picture, sound, chunks, head);

  const reader = new PacketReader();
  const file = await open(target, 'w');
  try {
    await file.write(Buffer.concat([ftyp, moov, mdat]));
    let out = Buffer.allocUnsafe(WINDOW_BYTES);
    let filled = 0;
    let written = 0;
    const put = async (bytes: Buffer) => {
      if (filled + bytes.length > out.length) {
        await file.write(out, 0, filled);
        written += filled;
        options.onBytes?.(written);
        filled = 0;
        if (bytes.length > out.length) out = Buffer.allocUnsafe(bytes.length);
      }
      filled += bytes.copy(out, filled);
    };
    for (const [index, packet] of order.entries()) {
      if (options.signal?.aborted) throw new ReelFailure(CANCELLED);
      if (packet.before) await put(packet.before);
      await put(await reader.read(order, index));
    }
    await file.write(out, 0, filled);
  } finally {
    await reader.close();
    await file.close();
  }
}
