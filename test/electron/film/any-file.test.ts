import { existsSync, mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { FilmFacts } from '../../../electron/film/film-types.ts';
import { frameCount } from '../../../electron/film/frame-table.ts';
import { proxyReason } from '../../../electron/film/playable.ts';
import { probeFilm } from '../../../electron/film/probe.ts';
import { makeProxy, PROXY_KEY_EVERY, proxyBytesAtMost, proxySize } from '../../../electron/film/proxy.ts';
import {
  copyFilm,
  makeNumberedFilm,
  type NumberedFilm,
  range,
  readNumbers,
  runTool,
  tools,
  turnMp4,
} from '../../fixtures/numbered-film.ts';

// every kind is encoded, read, turned into a proxy and decoded again, and a machine may be busy
vi.setConfig({ testTimeout: 120_000 });

const FRAMES = 40;
const folder = mkdtempSync(join(tmpdir(), 'any-file-'));
const at = (name: string) => join(folder, name);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let encoders = '';
beforeAll(async () => {
  encoders = (await runTool(tools.ffmpeg.path, ['-hide_banner', '-encoders'])).toString();
});

async function probe(path: string) {
  const result = await probeFilm(path, { tools });
  if (!result.ok) throw new Error(result.problem.message);
  return result.value;
}

interface Kind {
  readonly what: string;
  readonly name: string;
  /** without it the film is skipped where the ffmpeg at hand has no such encoder */
  readonly encoder: string;
  readonly film?: Omit<NumberedFilm, 'path' | 'frames'>;
  /** done to the film once it is made */
  readonly after?: (path: string) => Promise<string>;
  readonly facts: Partial<FilmFacts>;
  /** words of the reason why it needs a proxy; null: it plays as it is */
  readonly reason: RegExp | null;
  readonly size?: readonly [number, number];
}

const H264 = ['-c:v', 'libx264', '-preset', 'ultrafast', '-crf', '18', '-bf', '2', '-g', '20'];
const HEVC = ['-c:v', 'libx265', '-preset', 'ultrafast', '-x265-params', 'log-level=none:keyint=20'];
const MPEG2 = ['-c:v', 'mpeg2video', '-q:v', '3', '-bf', '2', '-g', '15'];
const MJPEG = ['-c:v', 'mjpeg', '-q:v', '3'];

const KINDS: Kind[] = [
  {
    what: 'H.264 in MP4',
    name: 'h264.mp4',
    encoder: 'libx264',
    film: { video: H264, sound: true },
    facts: { codec: 'avc', container: 'mp4', interlaced: false, plainPixels: true, hasAudio: true },
    reason: null,
  },
  {
    what: 'VP9 in WebM',
    name: 'vp9.webm',
    encoder: 'libvpx-vp9',
    film: { video: ['-c:v', 'libvpx-vp9', '-deadline', 'realtime', '-cpu-used', '8', '-b:v', '500k'] },
    facts: { codec: 'vp9', container: 'webm', plainPixels: true },
    reason: null,
  },
  {
    what: 'H.264 with open groups in a camera’s transport stream, its first stamp far from zero',
    name: 'camera.mts',
    encoder: 'libx264',
    film: {
      video: [...H264, '-x264-params', 'open-gop=1'],
      sound: true,
      output: ['-f', 'mpegts', '-output_ts_offset', '500'],
    },
    facts: { codec: 'avc', container: 'ts', hasAudio: true },
    reason: /transport stream/,
  },
  {
    what: 'interlaced H.264 of a camcorder',
    name: 'camcorder.m2ts',
    encoder: 'libx264',
    film: {
      rate: '30000/1001',
      video: [...H264, '-flags', '+ilme+ildct', '-x264-params', 'tff=1'],
      output: ['-f', 'mpegts'],
    },
    facts: { codec: 'avc', container: 'ts', interlaced: true },
    reason: /transport stream/,
  },
  {
    what: 'interlaced H.264 in MP4',
    name: 'interlaced.mp4',
    encoder: 'libx264',
    film: { rate: '30000/1001', video: [...H264, '-flags', '+ilme+ildct', '-x264-params', 'tff=1'] },
    facts: { codec: 'avc', container: 'mp4', interlaced: true },
    reason: /interlaced/,
  },
  {
    what: 'H.264 of 10 bits',
    name: 'tenbit.mkv',
    encoder: 'libx264',
    film: { video: [...H264, '-pix_fmt', 'yuv420p10le'] },
    facts: { codec: 'avc', container: 'mkv', plainPixels: false },
    reason: /8 bits/,
  },
  {
    what: 'HEVC of a phone, with a time code',
    name: 'phone.mov',
    encoder: 'libx265',
    film: { rate: '30000/1001', video: [...HEVC, '-tag:v', 'hvc1', '-timecode', '01:02:03;04'], sound: true },
    facts: { codec: 'hevc', container: 'mov', startTimecode: '01:02:03;04', hasAudio: true },
    reason: /HEVC/,
  },
  {
    what: 'HEVC at a variable rate in Matroska',
    name: 'screen.mkv',
    encoder: 'libx265',
    film: { video: HEVC, filter: "settb=1/90000,setpts='90*(N*33+mod(N*7,5)*4+300*gte(N,20))'" },
    facts: { codec: 'hevc', container: 'mkv', variable: true },
    reason: /HEVC/,
  },
  {
    what: 'MPEG-2 of 720 x 480 wide-screen half pictures in MPG',
    name: 'tape.mpg',
    encoder: 'mpeg2video',
    film: {
      width: 720,
      height: 480,
      rate: '30000/1001',
      video: [...MPEG2, '-flags', '+ilme+ildct', '-top', '1'],
      output: ['-aspect', '16:9'],
    },
    facts: { codec: 'mpeg2video', container: 'mpg', interlaced: true },
    reason: /MPEG-2/,
    size: [853, 480],
  },
  {
    what: 'MPEG-2 in Matroska',
    name: 'mpeg2.mkv',
    encoder: 'mpeg2video',
    film: { video: MPEG2 },
    facts: { codec: 'mpeg2video', container: 'mkv', interlaced: false },
    reason: /MPEG-2/,
  },
  {
    what: 'Motion JPEG in AVI',
    name: 'mjpeg.avi',
    encoder: 'mjpeg',
    film: { video: MJPEG },
    facts: { codec: 'mjpeg', container: 'avi' },
    reason: /Motion JPEG/,
  },
  {
    what: 'DV in AVI',
    name: 'dv.avi',
    encoder: 'dvvideo',
    film: {
      width: 720,
      height: 480,
      rate: '30000/1001',
      video: ['-c:v', 'dvvideo', '-pix_fmt', 'yuv411p'],
    },
    facts: { codec: 'dvvideo', container: 'avi', interlaced: true },
    reason: /DV/,
  },
  {
    what: 'HEVC held upright',
    name: 'upright.mp4',
    encoder: 'libx265',
    film: { video: [...HEVC, '-tag:v', 'hvc1'] },
    after: async (path) => turnMp4(path),
    facts: { codec: 'hevc', container: 'mp4' },
    reason: /HEVC/,
    size: [96, 160],
  },
];

describe('any file that a staff is sent', () => {
  it.each(KINDS)(
    'is known for what it is, and its proxy is frame for frame the film: $what',
    async (kind) => {
      if (!new RegExp(` ${kind.encoder} `).test(encoders)) {
        console.log(`skipped: the ffmpeg at hand can't encode ${kind.encoder}`);
        return;
      }
      const path = at(kind.name);
      await makeNumberedFilm({ path, frames: FRAMES, ...kind.film });
      await kind.after?.(path);
      const film = await probe(path);
      expect(film.frames).toBe(FRAMES);
      expect(film.facts).toMatchObject(kind.facts);
      if (kind.size) expect([film.width, film.height]).toEqual(kind.size);
      const reason = proxyReason(film.facts);
      if (kind.reason) expect(reason).toMatch(kind.reason);
      else expect(reason).toBeNull();

      const target = at(`proxies/${kind.name}.mp4`);
      const done: number[] = [];
      const made = await makeProxy({
        path,
        table: film.table,
        interlaced: film.facts.interlaced,
        target,
        tools,
        onProgress: (share) => done.push(share),
      });
      if (!made.ok) throw new Error(made.problem.message);
      const proxy = await probe(target);
      expect(proxyReason(proxy.facts)).toBeNull();
      expect(proxy.facts).toMatchObject({ codec: 'avc', container: 'mp4', hasAudio: film.hasAudio });
      expect(frameCount(made.value.table)).toBe(FRAMES);
      const { keyFrames } = made.value.table;
      const gaps = Array.from(keyFrames, (key, n) => (keyFrames[n + 1] ?? FRAMES) - key);
      expect(Math.max(...gaps)).toBeLessThanOrEqual(PROXY_KEY_EVERY);
      expect(made.value.bytes).toBe(statSync(target).size);
      expect(made.value.bytes).toBeLessThan(proxyBytesAtMost(film.seconds, proxySize(film.table)));
      expect(done.every((share) => share >= 0 && share <= 1)).toBe(true);

      // upright film is laid on its side again to be read
      const lying = kind.size?.[0] === 96;
      const upright = lying ? await copyFilm(target, at(`proxies/side-${kind.name}.mkv`)) : target;
      const numbers = lying
        ? await readTurned(upright)
        : await readNumbers(upright, { width: 160, height: 96 });
      expect(numbers).toEqual(range(0, FRAMES));
    },
  );

  it('leaves nothing half made behind', () => {
    expect(readdirSync(at('proxies')).filter((name) => name.includes('.part'))).toEqual([]);
  });
});

/** Numbers of film that stands upright: ffmpeg lays it back before they are read. */
async function readTurned(path: string): Promise<(number | null)[]> {
  const lying = at('lying.mkv');
  await runTool(tools.ffmpeg.path, [
    ...['-v', 'error', '-y', '-i', path, '-vf', 'transpose=2', '-c:v', 'ffv1', lying],
  ]);
  return readNumbers(lying, { width: 160, height: 96 });
}

describe('a proxy', () => {
  it('fits into 1280 x 720 in even numbers, and small film stays its size', () => {
    expect(proxySize({ width: 1920, height: 1080 })).toEqual({ width: 1280, height: 720 });
    expect(proxySize({ width: 1080, height: 1920 })).toEqual({ width: 406, height: 720 });
    expect(proxySize({ width: 853, height: 480 })).toEqual({ width: 854, height: 480 });
    expect(proxySize({ width: 3840, height: 2160 }, { width: 1920, height: 1080 })).toEqual({
      width: 1920,
      height: 1080,
    });
  });

  it('that is not frame for frame the film is refused with the reason, and not kept', async () => {
    const path = await makeNumberedFilm({ path: at('whole.avi'), frames: FRAMES, video: MJPEG });
    const { table } = await probe(path);
    // a table that claims one frame more than can be decoded, as of a file whose last packet is damaged
    const ptsMicros = Float64Array.from([...table.ptsMicros, table.endMicros]);
    const target = at('proxies/short.mp4');
    const made = await makeProxy({ path, table: { ...table, ptsMicros }, interlaced: false, target, tools });
    expect(made.ok ? 'made' : made.problem.code).toBe('proxy-failed');
    expect(made.ok ? '' : made.problem.message).toContain(`${FRAMES} of its ${FRAMES + 1} frames`);
    expect(existsSync(target)).toBe(false);
  });

  it('that is cancelled ends within a second and leaves nothing', async () => {
    const path = at('long.avi');
    await runTool(tools.ffmpeg.path, [
      ...['-v', 'error', '-y', '-f', 'lavfi', '-i', 'testsrc2=s=1280x720:r=30:d=8', ...MJPEG, path],
    ]);
    const { table } = await probe(path);
    const cancel = new AbortController();
    const target = at('proxies/cancelled.mp4');
    const making = makeProxy({ path, table, interlaced: false, target, tools, signal: cancel.signal });
    await new Promise((wait) => setTimeout(wait, 150));
    const before = performance.now();
    cancel.abort();
    const made = await making;
    expect(made.ok ? 'made' : made.problem.code).toBe('cancelled');
    expect(performance.now() - before).toBeLessThan(1_000);
    expect(readdirSync(at('proxies')).filter((name) => name.startsWith('cancelled'))).toEqual([]);
  });
});

describe('the groups of a film', () => {
  it('are told open or closed by the order of their frames', async () => {
    const closed = await makeNumberedFilm({ path: at('closed.mp4'), frames: 80, video: H264 });
    const open = await makeNumberedFilm({
      path: at('open.mp4'),
      frames: 80,
      video: [...H264, '-x264-params', 'open-gop=1:b-adapt=0:scenecut=0'],
    });
    const { table } = await probe(closed);
    expect([[...table.keyFrames], table.openKeyFrames]).toEqual([[0, 20, 40, 60], []]);
    const opened = (await probe(open)).table;
    expect(opened.openKeyFrames?.length).toBeGreaterThan(0);
    // the first group has none before it
    expect(opened.openKeyFrames).not.toContain(opened.keyFrames[0]);
  });
});
