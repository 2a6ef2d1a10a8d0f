import { everyFrame, filmInput, QUIET } from '../ffmpeg-input.ts';
import type { FilmTools } from '../film-types.ts';
import { type RunEnd, startProgram } from '../run.ts';
import { SMALL, SMALL_BYTES } from './small-picture.ts';

/** Filter that makes frames small and grey, for any decoding that wants to feed a splitter beside its own work. */
export const SMALL_FILTER = `scale=${SMALL.width}:${SMALL.height}:flags=area,setsar=1,format=gray`;

export interface ReadSmall {
  readonly path: string;
  readonly tools: FilmTools;
  readonly signal?: AbortSignal;
  readonly timeLimitMs: number;
  /** takes each frame in order of presentation; the bytes are its own */
  readonly onFrame: (full: Uint8Array) => void;
  /** takes the time of each frame, micros, on ffmpeg's clock; slows decoding a little */
  readonly onTime?: (micros: number) => void;
}

/** Decodes a film once, from end to end, into small grey pictures. */
export async function readSmall(order: ReadSmall): Promise<RunEnd> {
  const { path, tools, signal, timeLimitMs, onFrame, onTime } = order;
  const running = startProgram(
    tools.ffmpeg.path,
    [
      ...QUIET,
      onTime ? 'info' : 'error',
      ...filmInput(path, onTime ? ['-copyts'] : []),
      ...['-map', '0:v:0', ...everyFrame(tools.ffmpeg.version)],
      ...['-vf', onTime ? `${SMALL_FILTER},showinfo` : SMALL_FILTER],
      ...['-f', 'rawvideo', '-pix_fmt', 'gray', 'pipe:1'],
    ],
    {
      ...(signal ? { signal } : {}),
      timeLimitMs,
      givesOutput: true,
      ...(onTime
        ? {
            onErrorLine: (line: string) => {
              const time = /showinfo.* pts_time:\s*(-?[\d.]+)/.exec(line)?.[1];
              if (time !== undefined) onTime(Math.round(Number(time) * 1e6));
            },
          }
        : {}),
    },
  );
  let frame = new Uint8Array(SMALL_BYTES);
  let filled = 0;
  running.output?.on('data', (chunk: Buffer) => {
    for (let at = 0; at < chunk.length; ) {
      const take = Math.min(SMALL_BYTES - filled, chunk.length - at);
      frame.set(chunk.subarray(at, at + take), filled);
      filled += take;
      at += take;
      if (filled < SMALL_BYTES) break;
      onFrame(frame);
      frame = new Uint8Array(SMALL_BYTES);
      filled = 0;
    }
  });
  return running.ended;
}
