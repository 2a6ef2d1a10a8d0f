import { fail, ok, type Result } from '../../football/result.ts';
import { filmInput, QUIET } from './ffmpeg-input.ts';
import type { FilmProblem, FilmTools } from './film-types.ts';
import type { PictureFacts } from './picture-facts.ts';
import { refusal } from './refusals.ts';
import { lastWords, runProgram } from './run.ts';
import type { Description, ListedFrames } from './shape-frames.ts';

interface ReadLimits {
  readonly signal?: AbortSignal;
  readonly timeLimitMs: number;
}

/** What ffmpeg says of the picture track, beside its frames. */
export interface Told extends PictureFacts {
  readonly startTimecode: string | null;
}

interface Listing {
  readonly frames: ListedFrames;
  readonly errors: string;
}

/**
 * Lists the packets of the picture track with ffmpeg, without decoding: for the containers that Mediabunny does not
 * open (AVI, MPG, MXF ...). Times are the container's own.
 */
async function listPackets(
  path: string,
  tools: FilmTools,
  limits: ReadLimits,
  only?: number,
): Promise<Result<Listing, FilmProblem>> {
  const times: number[] = [];
  const durations: number[] = [];
  const isKey: boolean[] = [];
  let tick = 0;
  let rest = '';
  let decodeOnly = false;
  const take = (line: string) => {
    const base = /^#tb 0: (\d+)\/(\d+)/.exec(line);
    if (base) tick = (Number(base[1]) / Number(base[2])) * 1e6;
    if (line === '' || line.startsWith('#')) return;
    const [, decode, present, duration] = line.split(',');
    const shown = Number(present);
    if (!Number.isFinite(shown) || shown < -9e15) decodeOnly = true;
    times.push((decodeOnly ? Number(decode) : shown) * tick);
    durations.push(Number(duration) * tick);
    // a packet's flags are only written when they differ from "key"
    isKey.push(!/,\s*F=0x/.test(line));
  };
  const end = await runProgram(
    tools.ffmpeg.path,
    [
      ...QUIET,
      'info',
      ...filmInput(path, ['-copyts', '-fflags', '+genpts']),
      '-map',
      '0:v:0',
      '-c',
      'copy',
      ...(only === undefined ? [] : ['-frames:v', String(only)]),
      '-f',
      'framecrc',
      'pipe:1',
    ],
    {
      signal: limits.signal,
      timeLimitMs: limits.timeLimitMs,
      onOutput: (chunk) => {
        const lines = (rest + chunk.toString('latin1')).split('\n');
        rest = lines.pop() ?? '';
        for (const line of lines) take(line.trim());
      },
    },
  );
  if (end.stopped === 'cancelled') return fail(refusal('cancelled', path));
  if (end.stopped === 'too-slow') {
    return fail(refusal('film-too-slow', path, `${Math.round(limits.timeLimitMs / 1000)} s`));
  }
  if (end.stopped === 'not-started') return fail(refusal('film-tool-missing', path));
  if (times.length === 0) {
    if (/matches no streams/.test(end.errors)) return fail(refusal('film-no-picture', path));
    return fail(refusal('film-unreadable', path, lastWords(end.errors).replace(`file:${path}: `, '')));
  }
  return ok({ frames: { times, durations, isKey }, errors: end.errors });
}

/** What ffmpeg says about the first picture track: `Stream #0:0: Video: mpeg4 (...), yuv420p, 160x96 [SAR 1:1 ...], 30 fps`. */
function describe(errors: string): (Description & Told) | null {
  const container = /^Input #0, ([^,\s]+)/m.exec(errors)?.[1] ?? 'unknown';
  const input = errors.split(/^Output #0/m)[0] ?? errors;
  const line = /Stream #0:\d+.*?: Video: (\w+).*/.exec(input);
  const size = line && /, (\d+)x(\d+)(?:,| \[| *$)/.exec(line[0]);
  if (!line || !size) return null;
  const codec = line[1] ?? 'unknown';
  const aspect = /SAR (\d+):(\d+)/.exec(line[0]);
  const wide = aspect && Number(aspect[2]) > 0 ? Number(aspect[1]) / Number(aspect[2]) : 1;
  // DV says nothing of its field order, yet every camera of its time wrote half pictures
  const fields = /\b(?:top|bottom)(?: coded)? first\b|\binterlaced\b/.test(line[0]);
  return {
    codec,
    container,
    width: Math.round(Number(size[1]) * (wide > 0 ? wide : 1)),
    height: Number(size[2]),
    rotation: 0,
    hasAudio: /Stream #0:\d+.*?: Audio: /.test(input),
    interlaced: fields || (codec === 'dvvideo' && !/\bprogressive\b/.test(line[0])),
    plainPixels: /, yuvj?420p[,(]/.test(line[0]),
    startTimecode: /^\s*timecode\s*: (\d\d:\d\d:\d\d[:;.]\d\d)/m.exec(input)?.[1] ?? null,
  };
}

export async function readWithFfmpeg(
  path: string,
  tools: FilmTools,
  limits: ReadLimits,
): Promise<Result<{ frames: ListedFrames; description: Description; told: Told }, FilmProblem>> {
  const listing = await listPackets(path, tools, limits);
  if (!listing.ok) return listing;
  const described = describe(listing.value.errors);
  if (!described) return fail(refusal('film-unreadable', path, 'its picture has no size'));
  const { interlaced, plainPixels, startTimecode, ...description } = described;
  return ok({
    frames: listing.value.frames,
    description,
    told: { interlaced, plainPixels, startTimecode },
  });
}

/** Time of the first packet on ffmpeg's clock, microseconds: what an unusual time line is aligned with. */
export async function firstPacketMicros(
  path: string,
  tools: FilmTools,
  limits: ReadLimits,
): Promise<Result<number, FilmProblem>> {
  const listing = await listPackets(path, tools, limits, 1);
  return listing.ok ? ok(Math.round(listing.value.frames.times[0]!)) : listing;
}

/** What ffmpeg tells of a film whose frames are known otherwise; null when it can't tell. */
export async function askFfmpeg(path: string, tools: FilmTools, limits: ReadLimits): Promise<Told | null> {
  const listing = await listPackets(path, tools, limits, 1);
  return listing.ok ? describe(listing.value.errors) : null;
}
