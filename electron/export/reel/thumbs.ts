import { createReadStream } from 'node:fs';

/** Small pictures, light only, by which frames are told apart: encoding hardly changes them, another frame does. */
export const THUMB = { width: 64, height: 36 } as const;
export const THUMB_BYTES = THUMB.width * THUMB.height;
/** As ffmpeg writes them, with their colors behind. */
const WRITTEN_BYTES = (THUMB_BYTES * 3) / 2;

/** Filters that make such a picture of each frame; the same for film and for what was encoded from it. */
export const THUMB_FILTER = `scale=${THUMB.width}:${THUMB.height}:flags=area,format=yuv420p`;

/** Mean difference of two of them, 0 to 255. */
export function thumbDistance(one: Uint8Array, other: Uint8Array): number {
  let sum = 0;
  for (let at = 0; at < THUMB_BYTES; at++) sum += Math.abs(one[at]! - other[at]!);
  return sum / THUMB_BYTES;
}

/** Encoding at the qualities used here stays far below this; a picture that fell apart does not. */
const FARTHEST = 6;
/** A neighbour may look this much more alike before the frame counts as another one: still film has equal frames. */
const TIE = 0.15;

/**
 * Whether `made` shows the frame `wanted` and neither of its neighbours (null where there is none); the answer is null, or
 * what is wrong in words.
 */
export function compareThumbs(
  made: Uint8Array,
  wanted: Uint8Array,
  neighbours: readonly (Uint8Array | undefined)[],
): string | null {
  const off = thumbDistance(made, wanted);
  if (off > FARTHEST) return `its picture differs from the film's by ${off.toFixed(1)} of 255`;
  for (const neighbour of neighbours) {
    if (neighbour && thumbDistance(made, neighbour) + TIE < off)
      return 'its picture is the one of a neighbour';
  }
  return null;
}

/** Reads a file of such pictures. */
export async function readThumbs(path: string): Promise<Buffer[]> {
  const parts: Buffer[] = [];
  for await (const part of createReadStream(path)) parts.push(part as Buffer);
  return splitThumbs(Buffer.concat(parts));
}

export function splitThumbs(bytes: Buffer): Buffer[] {
  return Array.from({ length: Math.floor(bytes.length / WRITTEN_BYTES) }, (_, at) =>
    bytes.subarray(at * WRITTEN_BYTES, at * WRITTEN_BYTES + THUMB_BYTES),
  );
}

/** The same small picture of a frame (yuv420p) that is at hand already: means of the light under each point. */
export function thumbOfFrame(frame: Uint8Array, width: number, height: number): Buffer {
  const thumb = Buffer.alloc(THUMB_BYTES);
  for (let y = 0; y < THUMB.height; y++) {
    const top = Math.floor((y * height) / THUMB.height);
    const bottom = Math.max(top + 1, Math.floor(((y + 1) * height) / THUMB.height));
    for (let x = 0; x < THUMB.width; x++) {
      const left = Math.floor((x * width) / THUMB.width);
      const right = Math.max(left + 1, Math.floor(((x + 1) * width) / THUMB.width));
      let sum = 0;
      for (let row = top; row < bottom; row++) {
        for (let column = left; column < right; column++) sum += frame[row * width + column]!;
      }
      thumb[y * THUMB.width + x] = Math.round(sum / ((bottom - top) * (right - left)));
    }
  }
  return thumb;
}
