import { open } from 'node:fs/promises';

export interface ByteRange {
  readonly start: number;
  readonly length: number;
}

const CONTAINERS = new Set(['moov', 'trak', 'mdia']);
const STAMPED = new Set(['mvhd', 'tkhd', 'mdhd']);

/**
 * Where a moov box (ISO/IEC 14496-12) holds the times at which it was made. They are set to 0 ("unknown"), because the
 * same cut-up of the same film should give the same bytes whenever it is rendered.
 */
export function timeStampsIn(moov: Uint8Array, position: number): ByteRange[] {
  const view = new DataView(moov.buffer, moov.byteOffset, moov.byteLength);
  const found: ByteRange[] = [];
  const walk = (from: number, to: number) => {
    for (let at = from; at + 8 <= to; ) {
      const size = view.getUint32(at);
      const type = String.fromCharCode(...moov.subarray(at + 4, at + 8));
      if (size < 8) return;
      if (CONTAINERS.has(type)) walk(at + 8, Math.min(to, at + size));
      // version 1 has times of 64 bits; the version is the byte after the type
      if (STAMPED.has(type)) found.push({ start: position + at + 12, length: moov[at + 8] === 1 ? 16 : 8 });
      at += size;
    }
  };
  walk(0, moov.byteLength);
  return found;
}

export async function clearStamps(path: string, ranges: readonly ByteRange[]): Promise<void> {
  const file = await open(path, 'r+');
  try {
    for (const { start, length } of ranges) await file.write(Buffer.alloc(length), 0, length, start);
  } finally {
    await file.close();
  }
}
