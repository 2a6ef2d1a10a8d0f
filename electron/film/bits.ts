/** Reads bits of a byte string, highest first, as the headers of video codecs are written. Past the end everything is 0. */
export class Bits {
  private at = 0;
  private readonly bytes: Uint8Array;

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
  }

  get ended(): boolean {
    return this.at >= this.bytes.length * 8;
  }

  read(count: number): number {
    let value = 0;
    for (let bit = 0; bit < count; bit++, this.at++) {
      const byte = this.bytes[this.at >> 3] ?? 0;
      value = value * 2 + ((byte >> (7 - (this.at & 7))) & 1);
    }
    return value;
  }

  /** Exp-Golomb code, unsigned (ITU-T H.264, 9.1). */
  golomb(): number {
    let zeros = 0;
    while (zeros < 32 && !this.ended && this.read(1) === 0) zeros += 1;
    return 2 ** zeros - 1 + this.read(zeros);
  }

  signedGolomb(): number {
    const code = this.golomb();
    return code % 2 === 0 ? -code / 2 : (code + 1) / 2;
  }
}

/** A NAL unit without the 3 that is put in after two zero bytes so that no start code appears inside (H.264, 7.4.1). */
export function withoutEscapes(nal: Uint8Array): Uint8Array {
  const out: number[] = [];
  let zeros = 0;
  for (const byte of nal) {
    if (zeros >= 2 && byte === 3) {
      zeros = 0;
      continue;
    }
    zeros = byte === 0 ? zeros + 1 : 0;
    out.push(byte);
  }
  return Uint8Array.from(out);
}

/** The NAL units of a packet: behind start codes (`lengthBytes` 0), or each behind its length. */
export function* nalUnits(packet: Uint8Array, lengthBytes: number): Generator<Uint8Array> {
  if (lengthBytes > 0) {
    for (let at = 0; at + lengthBytes < packet.length; ) {
      let length = 0;
      for (let byte = 0; byte < lengthBytes; byte++) length = length * 256 + packet[at + byte]!;
      at += lengthBytes;
      if (length === 0) continue;
      yield packet.subarray(at, at + length);
      at += length;
    }
    return;
  }
  let start = -1;
  for (let at = 0; at + 2 < packet.length; at++) {
    if (packet[at] !== 0 || packet[at + 1] !== 0 || packet[at + 2] !== 1) continue;
    if (start >= 0) yield packet.subarray(start, at);
    start = at + 3;
    at += 2;
  }
  if (start >= 0) yield packet.subarray(start);
}
