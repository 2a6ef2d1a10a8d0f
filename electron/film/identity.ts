import { createHash } from 'node:crypto';
import { closeSync, openSync, readSync } from 'node:fs';
import type { FileHandle } from 'node:fs/promises';

/*
 * A film is recognised by its content, so that it is still known when its file has moved or is called something else.
 * Hashing ten gigabytes takes a minute, so only samples are hashed: 64 pieces of 16 KiB, evenly spaced from the first
 * byte to the last, beside the exact size. Files up to 1 MiB are hashed whole. Two different films of equal size would
 * have to agree in all those places to be taken for one.
 *
 *   id = 'f1-' + hex(sha256('tapebook film 1\n' + size in bytes as decimal + '\n' + pieces in order))[0..39]
 *
 * The prefix names the recipe; another recipe must take another prefix, as ids are stored in libraries.
 */
const PIECES = 64;
const PIECE_BYTES = 16_384;
const RECIPE = 'f1-';

function placesIn(size: number): { start: number; length: number }[] {
  const whole = size <= PIECES * PIECE_BYTES;
  const pieces = whole ? Math.ceil(size / PIECE_BYTES) : PIECES;
  return Array.from({ length: pieces }, (_, piece) => {
    const start = whole ? piece * PIECE_BYTES : Math.floor((piece * (size - PIECE_BYTES)) / (PIECES - 1));
    return { start, length: Math.min(PIECE_BYTES, size - start) };
  });
}

/** Identity of the content of an open file of `size` bytes. Throws what the file system throws. */
export async function contentIdOf(file: FileHandle, size: number): Promise<string> {
  const hash = createHash('sha256').update(`tapebook film 1\n${size}\n`);
  const buffer = Buffer.allocUnsafe(PIECE_BYTES);
  for (const { start, length } of placesIn(size)) {
    let read = 0;
    while (read < length) {
      const { bytesRead } = await file.read(buffer, read, length - read, start + read);
      if (bytesRead === 0) break;
      read += bytesRead;
    }
    hash.update(buffer.subarray(0, read));
  }
  return RECIPE + hash.digest('hex').slice(0, 40);
}

/** The same of a file by its path, at once: for the rare look at a file whose date has changed. At most 1 MiB is read. */
export function contentIdAt(path: string, size: number): string {
  const hash = createHash('sha256').update(`tapebook film 1\n${size}\n`);
  const buffer = Buffer.allocUnsafe(PIECE_BYTES);
  const file = openSync(path, 'r');
  try {
    for (const { start, length } of placesIn(size)) {
      let read = 0;
      while (read < length) {
        const bytes = readSync(file, buffer, read, length - read, start + read);
        if (bytes === 0) break;
        read += bytes;
      }
      hash.update(buffer.subarray(0, read));
    }
  } finally {
    closeSync(file);
  }
  return RECIPE + hash.digest('hex').slice(0, 40);
}
