import { Bits, nalUnits, withoutEscapes } from '../../film/bits.ts';

/** Kinds of NAL unit that matter here (ITU-T H.264, table 7-1). */
export const NAL = { slice: 1, idr: 5, sps: 7, pps: 8, delimiter: 9 } as const;

/** Profiles whose sequence parameter sets go on with chroma and bit depth (H.264, 7.3.2.1.1). */
const RICH_PROFILES = new Set([100, 110, 122, 244, 44, 83, 86, 118, 128, 138, 139, 134, 135]);

/** What a sequence parameter set says, as far as joining film depends on it. */
export interface SequenceFacts {
  readonly id: number;
  readonly profile: number;
  readonly level: number;
  /** 8-bit 4:2:0, the only kind that is copied and encoded here */
  readonly plainPixels: boolean;
  readonly frameNumberBits: number;
  readonly orderType: number;
  readonly orderBits: number;
  readonly progressive: boolean;
  /** size after cropping, in coded pixels */
  readonly width: number;
  readonly height: number;
  readonly squarePixels: boolean;
  readonly fullRange: boolean;
  /** numbers of H.264 tables E-3 to E-5; 2 where nothing is said */
  readonly primaries: number;
  readonly transfer: number;
  readonly matrix: number;
}

export interface PictureSetFacts {
  readonly id: number;
  readonly spsId: number;
  readonly bottomFieldOrder: boolean;
  readonly redundantCount: boolean;
  readonly initialQp: number;
}

/** The parameter sets of a track, as an avcC box (ISO/IEC 14496-15) holds them. */
export interface AvcSetup {
  readonly lengthBytes: number;
  readonly sps: readonly Uint8Array[];
  readonly pps: readonly Uint8Array[];
}

function skipScalingLists(bits: Bits, lists: number): void {
  for (let list = 0; list < lists; list++) {
    if (bits.read(1) === 0) continue;
    let last = 8;
    let next = 8;
    for (let at = 0; at < (list < 6 ? 16 : 64); at++) {
      if (next !== 0) next = (last + bits.signedGolomb() + 256) % 256;
      if (next !== 0) last = next;
    }
  }
}

/** Reads a sequence parameter set (H.264, 7.3.2.1.1 and E.1.1). */
export function readSps(nal: Uint8Array): SequenceFacts {
  const bits = new Bits(withoutEscapes(nal.subarray(1)));
  const profile = bits.read(8);
  bits.read(8);
  const level = bits.read(8);
  const id = bits.golomb();
  let plainPixels = true;
  if (RICH_PROFILES.has(profile)) {
    const chroma = bits.golomb();
    if (chroma === 3) bits.read(1);
    const depths = bits.golomb() + bits.golomb();
    const bypass = bits.read(1) === 1;
    plainPixels = chroma === 1 && depths === 0 && !bypass;
    if (bits.read(1) === 1) skipScalingLists(bits, chroma === 3 ? 12 : 8);
  }
  const frameNumberBits = bits.golomb() + 4;
  const orderType = bits.golomb();
  let orderBits = 0;
  if (orderType === 0) orderBits = bits.golomb() + 4;
  else if (orderType === 1) {
    bits.read(1);
    bits.signedGolomb();
    bits.signedGolomb();
    for (let left = Math.min(255, bits.golomb()); left > 0; left--) bits.signedGolomb();
  }
  bits.golomb();
  bits.read(1);
  const macroblocksWide = bits.golomb() + 1;
  const mapUnitsHigh = bits.golomb() + 1;
  const progressive = bits.read(1) === 1;
  if (!progressive) bits.read(1);
  bits.read(1);
  let width = macroblocksWide * 16;
  let height = mapUnitsHigh * 16 * (progressive ? 1 : 2);
  if (bits.read(1) === 1) {
    width -= 2 * (bits.golomb() + bits.golomb());
    height -= 2 * (progressive ? 1 : 2) * (bits.golomb() + bits.golomb());
  }
  let squarePixels = true;
  let fullRange = false;
  let [primaries, transfer, matrix] = [2, 2, 2];
  if (bits.read(1) === 1) {
    if (bits.read(1) === 1) {
      const shape = bits.read(8);
      const [wide, high] = shape === 255 ? [bits.read(16), bits.read(16)] : [1, 1];
      squarePixels = shape <= 1 || (shape === 255 && wide === high);
    }
    if (bits.read(1) === 1) bits.read(1);
    if (bits.read(1) === 1) {
      bits.read(3);
      fullRange = bits.read(1) === 1;
      if (bits.read(1) === 1) [primaries, transfer, matrix] = [bits.read(8), bits.read(8), bits.read(8)];
    }
  }
  return {
    id,
    profile,
    level,
    plainPixels,
    frameNumberBits,
    orderType,
    orderBits,
    progressive,
    width,
    height,
    squarePixels,
    fullRange,
    primaries,
    transfer,
    matrix,
  };
}

/** Reads a picture parameter set (H.264, 7.3.2.2); null for one with slice groups, which no camera writes. */
export function readPps(nal: Uint8Array): PictureSetFacts | null {
  const bits = new Bits(withoutEscapes(nal.subarray(1)));
  const id = bits.golomb();
  const spsId = bits.golomb();
  bits.read(1);
  const bottomFieldOrder = bits.read(1) === 1;
  if (bits.golomb() > 0) return null;
  bits.golomb();
  bits.golomb();
  bits.read(3);
  const initialQp = 26 + bits.signedGolomb();
  bits.signedGolomb();
  bits.signedGolomb();
  bits.read(2);
  return { id, spsId, bottomFieldOrder, redundantCount: bits.read(1) === 1, initialQp };
}

/** Takes an avcC box apart; null where it is not whole. */
export function readAvcC(box: Uint8Array): AvcSetup | null {
  if (box.length < 7 || box[0] !== 1) return null;
  const sets: [Uint8Array[], Uint8Array[]] = [[], []];
  let at = 5;
  for (const [kind, list] of sets.entries()) {
    const count = kind === 0 ? box[at++]! & 31 : box[at++]!;
    for (let one = 0; one < count; one++) {
      const length = (box[at] ?? 0) * 256 + (box[at + 1] ?? 0);
      at += 2;
      if (length === 0 || at + length > box.length) return null;
      list.push(box.subarray(at, at + length));
      at += length;
    }
  }
  const [sps, pps] = sets;
  if (sps.length === 0 || pps.length === 0) return null;
  return { lengthBytes: (box[4]! & 3) + 1, sps, pps };
}

/** Writes an avcC box's content; profile and level are the highest of those in it, so that a player sets up for all. */
export function writeAvcC(sps: readonly Uint8Array[], pps: readonly Uint8Array[]): Buffer {
  const facts = sps.map(readSps);
  const highest = facts.reduce((best, one) => (one.profile > best.profile ? one : best));
  const flags = sps[facts.indexOf(highest)]![2]!;
  const level = Math.max(...facts.map((one) => one.level));
  const parts = [Buffer.from([1, highest.profile, flags, level, 0xfc | 3, 0xe0 | sps.length])];
  const add = (nal: Uint8Array) => {
    const length = Buffer.alloc(2);
    length.writeUInt16BE(nal.length);
    parts.push(length, Buffer.from(nal));
  };
  sps.forEach(add);
  parts.push(Buffer.from([pps.length]));
  pps.forEach(add);
  // the rich profiles repeat how colors are sampled: 4:2:0, 8 bits, no extensions
  if (RICH_PROFILES.has(highest.profile)) parts.push(Buffer.from([0xfc | 1, 0xf8, 0xf8, 0]));
  return Buffer.concat(parts);
}

/** Each NAL unit behind its length of four bytes, as packets in an MP4 are written. */
export function withLengths(nals: readonly Uint8Array[]): Buffer {
  return Buffer.concat(
    nals.flatMap((nal) => {
      const length = Buffer.alloc(4);
      length.writeUInt32BE(nal.length);
      return [length, Buffer.from(nal)];
    }),
  );
}

export interface PacketFacts {
  /** every picture in it is an IDR picture: nothing before it is needed by anything after it */
  readonly idr: boolean;
  /** no other picture is decoded from it */
  readonly disposable: boolean;
  /** parameter sets that stand in the packet itself */
  readonly sets: readonly Uint8Array[];
  readonly startsWithDelimiter: boolean;
  readonly slice: Uint8Array | null;
}

/** What stands in a packet, from the headers of its NAL units. */
export function readPacket(packet: Uint8Array, lengthBytes: number): PacketFacts {
  let idr = true;
  let disposable = true;
  let slice: Uint8Array | null = null;
  const sets: Uint8Array[] = [];
  let first = -1;
  for (const nal of nalUnits(packet, lengthBytes)) {
    const kind = nal[0]! & 31;
    if (first < 0) first = kind;
    if (kind === NAL.sps || kind === NAL.pps) sets.push(nal);
    // 1 to 5 hold coded pictures; 2 to 4 are parts of them in a profile that is not copied
    if (kind < 1 || kind > 5) continue;
    slice ??= nal;
    if (kind !== NAL.idr) idr = false;
    if ((nal[0]! & 0x60) !== 0) disposable = false;
  }
  return {
    idr: idr && slice !== null,
    disposable,
    sets,
    startsWithDelimiter: first === NAL.delimiter,
    slice,
  };
}

/** The quantiser that an IDR picture's first slice starts with (H.264, 7.3.3); null where the header is of another kind. */
export function qpOfIdr(slice: Uint8Array, sps: SequenceFacts, pps: PictureSetFacts): number | null {
  if ((slice[0]! & 31) !== NAL.idr || !sps.progressive) return null;
  const bits = new Bits(withoutEscapes(slice.subarray(1, 64)));
  bits.golomb();
  const kind = bits.golomb() % 5;
  if (kind !== 2 || bits.golomb() !== pps.id) return null;
  bits.read(sps.frameNumberBits);
  bits.golomb();
  if (sps.orderType === 0) {
    bits.read(sps.orderBits);
    if (pps.bottomFieldOrder) bits.signedGolomb();
  } else if (sps.orderType === 1) return null;
  if (pps.redundantCount) bits.golomb();
  bits.read(2);
  const qp = pps.initialQp + bits.signedGolomb();
  return qp >= 0 && qp <= 51 ? qp : null;
}
