import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { createRequire } from 'node:module';
import type { Picture } from './camera.ts';

export const FRAMES_PER_SECOND = 30;

/** The ffmpeg on PATH, else the one that comes with @ffmpeg-installer/ffmpeg, else null. */
export function findFfmpeg(): string | null {
  const runs = (path: string) => spawnSync(path, ['-version'], { stdio: 'ignore' }).status === 0;
  if (runs('ffmpeg')) return 'ffmpeg';
  try {
    const { path } = createRequire(import.meta.url)('@ffmpeg-installer/ffmpeg') as { path: string };
    return runs(path) ? path : null;
  } catch {
    return null;
  }
}

export interface EncodeOrder {
  readonly ffmpeg: string;
  readonly to: string;
  readonly picture: Picture;
  readonly frames: number;
  /** RGBA bytes of a frame, 0 to frames - 1 */
  readonly frame: (index: number) => Uint8Array;
  readonly quality: number;
}

/** H.264 in MP4, a key frame at least every second and a half, the index in front, no sound. */
export async function encode(order: EncodeOrder): Promise<void> {
  const { width, height } = order.picture;
  const child = spawn(
    order.ffmpeg,
    [
      ...['-y', '-loglevel', 'error', '-f', 'rawvideo', '-pix_fmt', 'rgba', '-s', `${width}x${height}`],
      ...['-r', `${FRAMES_PER_SECOND}`, '-i', 'pipe:0', '-an', '-c:v', 'libx264', '-preset', 'veryslow'],
      ...['-tune', 'animation', '-crf', `${order.quality}`, '-g', '45', '-bf', '2', '-sc_threshold', '0'],
      ...['-pix_fmt', 'yuv420p', '-colorspace', 'smpte170m', '-color_primaries', 'smpte170m'],
      ...['-color_trc', 'smpte170m', '-threads', '1', '-map_metadata', '-1', '-fflags', '+bitexact'],
      ...['-flags:v', '+bitexact', '-movflags', '+faststart', order.to],
    ],
    { stdio: ['pipe', 'ignore', 'pipe'] },
  );
  const done = finished(child);
  for (let i = 0; i < order.frames; i++) {
    if (!child.stdin!.write(order.frame(i))) await Promise.race([once(child.stdin!, 'drain'), done]);
  }
  child.stdin!.end();
  await done;
}

function finished(child: ChildProcess): Promise<void> {
  let words = '';
  child.stderr!.on('data', (chunk: Buffer) => {
    words += chunk.toString();
  });
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) =>
      code === 0 ? resolve() : reject(new Error(`ffmpeg stopped with ${code}: ${words.trim()}`)),
    );
  });
}
