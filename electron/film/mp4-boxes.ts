import type { FileHandle } from 'node:fs/promises';

/*
 * The sample tables of an MP4 or MOV file (ISO/IEC 14496-12), read in one go. Mediabunny reads the same tables packet by
 * packet, at a cost that grows with the square of a chunk's length (two hours of silent film: half a minute), and takes
 * no edit list into account that starts inside a group of pictures; so the times are read here, all else by mediabunny.
 */

export interface Mp4Edit {
  /** in units of the movie's time scale */
  readonly duration: number;
  /** start in the track's time scale; -1 for an empty edit */
  readonly mediaTime: number;
}

export interface Mp4Samples {
  readonly timescale: number;
  readonly movieTimescale: number;
  /** decode order, in units of the time scale */
  readonly decodeTimes: Float64Array;
  readonly durations: Float64Array;
  /** presentation minus decode time; null when all are 0 */
  readonly offsets: Float64Array | null;
  /** 1 for a sample at which decoding may start */
  readonly isKey: Uint8Array;
  readonly edits: readonly Mp4Edit[];
  /** where the last sample ends in the file, bytes */
  readonly lastByte: number;
}

export interface Mp4Layout {
  readonly moov: Buffer | null;
  readonly fragmented: boolean;
}

const MOOV_LIMIT = 512 * 1024 * 1024;
const SAMPLE_LIMIT = 20_000_000;

interface Box {
  readonly type: string;
  readonly body: Buffer;
}

export function* boxesIn(buffer: Buffer): Generator<Box> {
  let at = 0;
  while (at + 8 <= buffer.length) {
    let size = buffer.readUInt32BE(at);
    const type = buffer.toString('latin1', at + 4, at + 8);
    let head = 8;
    if (size === 1) {
      size = Number(buffer.readBigUInt64BE(at + 8));
      head = 16;
    } else if (size === 0) {
      size = buffer.length - at;
    }
    if (size < head || at + size > buffer.length)
      throw new RangeError(`the box ${type} reaches past its end`);
    yield { type, body: buffer.subarray(at + head, at + size) };
    at += size;
  }
}

export function child(buffer: Buffer, ...path: string[]): Buffer | null {
  let here: Buffer | null = buffer;
  for (const type of path) {
    let found: Buffer | null = null;
    for (const box of boxesIn(here)) {
      if (box.type === type) {
        found = box.body;
        break;
      }
    }
    if (!found) return null;
    here = found;
  }
  return here;
}

/** Walks the boxes at the top of the file. Throws RangeError on a file whose boxes do not fit together. */
export async function readMp4Layout(file: FileHandle, size: number): Promise<Mp4Layout> {
  const head = Buffer.alloc(16);
  let moov: Buffer | null = null;
  let fragmented = false;
  for (let at = 0, boxes = 0; at + 8 <= size && boxes < 100_000; boxes++) {
    const { bytesRead } = await file.read(head, 0, 16, at);
    if (bytesRead < 8) break;
    let length = head.readUInt32BE(0);
    const type = head.toString('latin1', 4, 8);
    if (length === 1 && bytesRead === 16) length = Number(head.readBigUInt64BE(8));
    else if (length === 0) length = size - at;
    if (length < 8) throw new RangeError(`the box at byte ${at} has no length`);
    if (type === 'moov' && !moov) {
      if (length > MOOV_LIMIT) throw new RangeError('its table of contents is too large');
      if (at + length > size) break;
      moov = Buffer.alloc(length);
      await file.read(moov, 0, length, at);
      moov = moov.subarray(head.readUInt32BE(0) === 1 ? 16 : 8);
    }
    if (type === 'moof') fragmented = true;
    if (moov && fragmented) break;
    at += length;
  }
  return { moov, fragmented: fragmented || (moov !== null && child(moov, 'mvex') !== null) };
}

/** The entries of a table box: a count after `skip` bytes, then rows of `width` bytes. */
export function rows(
  box: Buffer,
  skip: number,
  width: number,
): { count: number; at: (row: number) => number } {
  const count = box.readUInt32BE(skip);
  const start = skip + 4;
  if (start + count * width > box.length) throw new RangeError('a table is longer than its box');
  return { count, at: (row) => start + row * width };
}

function readEdits(trak: Buffer): Mp4Edit[] {
  const box = child(trak, 'edts', 'elst');
  if (!box) return [];
  const long = box[0] === 1;
  const table = rows(box, 4, long ? 20 : 12);
  const edits: Mp4Edit[] = [];
  for (let row = 0; row < table.count; row++) {
    const at = table.at(row);
    edits.push(
      long
        ? { duration: Number(box.readBigUInt64BE(at)), mediaTime: Number(box.readBigInt64BE(at + 8)) }
        : { duration: box.readUInt32BE(at), mediaTime: box.readInt32BE(at + 4) },
    );
  }
  return edits;
}

/** Where the last sample ends, found from the chunks and the sizes. */
function lastByteOf(stbl: Buffer, count: number): number {
  const stsz = child(stbl, 'stsz');
  const stsc = child(stbl, 'stsc');
  const stco = child(stbl, 'stco');
  const co64 = child(stbl, 'co64');
  const chunks = stco ?? co64;
  if (!stsz || !stsc || !chunks) return 0;
  const equal = stsz.readUInt32BE(4);
  const runs = rows(stsc, 4, 12);
  const places = rows(chunks, 4, stco ? 4 : 8);
  let last = 0;
  let sample = 0;
  for (let run = 0; run < runs.count && sample < count; run++) {
    const perChunk = stsc.readUInt32BE(runs.at(run) + 4);
    const first = stsc.readUInt32BE(runs.at(run)) - 1;
    const after = run + 1 < runs.count ? stsc.readUInt32BE(runs.at(run + 1)) - 1 : places.count;
    if (perChunk === 0 || first < 0) throw new RangeError('a run of chunks is empty');
    for (let chunk = first; chunk < Math.min(after, places.count) && sample < count; chunk++) {
      const place = places.at(chunk);
      let at = stco ? chunks.readUInt32BE(place) : Number(chunks.readBigUInt64BE(place));
      const stop = Math.min(count, sample + perChunk);
      if (equal > 0) at += equal * (stop - sample);
      else for (let one = sample; one < stop; one++) at += stsz.readUInt32BE(12 + one * 4);
      sample = stop;
      if (at > last) last = at;
    }
  }
  return last;
}

/** Reads the samples of the track with this id. Throws RangeError where the tables contradict each other. */
export function readMp4Samples(moov: Buffer, trackId: number): Mp4Samples | null {
  const mvhd = child(moov, 'mvhd');
  if (!mvhd) return null;
  const movieTimescale = mvhd.readUInt32BE(mvhd[0] === 1 ? 20 : 12);
  for (const box of boxesIn(moov)) {
    if (box.type !== 'trak') continue;
    const tkhd = child(box.body, 'tkhd');
    if (!tkhd || tkhd.readUInt32BE(tkhd[0] === 1 ? 20 : 12) !== trackId) continue;
    const mdhd = child(box.body, 'mdia', 'mdhd');
    const stbl = child(box.body, 'mdia', 'minf', 'stbl');
    const stts = stbl && child(stbl, 'stts');
    const stsz = stbl && child(stbl, 'stsz');
    if (!mdhd || !stbl || !stts || !stsz) return null;
    const timescale = mdhd.readUInt32BE(mdhd[0] === 1 ? 20 : 12);
    const count = stsz.readUInt32BE(8);
    if (timescale === 0) throw new RangeError('its time scale is 0');
    if (count > SAMPLE_LIMIT) throw new RangeError(`it claims ${count} frames`);
    if (stsz.readUInt32BE(4) === 0 && 12 + count * 4 > stsz.length)
      throw new RangeError('a table is cut off');

    const decodeTimes = new Float64Array(count);
    const durations = new Float64Array(count);
    const steps = rows(stts, 4, 8);
    let sample = 0;
    let time = 0;
    for (let row = 0; row < steps.count && sample < count; row++) {
      const run = Math.min(stts.readUInt32BE(steps.at(row)), count - sample);
      const step = stts.readUInt32BE(steps.at(row) + 4);
      for (let one = 0; one < run; one++, sample++) {
        decodeTimes[sample] = time;
        durations[sample] = step;
        time += step;
      }
    }
    if (sample < count) throw new RangeError(`it has times for ${sample} of its ${count} frames`);

    const ctts = child(stbl, 'ctts');
    let offsets: Float64Array | null = null;
    if (ctts) {
      offsets = new Float64Array(count);
      const shifts = rows(ctts, 4, 8);
      for (let row = 0, at = 0; row < shifts.count && at < count; row++) {
        const run = Math.min(ctts.readUInt32BE(shifts.at(row)), count - at);
        // version 0 is unsigned in the standard, yet files exist that write negative numbers into it
        offsets.fill(ctts.readInt32BE(shifts.at(row) + 4), at, at + run);
        at += run;
      }
    }

    const isKey = new Uint8Array(count);
    const stss = child(stbl, 'stss');
    if (stss) {
      const keys = rows(stss, 4, 4);
      for (let row = 0; row < keys.count; row++) {
        const key = stss.readUInt32BE(keys.at(row)) - 1;
        if (key >= 0 && key < count) isKey[key] = 1;
      }
    } else {
      isKey.fill(1);
    }
    return {
      timescale,
      movieTimescale,
      decodeTimes,
      durations,
      offsets,
      isKey,
      edits: readEdits(box.body),
      lastByte: lastByteOf(stbl, count),
    };
  }
  return null;
}

export interface Mp4Timecode {
  readonly framesPerSecond: number;
  readonly dropFrame: boolean;
  /** where the number of the first frame stands in the file, bytes */
  readonly at: number;
}

/** The time code track of a camera (`tmcd`, QuickTime File Format): where its first number stands. */
export function readMp4Timecode(moov: Buffer): Mp4Timecode | null {
  for (const box of boxesIn(moov)) {
    if (box.type !== 'trak') continue;
    const handler = child(box.body, 'mdia', 'hdlr');
    if (handler?.toString('latin1', 8, 12) !== 'tmcd') continue;
    const stbl = child(box.body, 'mdia', 'minf', 'stbl');
    const stsd = stbl && child(stbl, 'stsd');
    const chunks = stbl && (child(stbl, 'stco') ?? child(stbl, 'co64'));
    // a full box's head, the count, then the entry: size, type, 8 bytes, 4 reserved, flags, scale, duration, frames
    if (!stsd || stsd.length < 8 + 33 || !chunks || chunks.length < 12) return null;
    const long = child(stbl, 'stco') === null;
    return {
      dropFrame: (stsd.readUInt32BE(8 + 20) & 1) === 1,
      framesPerSecond: stsd[8 + 32]!,
      at: long ? Number(chunks.readBigUInt64BE(8)) : chunks.readUInt32BE(8),
    };
  }
  return null;
}
