import { randomBytes } from 'node:crypto';
import { mkdir, open, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import { fail, ok, type Problem, type Result } from '../../football/result.ts';
import { everyFrame, filmInput, QUIET } from './ffmpeg-input.ts';
import type { FilmTools } from './film-types.ts';
import { type FrameTable, frameCount } from './frame-table.ts';
import { probeFilm } from './probe.ts';
import { lastWords, startProgram } from './run.ts';

export interface ProxyRequest {
  readonly path: string;
  readonly table: FrameTable;
  readonly interlaced: boolean;
  /** where the MP4 goes */
  readonly target: string;
  readonly tools: FilmTools;
  /** the picture is made no larger than this, in pixels; default 1280 x 720 */
  readonly fit?: { readonly width: number; readonly height: number };
  readonly signal?: AbortSignal;
  /** 0..1 */
  readonly onProgress?: (done: number) => void;
}

export interface MadeProxy {
  /** the proxy's own table: as many frames as the film has, on the proxy's clock */
  readonly table: FrameTable;
  readonly bytes: number;
}

/** A key frame at least this often, so that a step back decodes little. */
export const PROXY_KEY_EVERY = 15;
const FIT = { width: 1280, height: 720 };
const TICKS = 90_000;
/** Times are kept to the proxy's clock of 1/90000 s, and containers with whole milliseconds round by more. */
const TIME_SLACK_MICROS = 1_100;
/** Bits a second of a 1280 x 720 picture that the encoder may not pass. */
const PEAK_BITS = 6_000_000;
const SOUND_BITS = 128_000;

/** Size of the proxy's picture: the film's as displayed, made to fit, in even numbers. */
export function proxySize(
  table: Pick<FrameTable, 'width' | 'height'>,
  fit: { readonly width: number; readonly height: number } = FIT,
): { width: number; height: number } {
  const scale = Math.min(1, fit.width / table.width, fit.height / table.height);
  const even = (side: number) => Math.max(16, Math.round((side * scale) / 2) * 2);
  return { width: even(table.width), height: even(table.height) };
}

/** The most that a proxy may take on the drive, bytes: its peak rate for its whole length. */
export function proxyBytesAtMost(seconds: number, size: { width: number; height: number }): number {
  return Math.ceil((seconds * (peakBits(size) + SOUND_BITS)) / 8) + 1_000_000;
}

function peakBits({ width, height }: { width: number; height: number }): number {
  return Math.max(400_000, Math.round((PEAK_BITS * width * height) / (FIT.width * FIT.height)));
}

/**
 * Makes a copy of a film for viewing: H.264 with short groups of pictures, square pixels, turned upright, half pictures
 * made whole. Its frame n is the film's frame n: it is counted and its times are compared before it gets its name, and a
 * proxy that is not so is not kept.
 */
export async function makeProxy(request: ProxyRequest): Promise<Result<MadeProxy>> {
  const { path, target, signal } = request;
  const part = `${target}.${randomBytes(4).toString('hex')}.part`;
  try {
    await mkdir(dirname(target), { recursive: true });
    const trouble = await encode(request, part);
    if (trouble) return fail(trouble);
    const made = await probeFilm(part, { tools: request.tools, ...(signal ? { signal } : {}) });
    if (!made.ok) return fail(problem(path, `what was made can't be read (${made.problem.message})`));
    const why = differs(request.table, made.value.table);
    if (why) return fail(problem(path, why));
    const file = await open(part, 'r+');
    await file.sync().finally(() => file.close());
    await rename(part, target);
    return ok({ table: made.value.table, bytes: (await stat(target)).size });
  } catch (error) {
    return fail(problem(path, error instanceof Error ? error.message : String(error)));
  } finally {
    await rm(part, { force: true }).catch(() => {});
  }
}

async function encode(request: ProxyRequest, part: string): Promise<Problem | null> {
  const { path, table, tools, signal, onProgress } = request;
  const count = frameCount(table);
  const running = startProgram(tools.ffmpeg.path, proxyArgs(request, part), {
    ...(signal ? { signal } : {}),
    onErrorLine: (line) => {
      const frame = /^frame=\s*(\d+)/.exec(line)?.[1];
      if (frame) onProgress?.(Math.min(0.99, Number(frame) / count));
    },
  });
  const end = await running.ended;
  if (end.stopped === 'cancelled') {
    return {
      code: 'cancelled',
      message: `Making a proxy of ${basename(path)} was cancelled.`,
      kept: 'The film and its plays are not touched.',
      next: 'Start it again when you want it.',
    };
  }
  if (end.code === 0) return null;
  if (/No space left on device|Disk quota exceeded/i.test(end.errors)) return noRoom(path);
  return problem(path, lastWords(end.errors.replace(/^\w+=.*$/gm, '')));
}

function proxyArgs({ path, table, interlaced, tools, fit }: ProxyRequest, part: string): string[] {
  const size = proxySize(table, fit);
  const peak = peakBits(size);
  const filters = [
    ...(interlaced ? ['yadif=mode=send_frame:parity=auto:deint=all'] : []),
    `scale=${size.width}:${size.height}:flags=bicubic`,
    'setsar=1',
    'format=yuv420p',
  ];
  return [
    ...QUIET,
    'error',
    '-y',
    ...['-progress', 'pipe:2'],
    ...filmInput(path),
    ...['-map', '0:v:0', ...(table.hasAudio ? ['-map', '0:a:0'] : []), '-sn', '-dn', '-map_metadata', '-1'],
    ...['-vf', filters.join(',')],
    ...everyFrame(tools.ffmpeg.version),
    ...['-enc_time_base', `1:${TICKS}`, '-video_track_timescale', String(TICKS)],
    ...['-c:v', 'libx264', '-preset', 'veryfast', '-profile:v', 'high', '-crf', '22', '-bf', '0'],
    ...['-g', String(PROXY_KEY_EVERY), '-keyint_min', String(PROXY_KEY_EVERY), '-sc_threshold', '0'],
    ...['-maxrate', String(peak), '-bufsize', String(peak)],
    ...['-c:a', 'aac', '-b:a', String(SOUND_BITS), '-ac', '2'],
    ...['-max_muxing_queue_size', '9999', '-movflags', '+faststart', '-f', 'mp4', `file:${part}`],
  ];
}

/** Why a proxy is not frame for frame the film; null when it is. */
function differs(film: FrameTable, proxy: FrameTable): string | null {
  const count = frameCount(film);
  if (frameCount(proxy) !== count) {
    return `${frameCount(proxy)} of its ${count} frames could be decoded, so its frames would not be the film's`;
  }
  const off = proxy.ptsMicros[0]! - film.ptsMicros[0]!;
  for (let frame = 1; frame < count; frame++) {
    const apart = Math.abs(proxy.ptsMicros[frame]! - film.ptsMicros[frame]! - off);
    if (apart > TIME_SLACK_MICROS)
      return `its frame ${frame} came out ${Math.round(apart / 1000)} ms off its time`;
  }
  return null;
}

function problem(path: string, why: string): Problem {
  return {
    code: 'proxy-failed',
    message: `No proxy could be made of ${basename(path)}: ${why}.`,
    kept: 'The film and its plays are not touched.',
    next: 'Copy the film again from the camera; if it stays, convert it to MP4 and add that.',
  };
}

function noRoom(path: string): Problem {
  return {
    code: 'disk-full',
    message: `The drive was full before the proxy of ${basename(path)} was done.`,
    kept: 'The film and its plays are not touched; nothing half made is left.',
    next: 'Make room on the drive of the library, or drop proxies that are not needed.',
  };
}
