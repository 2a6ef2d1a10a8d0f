import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { fail, ok, type Result } from '../../football/result.ts';
import type { FrameTable } from './frame-table.ts';

/*
 * A frame table as bytes, for the cache beside the library: 'TBFT', a version byte, then deflated: the length of a JSON
 * head, the head, and two runs of variable-length integers: second differences of the times (nearly all zero for film
 * of constant rate) and first differences of the key frames. Two hours at 30 frames take a few kilobytes.
 */
const MAGIC = 'TBFT';
const VERSION = 1;
const INFLATED_LIMIT = 256 * 1024 * 1024;

type Head = Omit<FrameTable, 'ptsMicros' | 'keyFrames'> & { frames: number; keys: number };

function pushVarint(out: number[], value: number): void {
  // zigzag, so that small negative differences stay short; plain arithmetic, as values pass 32 bits
  let rest = value >= 0 ? value * 2 : -value * 2 - 1;
  while (rest >= 128) {
    out.push((rest % 128) + 128);
    rest = Math.floor(rest / 128);
  }
  out.push(rest);
}

export function frameTableToBuffer(table: FrameTable): Buffer {
  const { ptsMicros, keyFrames, ...rest } = table;
  const head: Head = { ...rest, frames: ptsMicros.length, keys: keyFrames.length };
  const numbers: number[] = [];
  let before = 0;
  let step = 0;
  for (const pts of ptsMicros) {
    pushVarint(numbers, pts - before - step);
    step = pts - before;
    before = pts;
  }
  before = 0;
  for (const key of keyFrames) {
    pushVarint(numbers, key - before);
    before = key;
  }
  const json = Buffer.from(JSON.stringify(head), 'utf8');
  const length = Buffer.alloc(4);
  length.writeUInt32LE(json.length);
  const packed = deflateRawSync(Buffer.concat([length, json, Buffer.from(numbers)]));
  return Buffer.concat([Buffer.from(MAGIC, 'latin1'), Buffer.from([VERSION]), packed]);
}

/** Reads what frameTableToBuffer wrote; a cache of another version or a damaged one is a problem, and is made anew. */
export function frameTableFromBuffer(bytes: Buffer): Result<FrameTable> {
  const damaged = fail({
    code: 'frame-table-unreadable',
    message: 'The kept frame table of a film is damaged or of another version.',
    next: 'It is a cache: read the film again.',
  });
  if (bytes.length < 6 || bytes.toString('latin1', 0, 4) !== MAGIC || bytes[4] !== VERSION) return damaged;
  try {
    const inflated = inflateRawSync(bytes.subarray(5), { maxOutputLength: INFLATED_LIMIT });
    const headEnd = 4 + inflated.readUInt32LE(0);
    const { frames, keys, ...rest } = JSON.parse(inflated.toString('utf8', 4, headEnd)) as Head;
    if (!(frames >= 0 && frames + keys <= inflated.length - headEnd)) return damaged;
    let at = headEnd;
    const next = (): number => {
      let value = 0;
      for (let scale = 1; ; scale *= 128) {
        const byte = inflated[at++];
        if (byte === undefined) throw new RangeError('past the end');
        value += (byte % 128) * scale;
        if (byte < 128) break;
      }
      return value % 2 === 0 ? value / 2 : -(value + 1) / 2;
    };
    const ptsMicros = new Float64Array(frames);
    let before = 0;
    let step = 0;
    for (let frame = 0; frame < frames; frame++) {
      step += next();
      before += step;
      ptsMicros[frame] = before;
    }
    const keyFrames = new Uint32Array(keys);
    before = 0;
    for (let key = 0; key < keys; key++) {
      before += next();
      keyFrames[key] = before;
    }
    return at === inflated.length ? ok({ ...rest, ptsMicros, keyFrames }) : damaged;
  } catch {
    return damaged;
  }
}
