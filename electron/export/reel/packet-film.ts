import { type FileHandle, open } from 'node:fs/promises';
import type { FrameRate, FrameTable } from '../../film/frame-table.ts';
import {
  boxesIn,
  child,
  type Mp4Samples,
  readMp4Layout,
  readMp4Samples,
  rows,
} from '../../film/mp4-boxes.ts';
import {
  type AvcSetup,
  type PictureSetFacts,
  readAvcC,
  readPps,
  readSps,
  type SequenceFacts,
} from './avc.ts';

/** Where the packets of a track lie in their file, in decode order. */
export interface PacketPlaces {
  readonly at: Float64Array;
  readonly bytes: Uint32Array;
}

export interface SoundPackets extends PacketPlaces {
  /** content of the sample entry, to be written again as it is */
  readonly entry: Buffer;
  readonly sampleRate: number;
  /** what a decoder is set up with; equal for sound that may stand in one track */
  readonly config: string;
  /** when each packet's sound starts on the film's clock, microseconds */
  readonly startMicros: Float64Array;
}

/** A film whose packets can be copied: H.264 in an MP4 or MOV file with one table of contents. */
export interface PacketFilm extends PacketPlaces {
  readonly path: string;
  /** name of its content, where it is known */
  readonly id: string | null;
  readonly rate: FrameRate;
  readonly isKey: Uint8Array;
  /** when each packet's picture is shown, in units of the track's time scale */
  readonly shownAt: Float64Array;
  /** packet of each frame of the frame table, and frame of each packet (-1: not shown) */
  readonly packetOf: Int32Array;
  readonly frameOf: Int32Array;
  readonly setup: AvcSetup;
  readonly sps: SequenceFacts;
  readonly pps: PictureSetFacts;
  readonly sound: SoundPackets | null;
}

/** Times of the table and of the packets may differ by this much: both are rounded to whole microseconds. */
const SLACK_MICROS = 2;

function placesOf(stbl: Buffer, count: number): PacketPlaces | null {
  const stsz = child(stbl, 'stsz');
  const stsc = child(stbl, 'stsc');
  const stco = child(stbl, 'stco');
  const chunks = stco ?? child(stbl, 'co64');
  if (!stsz || !stsc || !chunks) return null;
  const equal = stsz.readUInt32BE(4);
  const runs = rows(stsc, 4, 12);
  const starts = rows(chunks, 4, stco ? 4 : 8);
  const at = new Float64Array(count);
  const bytes = new Uint32Array(count);
  let sample = 0;
  for (let run = 0; run < runs.count; run++) {
    const perChunk = stsc.readUInt32BE(runs.at(run) + 4);
    const first = stsc.readUInt32BE(runs.at(run)) - 1;
    const next = run + 1 < runs.count ? stsc.readUInt32BE(runs.at(run + 1)) - 1 : starts.count;
    for (let chunk = first; chunk < Math.min(next, starts.count); chunk++) {
      let place = stco
        ? chunks.readUInt32BE(starts.at(chunk))
        : Number(chunks.readBigUInt64BE(starts.at(chunk)));
      for (let one = 0; one < perChunk && sample < count; one++, sample++) {
        at[sample] = place;
        bytes[sample] = equal > 0 ? equal : stsz.readUInt32BE(12 + sample * 4);
        place += bytes[sample]!;
      }
    }
  }
  return sample === count ? { at, bytes } : null;
}

interface Track {
  readonly samples: Mp4Samples;
  readonly places: PacketPlaces;
  readonly entryType: string;
  readonly entry: Buffer;
  /** content of the first box of that name inside the sample entry, whose own head has the given length */
  readonly inside: (name: string, headBytes: number) => Buffer | null;
}

function readTrack(moov: Buffer, handler: 'vide' | 'soun'): Track | null {
  for (const box of boxesIn(moov)) {
    if (box.type !== 'trak') continue;
    const tkhd = child(box.body, 'tkhd');
    const hdlr = child(box.body, 'mdia', 'hdlr');
    const stbl = child(box.body, 'mdia', 'minf', 'stbl');
    const stsd = stbl && child(stbl, 'stsd');
    if (!tkhd || !stbl || !stsd || hdlr?.toString('latin1', 8, 12) !== handler) continue;
    const samples = readMp4Samples(moov, tkhd.readUInt32BE(tkhd[0] === 1 ? 20 : 12));
    const places = samples && placesOf(stbl, samples.decodeTimes.length);
    const entries = [...boxesIn(stsd.subarray(8))];
    const entry = entries[0];
    // a track that changes its description half way is not copied
    if (!samples || !places || entries.length !== 1 || !entry) return null;
    return {
      samples,
      places,
      entryType: entry.type,
      entry: entry.body,
      inside: (name, headBytes) => child(entry.body.subarray(headBytes), name),
    };
  }
  return null;
}

function presented(samples: Mp4Samples): Float64Array {
  return samples.decodeTimes.map((time, sample) => time + (samples.offsets?.[sample] ?? 0));
}

/** The edit that says where the track's time line starts; `null` where several pieces are strung together. */
function onlyEdit({
  edits,
  timescale,
  movieTimescale,
}: Mp4Samples): { from: number; emptyUnits: number } | null {
  const real = edits.filter((edit) => edit.mediaTime >= 0);
  if (real.length > 1) return null;
  const empty = edits
    .slice(0, real[0] ? edits.indexOf(real[0]) : 0)
    .reduce((sum, edit) => sum + (edit.duration * timescale) / Math.max(1, movieTimescale), 0);
  return { from: real[0]?.mediaTime ?? Number.NEGATIVE_INFINITY, emptyUnits: Math.round(empty) };
}

/** Pairs packets with the frames of the table by their times; null where any frame finds no packet of its own time. */
function pair(
  samples: Mp4Samples,
  table: FrameTable | null,
): Pick<PacketFilm, 'packetOf' | 'frameOf'> | null {
  const times = presented(samples);
  const order = Int32Array.from(times, (_, sample) => sample).sort(
    (one, other) => times[one]! - times[other]!,
  );
  const edit = onlyEdit(samples);
  if (!edit) return null;
  const hidden = order.findIndex((sample) => times[sample]! >= edit.from);
  const packetOf = hidden > 0 ? order.subarray(hidden) : order;
  const count = table ? table.ptsMicros.length : packetOf.length;
  if (packetOf.length < count) return null;
  const micros = 1e6 / samples.timescale;
  for (let frame = 0; table && frame < count; frame++) {
    const since = (times[packetOf[frame]!]! - times[packetOf[0]!]!) * micros;
    if (Math.abs(table.ptsMicros[frame]! - table.ptsMicros[0]! - since) > SLACK_MICROS) return null;
  }
  const frameOf = new Int32Array(times.length).fill(-1);
  for (let frame = 0; frame < count; frame++) frameOf[packetOf[frame]!] = frame;
  return { packetOf: packetOf.subarray(0, count), frameOf };
}

/** Where the decoder's own description has its length: descriptor 5 inside 4 inside 3, lengths of up to four bytes. */
function decoderDescription(esds: Buffer): number | null {
  let at = 4;
  for (const [tag, headBytes] of [
    [3, 3],
    [4, 13],
    [5, 0],
  ] as const) {
    if (esds[at] !== tag) return null;
    for (at += 1; at < esds.length && (esds[at]! & 0x80) !== 0; at++);
    if (tag === 5) return at + 2 < esds.length ? at : null;
    at += 1 + headBytes;
  }
  return null;
}

/** Plain AAC (object type 2) in packets of 1,024 samples, from the descriptors of the entry (ISO/IEC 14496-1, -3). */
function readSound(moov: Buffer): SoundPackets | null {
  const track = readTrack(moov, 'soun');
  if (track?.entryType !== 'mp4a' || track.entry.readUInt16BE(8) !== 0) return null;
  const esds = track.inside('esds', 28);
  const edit = onlyEdit(track.samples);
  if (!esds || !edit) return null;
  const at = decoderDescription(esds);
  if (at === null) return null;
  const config = esds.readUInt16BE(at + 1);
  const rates = [96000, 88200, 64000, 48000, 44100, 32000, 24000, 22050, 16000, 12000, 11025, 8000, 7350];
  const sampleRate = rates[(config >> 7) & 15];
  // packets of 960 samples exist, too; gaps between packets are found where they are used
  if (config >> 11 !== 2 || sampleRate === undefined || ((config >> 2) & 1) === 1) return null;
  const { decodeTimes, timescale } = track.samples;
  const from = edit.from === Number.NEGATIVE_INFINITY ? 0 : edit.from;
  const startMicros = decodeTimes.map((time) => ((time - from + edit.emptyUnits) * 1e6) / timescale);
  const length = esds[at]!;
  const description = esds.toString('hex', at + 1, at + 1 + length);
  return {
    ...track.places,
    entry: track.entry,
    sampleRate,
    config: `${description}/${track.entry.readUInt16BE(16)}`,
    startMicros,
  };
}

/** Why a film's packets can't be copied, in words that follow "because". */
export type NotCopied = { readonly why: string };

/**
 * Opens a film as packets. With a frame table every frame is paired with its packet by time; without one (a file that we
 * made ourselves) frames are the packets in the order in which they are shown.
 */
export async function openPacketFilm(
  path: string,
  table: FrameTable | null,
  id: string | null = null,
): Promise<PacketFilm | NotCopied> {
  const file = await open(path, 'r');
  try {
    const { size } = await file.stat();
    const { moov, fragmented } = await readMp4Layout(file, size);
    if (!moov || fragmented) return { why: 'its file has no single table of contents' };
    const track = readTrack(moov, 'vide');
    const avcC = track?.entryType === 'avc1' ? track.inside('avcC', 78) : null;
    const setup = avcC && readAvcC(avcC);
    if (!track || !setup) return { why: 'its picture is not plain H.264 in an MP4 file' };
    if (track.samples.lastByte > size) return { why: 'its file is cut short' };
    const paired = pair(track.samples, table);
    if (!paired) return { why: 'its packets do not fit its frames one to one' };
    const pps = readPps(setup.pps[0]!);
    if (!pps) return { why: 'its parameter sets are of an odd kind' };
    return {
      path,
      id,
      rate: table?.rate ?? { num: track.samples.timescale, den: track.samples.durations[0] ?? 1 },
      ...track.places,
      isKey: track.samples.isKey,
      shownAt: presented(track.samples),
      ...paired,
      setup,
      sps: readSps(setup.sps[0]!),
      pps,
      sound: !table || table.hasAudio ? readSound(moov) : null,
    };
  } catch (error) {
    if (error instanceof RangeError) return { why: 'its table of contents is damaged' };
    throw error;
  } finally {
    await file.close();
  }
}

export async function readPacketOf(film: PacketFilm, file: FileHandle, packet: number): Promise<Buffer> {
  const bytes = Buffer.allocUnsafe(film.bytes[packet]!);
  const { bytesRead } = await file.read(bytes, 0, bytes.length, film.at[packet]!);
  if (bytesRead < bytes.length) throw new RangeError(`packet ${packet} reaches past the end of its file`);
  return bytes;
}

/** Opens the sound of an MP4 file that we made ourselves; null where it has none that can be copied. */
export async function openSound(path: string): Promise<SoundPackets | null> {
  const file = await open(path, 'r');
  try {
    const { moov } = await readMp4Layout(file, (await file.stat()).size);
    return moov && readSound(moov);
  } finally {
    await file.close();
  }
}
