/** Boxes of an MP4 file (ISO/IEC 14496-12). Times of making are left 0 ("unknown"), so that the same film gives the same bytes. */
export function box(type: string, ...content: (Uint8Array | readonly number[])[]): Buffer {
  const parts = content.map((part) => (part instanceof Uint8Array ? part : Buffer.from(part)));
  const head = Buffer.alloc(8);
  head.writeUInt32BE(parts.reduce((sum, part) => sum + part.length, 8));
  head.write(type, 4, 'latin1');
  return Buffer.concat([head, ...parts]);
}

export function u16(...numbers: number[]): Buffer {
  const out = Buffer.alloc(numbers.length * 2);
  for (const [at, number] of numbers.entries()) out.writeUInt16BE(number, at * 2);
  return out;
}

export function u32(...numbers: number[]): Buffer {
  const out = Buffer.alloc(numbers.length * 4);
  for (const [at, number] of numbers.entries()) out.writeUInt32BE(number >>> 0, at * 4);
  return out;
}

/** Counts equal neighbours: [how many, of what] pairs. */
export function runs(numbers: ArrayLike<number>): number[] {
  const out: number[] = [];
  for (let at = 0; at < numbers.length; at++) {
    if (at > 0 && numbers[at] === numbers[at - 1]) out[out.length - 2]! += 1;
    else out.push(1, numbers[at]!);
  }
  return out;
}

export const MATRIX = u32(0x10000, 0, 0, 0, 0x10000, 0, 0, 0, 0x40000000);

export interface TrackTables {
  /** whole sample entry */
  readonly entry: Buffer;
  readonly durations: ArrayLike<number>;
  /** presentation minus decode time; null when all are 0 */
  readonly offsets: ArrayLike<number> | null;
  /** packets at which decoding may start; null: all */
  readonly keys: readonly number[] | null;
  readonly sizes: ArrayLike<number>;
  /** packets of each chunk, and where it starts in the file */
  readonly chunkPackets: readonly number[];
  readonly chunkStarts: readonly number[];
}

export function sampleTable(tables: TrackTables): Buffer {
  const { entry, durations, offsets, keys, sizes, chunkPackets, chunkStarts } = tables;
  const times = runs(durations);
  const shifts = offsets && runs(offsets);
  const perChunk: number[] = [];
  for (const [chunk, packets] of chunkPackets.entries()) {
    if (packets !== chunkPackets[chunk - 1]) perChunk.push(chunk + 1, packets, 1);
  }
  const long = (chunkStarts.at(-1) ?? 0) > 0xffffffff;
  const places = long
    ? box(
        'co64',
        u32(0, chunkStarts.length),
        u32(...chunkStarts.flatMap((at) => [Math.floor(at / 2 ** 32), at])),
      )
    : box('stco', u32(0, chunkStarts.length), u32(...chunkStarts));
  const bytes = Buffer.alloc(sizes.length * 4);
  for (let packet = 0; packet < sizes.length; packet++) bytes.writeUInt32BE(sizes[packet]!, packet * 4);
  return box(
    'stbl',
    box('stsd', u32(0, 1), entry),
    box('stts', u32(0, times.length / 2), u32(...times)),
    ...(shifts ? [box('ctts', u32(0, shifts.length / 2), u32(...shifts))] : []),
    ...(keys ? [box('stss', u32(0, keys.length), u32(...keys.map((packet) => packet + 1)))] : []),
    box('stsc', u32(0, perChunk.length / 3), u32(...perChunk)),
    box('stsz', u32(0, 0, sizes.length), bytes),
    places,
  );
}

export interface TrackHead {
  readonly id: number;
  readonly kind: 'vide' | 'soun';
  readonly timescale: number;
  /** of all packets, in the track's time scale */
  readonly mediaUnits: number;
  /** where the shown part starts, in the track's time scale */
  readonly startUnits: number;
  /** length of the shown part, in the movie's time scale */
  readonly movieUnits: number;
  readonly width: number;
  readonly height: number;
}

export function trackBox(head: TrackHead, table: Buffer): Buffer {
  const { id, kind, timescale, mediaUnits, startUnits, movieUnits, width, height } = head;
  const picture = kind === 'vide';
  return box(
    'trak',
    box(
      'tkhd',
      u32(3, 0, 0, id, 0, movieUnits, 0, 0),
      u16(0, picture ? 0 : 1, picture ? 0 : 0x100, 0),
      MATRIX,
      u32(width * 0x10000, height * 0x10000),
    ),
    box('edts', box('elst', u32(0, 1, movieUnits, startUnits), u16(1, 0))),
    box(
      'mdia',
      box('mdhd', u32(0, 0, 0, timescale, mediaUnits), u16(0x55c4, 0)),
      box('hdlr', u32(0, 0), Buffer.from(kind, 'latin1'), u32(0, 0, 0), Buffer.from('\0')),
      box(
        'minf',
        picture ? box('vmhd', u32(1), u16(0, 0, 0, 0)) : box('smhd', u32(0), u16(0, 0)),
        box('dinf', box('dref', u32(0, 1), box('url ', u32(1)))),
        table,
      ),
    ),
  );
}

/** The sample entry of an H.264 track whose parameter sets stand in `avcC`. */
export function avcEntry(width: number, height: number, avcC: Uint8Array): Buffer {
  const name = Buffer.alloc(32);
  return box(
    'avc1',
    u32(0),
    u16(0, 1, 0, 0),
    u32(0, 0, 0),
    u16(width, height),
    u32(0x480000, 0x480000, 0),
    u16(1),
    name,
    u16(0x18, 0xffff),
    box('avcC', avcC),
  );
}
