import type { FileHandle } from 'node:fs/promises';
import { fail, ok, type Result } from '../../football/result.ts';
import { askFfmpeg, firstPacketMicros, readWithFfmpeg, type Told } from './ffmpeg-frames.ts';
import type { FilmFacts, FilmProblem, FilmTools, ProbeOptions } from './film-types.ts';
import type { FrameTable } from './frame-table.ts';
import { type Mp4Layout, readMp4Layout, readMp4Samples, readMp4Timecode } from './mp4-boxes.ts';
import { showSamples } from './mp4-edits.ts';
import { lookAtPackets } from './packets.ts';
import { pictureFacts } from './picture-facts.ts';
import { refusal } from './refusals.ts';
import { type Description, type ListedFrames, shapeFrames } from './shape-frames.ts';
import { timecodeOf } from './timecode.ts';
import { findFilmTools } from './tools.ts';

/** What was read of a film: its frames, and what else decides how it is shown. */
export interface ReadFilm {
  readonly table: FrameTable;
  readonly facts: FilmFacts;
}

const DEFAULT_LIMIT_MS = 60_000;
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
}

function tooSlow(path: string, limits: Limits): FilmProblem {
  return refusal('film-too-slow', path, `${Math.round(limits.timeLimitMs / 1000)} s`);
}

/** Frames of an MP4 or MOV file whose tables stand in one place. */
function listSamples(path: string, layout: Mp4Layout, size: number, trackId: number): ListedFrames {
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
  return Math.abs(shift) < 1
    ? frames
    : { ...frames, times: Array.from(frames.times, (time) => time + shift) };
}

async function lookWith(path: string, packets: 'others' | 'all', limits: Limits) {
  const left = Math.max(1, limits.endsAt - performance.now());
  const found = await lookAtPackets({ path, packets }, { signal: limits.signal, timeLimitMs: left });
  if (found.kind === 'cancelled') throw new Refused(refusal('cancelled', path));
  if (found.kind === 'too-slow') throw new Refused(tooSlow(path, limits));
  if (found.kind === 'failed')
    throw new Refused(refusal('film-unreadable', path, found.message.slice(0, 200)));
  return found;
}

async function mp4Timecode(file: FileHandle, layout: Mp4Layout): Promise<string | null> {
  const track = layout.moov && readMp4Timecode(layout.moov);
  if (!track || track.framesPerSecond === 0) return null;
  const number = Buffer.alloc(4);
  const { bytesRead } = await file.read(number, 0, 4, track.at);
  return bytesRead === 4 ? timecodeOf(number.readUInt32BE(0), track.framesPerSecond, track.dropFrame) : null;
}

function shape(
  path: string,
  frames: ListedFrames,
  description: Description,
  told: Told,
): Result<ReadFilm, FilmProblem> {
  const shaped = shapeFrames(path, frames, description);
  if (!shaped.ok) return shaped;
  const { codec, container, variable, hasAudio } = shaped.value;
  return ok({ table: shaped.value, facts: { codec, container, variable, hasAudio, ...told } });
}

/** Tries the file with Mediabunny; null when it can't read it, which leaves it to ffmpeg. */
async function readWithMediabunny(
  path: string,
  file: FileHandle,
  size: number,
  getTools: () => Promise<FilmTools | null>,
  limits: Limits,
): Promise<Result<ReadFilm, FilmProblem> | null> {
  const found = await lookWith(path, 'others', limits);
  if (found.kind !== 'film') return null;
  const { description } = found;
  const isMp4 = found.frames === null;
  const layout = isMp4 ? await readMp4Layout(file, size) : null;
  const read = pictureFacts(description.codec, found.setup);
  const tools = read ? null : await getTools();
  const asked = tools && (await askFfmpeg(path, tools, limits));
  const told: Told & Pick<FilmFacts, 'soundStartMicros'> = {
    soundStartMicros: found.soundStart,
    interlaced: (read ?? asked)?.interlaced ?? false,
    plainPixels: (read ?? asked)?.plainPixels ?? false,
    startTimecode: (layout && (await mp4Timecode(file, layout))) ?? asked?.startTimecode ?? null,
  };
  if (found.frames) return shape(path, found.frames, description, told);
  if (layout && !layout.fragmented) {
    return shape(path, listSamples(path, layout, size, found.trackId), description, told);
  }
  const all = await lookWith(path, 'all', limits);
  if (all.kind !== 'film' || !all.frames) return null;
  const frames = await alignFragments(path, all.frames, await getTools(), limits);
  return shape(path, frames, all.description, told);
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
): Promise<Result<ReadFilm, FilmProblem>> {
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
    if (!listed.ok) return listed;
    const { frames, description, told } = listed.value;
    return shape(path, frames, description, told);
  } catch (error) {
    if (error instanceof Refused) return fail(error.problem);
    return fail(refusal('film-unreadable', path, error instanceof Error ? error.message.slice(0, 200) : ''));
  }
}
