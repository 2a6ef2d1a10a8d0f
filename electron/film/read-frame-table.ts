import type { FileHandle } from 'node:fs/promises';
import {
  EncodedPacketSink,
  FilePathSource,
  Input,
  type InputVideoTrack,
  Logging,
  LogLevel,
  MATROSKA,
  MP4,
  MPEG_TS,
  QTFF,
  WEBM,
} from 'mediabunny';
import { fail, type Result } from '../../football/result.ts';
import { firstPacketMicros, readWithFfmpeg } from './ffmpeg-frames.ts';
import type { FilmProblem, FilmTools, ProbeOptions } from './film-types.ts';
import type { FrameTable } from './frame-table.ts';
import { readMp4Layout, readMp4Samples } from './mp4-boxes.ts';
import { showSamples } from './mp4-edits.ts';
import { refusal } from './refusals.ts';
import { type Description, type ListedFrames, shapeFrames } from './shape-frames.ts';
import { findFilmTools } from './tools.ts';

// its warnings would go to stdout, which belongs to the command line's answers
Logging.level = LogLevel.Silent;

const DEFAULT_LIMIT_MS = 60_000;
const FRAME_LIMIT = 20_000_000;
/** How many packets are read between two looks at the clock and the cancel signal. */
const PACKETS_PER_LOOK = 512;

/** Only kinds of file that hold film themselves: the list leaves out HLS, which names other files. */
const FORMATS = [MP4, QTFF, MATROSKA, WEBM, MPEG_TS];

const SHORT_NAMES = new Map([
  ['MP4', 'mp4'],
  ['QuickTime File Format', 'mov'],
  ['Matroska', 'mkv'],
  ['WebM', 'webm'],
  ['MPEG Transport Stream', 'ts'],
]);

const LIST_STARTS = [
  /^#EXTM3U/,
  /^ffconcat version/,
  /^\[playlist\]/i,
  /^<(\?xml|MPD|smil|asx)\b/i,
  /^v=0\r?\n/,
];

interface Limits {
  readonly signal?: AbortSignal;
  readonly timeLimitMs: number;
  readonly endsAt: number;
}

/** Thrown inside this file to leave a deep place with a problem. */
class Refused extends Error {
  readonly problem: FilmProblem;
  constructor(problem: FilmProblem) {
    super(problem.message);
    this.problem = problem;
  }
}

function look(path: string, limits: Limits): void {
  if (limits.signal?.aborted) throw new Refused(refusal('cancelled', path));
  if (performance.now() > limits.endsAt) {
    throw new Refused(refusal('film-too-slow', path, `${Math.round(limits.timeLimitMs / 1000)} s`));
  }
}

async function listPackets(path: string, track: InputVideoTrack, limits: Limits): Promise<ListedFrames> {
  const sink = new EncodedPacketSink(track);
  const times: number[] = [];
  const durations: number[] = [];
  const isKey: boolean[] = [];
  let packet = await sink.getFirstPacket({ metadataOnly: true });
  while (packet) {
    times.push(packet.timestamp * 1e6);
    durations.push(packet.duration * 1e6);
    isKey.push(packet.type === 'key');
    if (times.length > FRAME_LIMIT) {
      throw new Refused(refusal('film-absurd', path, `more than ${FRAME_LIMIT} frames`));
    }
    if (times.length % PACKETS_PER_LOOK === 0) look(path, limits);
    packet = await sink.getNextPacket(packet, { metadataOnly: true });
  }
  return { times, durations, isKey };
}

/** Frames of an MP4 or MOV file whose tables stand in one place; null when they don't. */
async function listSamples(
  path: string,
  file: FileHandle,
  size: number,
  trackId: number,
): Promise<ListedFrames | 'fragmented'> {
  const layout = await readMp4Layout(file, size);
  if (layout.fragmented) return 'fragmented';
  const samples = layout.moov && readMp4Samples(layout.moov, trackId);
  if (!samples) throw new Refused(refusal('film-unreadable', path, 'its table of contents is incomplete'));
  if (samples.lastByte > size) {
    const missing = Math.ceil(((samples.lastByte - size) / samples.lastByte) * 100);
    throw new Refused(refusal('film-cut-short', path, `${missing} % of it is missing`));
  }
  const shown = showSamples(samples);
  const micros = 1e6 / samples.timescale;
  return {
    times: shown.times.map((time) => time * micros),
    durations: shown.durations.map((duration) => duration * micros),
    isKey: shown.isKey,
  };
}

async function describe(track: InputVideoTrack, container: string, hasAudio: boolean): Promise<Description> {
  const [codec, codecId, width, height, rotation] = await Promise.all([
    track.getCodec(),
    track.getInternalCodecId(),
    track.getDisplayWidth(),
    track.getDisplayHeight(),
    track.getRotation(),
  ]);
  return {
    codec: codec ?? (typeof codecId === 'string' ? codecId.trim() : 'unknown'),
    container,
    width: Math.round(width),
    height: Math.round(height),
    rotation,
    hasAudio,
  };
}

/**
 * A fragmented MP4 may shift its picture by negative offsets, which players take out by moving the whole track; so its
 * time line is laid onto that of ffmpeg, which Chromium shares.
 */
async function alignFragments(
  path: string,
  frames: ListedFrames,
  tools: FilmTools | null,
  limits: Limits,
): Promise<ListedFrames> {
  if (!tools || frames.times.length === 0) return frames;
  const first = await firstPacketMicros(path, tools, limits);
  if (!first.ok) throw new Refused(first.problem);
  const shift = first.value - frames.times[0]!;
  return Math.abs(shift) < 1 ? frames : { ...frames, times: frames.times.map((time) => time + shift) };
}

/** Tries the file with Mediabunny; null when it is of no kind that Mediabunny knows. */
async function readWithMediabunny(
  path: string,
  file: FileHandle,
  size: number,
  getTools: () => Promise<FilmTools | null>,
  limits: Limits,
): Promise<Result<FrameTable, FilmProblem> | null> {
  const input = new Input({ source: new FilePathSource(path), formats: FORMATS });
  try {
    if (!(await input.canRead())) return null;
    const container = SHORT_NAMES.get((await input.getFormat()).name) ?? 'unknown';
    const [tracks, audio] = await Promise.all([input.getVideoTracks(), input.getAudioTracks()]);
    const track = tracks[0];
    if (!track) return fail(refusal('film-no-picture', path));
    const description = await describe(track, container, audio.length > 0);
    if (container !== 'mp4' && container !== 'mov') {
      return shapeFrames(path, await listPackets(path, track, limits), description);
    }
    const listed = await listSamples(path, file, size, track.id);
    if (listed !== 'fragmented') return shapeFrames(path, listed, description);
    const packets = await listPackets(path, track, limits);
    const frames = await alignFragments(path, packets, await getTools(), limits);
    return shapeFrames(path, frames, description);
  } finally {
    input.dispose();
  }
}

async function looksLikeMp4WithoutTable(file: FileHandle, size: number): Promise<boolean> {
  const head = Buffer.alloc(8);
  await file.read(head, 0, 8, 0);
  if (head.toString('latin1', 4, 8) !== 'ftyp') return false;
  const layout = await readMp4Layout(file, size).catch(() => null);
  return layout !== null && layout.moov === null;
}

/**
 * Reads the frame table of an open film file. Only this file is opened, nothing is decoded, and every refusal is a
 * typed problem that names the file; nothing is thrown.
 */
export async function readFrameTable(
  path: string,
  file: FileHandle,
  size: number,
  options: ProbeOptions = {},
): Promise<Result<FrameTable, FilmProblem>> {
  const timeLimitMs = options.timeLimitMs ?? DEFAULT_LIMIT_MS;
  const limits: Limits = { signal: options.signal, timeLimitMs, endsAt: performance.now() + timeLimitMs };
  const getTools = async () => {
    if (options.tools) return options.tools;
    const found = await findFilmTools();
    return found.ok ? found.value : null;
  };
  try {
    look(path, limits);
    if (size === 0) return fail(refusal('film-empty', path));
    const head = Buffer.alloc(Math.min(size, 512));
    await file.read(head, 0, head.length, 0);
    const words = head
      .toString('utf8')
      .replace(/^\uFEFF/, '')
      .trimStart();
    if (LIST_STARTS.some((start) => start.test(words))) return fail(refusal('film-is-a-list', path));
    if (await looksLikeMp4WithoutTable(file, size)) {
      return fail(refusal('film-cut-short', path, 'its table of contents is missing'));
    }
    const read = await readWithMediabunny(path, file, size, getTools, limits);
    if (read) return read;
    const tools = await getTools();
    if (!tools) return fail(refusal('film-tool-missing', path));
    const listed = await readWithFfmpeg(path, tools, limits);
    return listed.ok ? shapeFrames(path, listed.value.frames, listed.value.description) : listed;
  } catch (error) {
    if (error instanceof Refused) return fail(error.problem);
    return fail(refusal('film-unreadable', path, error instanceof Error ? error.message.slice(0, 200) : ''));
  }
}
