import { Bits, nalUnits, withoutEscapes } from './bits.ts';

/** What a container hands over to set a decoder up, and the first packet for those that carry it in the stream. */
export interface DecoderSetup {
  /** as WebCodecs names it: avc1.640028, vp09.00.31.08; null for codecs that it does not know */
  readonly codecString: string | null;
  /** avcC, hvcC ... ; null where the stream carries its own headers */
  readonly description: Uint8Array | null;
  /** the first bytes of the first packet */
  readonly firstPacket: Uint8Array | null;
}

export interface PictureFacts {
  readonly interlaced: boolean;
  readonly plainPixels: boolean;
}

const H264_SPS = 7;
const HEVC_SPS = 33;
/** Profiles whose parameter sets say how colors are sampled (H.264, 7.3.2.1.1). */
const H264_RICH_PROFILES = new Set([100, 110, 122, 244, 44, 83, 86, 118, 128, 138, 139, 134, 135]);

/** What the headers of the codec tell of the picture; null for codecs whose headers are not read here. */
export function pictureFacts(codec: string, setup: DecoderSetup): PictureFacts | null {
  switch (codec) {
    case 'avc': {
      const sps = h264Sps(setup);
      return sps && readH264Sps(sps);
    }
    case 'hevc':
      return hevcFacts(setup);
    case 'vp8':
      return { interlaced: false, plainPixels: true };
    case 'vp9':
      return { interlaced: false, plainPixels: setup.codecString?.split('.')[1] === '00' };
    case 'av1': {
      const [, profile, , depth] = setup.codecString?.split('.') ?? [];
      return { interlaced: false, plainPixels: profile === '0' && Number(depth ?? 8) === 8 };
    }
    default:
      return null;
  }
}

function h264Sps({ description, firstPacket }: DecoderSetup): Uint8Array | null {
  if (description && description.length > 8 && (description[5]! & 31) > 0) {
    const length = description[6]! * 256 + description[7]!;
    return description.subarray(8, 8 + length);
  }
  const lengthBytes = description && description.length > 4 ? (description[4]! & 3) + 1 : 0;
  for (const nal of nalUnits(firstPacket ?? new Uint8Array(), lengthBytes)) {
    if ((nal[0]! & 31) === H264_SPS) return nal;
  }
  return null;
}

/** Follows a sequence parameter set up to the flag that says whether all pictures are whole frames (H.264, 7.3.2.1.1). */
function readH264Sps(nal: Uint8Array): PictureFacts {
  const bits = new Bits(withoutEscapes(nal.subarray(1)));
  const profile = bits.read(8);
  bits.read(16);
  bits.golomb();
  let plainPixels = true;
  if (H264_RICH_PROFILES.has(profile)) {
    const chroma = bits.golomb();
    if (chroma === 3) bits.read(1);
    const depths = bits.golomb() + bits.golomb();
    plainPixels = chroma <= 1 && depths === 0;
    bits.read(1);
    if (bits.read(1) === 1) skipScalingLists(bits, chroma === 3 ? 12 : 8);
  }
  bits.golomb();
  const order = bits.golomb();
  if (order === 0) bits.golomb();
  else if (order === 1) {
    bits.read(1);
    bits.signedGolomb();
    bits.signedGolomb();
    for (let left = Math.min(255, bits.golomb()); left > 0; left--) bits.signedGolomb();
  }
  bits.golomb();
  bits.read(1);
  bits.golomb();
  bits.golomb();
  return { interlaced: !bits.ended && bits.read(1) === 0, plainPixels };
}

function skipScalingLists(bits: Bits, lists: number): void {
  for (let list = 0; list < lists; list++) {
    if (bits.read(1) === 0) continue;
    let last = 8;
    let next = 8;
    for (let at = 0; at < (list < 6 ? 16 : 64) && next !== 0; at++) {
      next = (last + bits.signedGolomb() + 256) % 256;
      if (next !== 0) last = next;
    }
  }
}

/** The source flags of the profile and tier (H.265, 7.3.3); pixels are left plain only where hvcC says so. */
function hevcFacts({ description, firstPacket }: DecoderSetup): PictureFacts | null {
  if (description && description.length > 18) {
    const flags = description[6]!;
    const plainPixels = (description[16]! & 3) === 1 && (description[17]! & 7) === 0;
    return { interlaced: (flags & 0xc0) === 0x40, plainPixels };
  }
  for (const nal of nalUnits(firstPacket ?? new Uint8Array(), 0)) {
    if (((nal[0]! >> 1) & 63) !== HEVC_SPS) continue;
    const flags = withoutEscapes(nal.subarray(0, 32))[8] ?? 0x80;
    return { interlaced: (flags & 0xc0) === 0x40, plainPixels: false };
  }
  return null;
}
