import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { probeFilm } from '../../../electron/film/probe.ts';
import {
  copyFilm,
  ffprobeMicros,
  makeNumberedFilm,
  range,
  readNumbers,
  tools,
  turnMp4,
  X264,
} from '../../fixtures/numbered-film.ts';

const folder = mkdtempSync(join(tmpdir(), 'film-'));
const at = (name: string) => join(folder, name);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

beforeAll(async () => {
  await makeNumberedFilm({ path: at('plain.mp4'), frames: 90 });
  await makeNumberedFilm({ path: at('sound.mp4'), frames: 90, sound: true });
});

async function probe(path: string) {
  const result = await probeFilm(path, { tools });
  if (!result.ok) throw new Error(result.problem.message);
  return result.value;
}

interface Kind {
  readonly what: string;
  readonly make: () => Promise<string>;
  readonly frames?: number;
  readonly fps?: number;
  readonly variable?: boolean;
  readonly size?: readonly [number, number];
  readonly codec?: string;
  readonly firstMicros?: number;
}

const KINDS: Kind[] = [
  { what: '30 frames a second with B-frames', make: async () => at('plain.mp4'), codec: 'avc' },
  { what: 'sound beside the picture', make: async () => at('sound.mp4') },
  {
    what: '29.97 frames a second',
    make: () => makeNumberedFilm({ path: at('2997.mp4'), frames: 90, rate: '30000/1001' }),
    fps: 30000 / 1001,
  },
  {
    what: '59.94 frames a second and key frames 250 apart',
    make: () =>
      makeNumberedFilm({
        path: at('5994.mp4'),
        frames: 90,
        rate: '60000/1001',
        video: [...X264.slice(0, -1), '250'],
      }),
    fps: 60000 / 1001,
  },
  {
    what: 'only key frames',
    make: () => makeNumberedFilm({ path: at('intra.mp4'), frames: 90, video: [...X264.slice(0, -1), '1'] }),
  },
  {
    what: 'open groups of pictures',
    make: () =>
      makeNumberedFilm({ path: at('open.mp4'), frames: 90, video: [...X264, '-x264-params', 'open-gop=1'] }),
  },
  {
    what: 'frames at varying distances and a gap',
    make: () =>
      makeNumberedFilm({
        path: at('vfr.mp4'),
        frames: 90,
        filter: "settb=1/90000,setpts='90*(N*33+mod(N*7,5)*4+300*gte(N,40))'",
      }),
    variable: true,
  },
  {
    what: 'a first time stamp that is not zero',
    make: () => copyFilm(at('sound.mp4'), at('late.mp4'), ['-output_ts_offset', '0.75']),
    firstMicros: 750_000,
  },
  {
    what: 'an edit list that starts inside a group of pictures',
    make: () => copyFilm(at('sound.mp4'), at('edit.mp4'), [], ['-ss', '1.51']),
    frames: 44,
    firstMicros: 0,
  },
  {
    what: 'a picture that players turn',
    make: async () => turnMp4(await copyFilm(at('plain.mp4'), at('turned.mp4'))),
    size: [96, 160],
  },
  {
    what: 'an MP4 in fragments',
    make: () => copyFilm(at('plain.mp4'), at('fragments.mp4'), ['-movflags', 'frag_keyframe+empty_moov']),
  },
  { what: 'a MOV', make: () => copyFilm(at('sound.mp4'), at('copy.mov')) },
  { what: 'a Matroska file', make: () => copyFilm(at('plain.mp4'), at('plain.mkv')) },
  { what: 'a transport stream', make: () => copyFilm(at('sound.mp4'), at('copy.ts')) },
  {
    what: 'a transport stream that is called MP4',
    make: () => copyFilm(at('sound.mp4'), at('wrong.mp4'), ['-f', 'mpegts']),
  },
  {
    what: 'an AVI',
    make: () =>
      makeNumberedFilm({ path: at('mpeg4.avi'), frames: 90, video: ['-c:v', 'mpeg4', '-q:v', '3'] }),
    codec: 'mpeg4',
  },
  {
    what: 'an MPG with B-frames',
    make: () =>
      makeNumberedFilm({
        path: at('mpeg2.mpg'),
        frames: 90,
        video: ['-c:v', 'mpeg2video', '-q:v', '3', '-bf', '2'],
      }),
    codec: 'mpeg2video',
  },
  {
    what: 'MPEG-2 in a transport stream',
    make: () =>
      makeNumberedFilm({ path: at('mpeg2.ts'), frames: 90, video: ['-c:v', 'mpeg2video', '-q:v', '3'] }),
    codec: 'mpeg2video',
  },
];

describe('the frame table of a film', () => {
  it.each(KINDS)('holds the times that ffprobe reads and the frames that decode: $what', async (kind) => {
    const path = await kind.make();
    const film = await probe(path);
    const { table } = film;
    expect(film.frames).toBe(kind.frames ?? 90);
    expect(film.fps).toBeCloseTo(kind.variable ? film.fps : (kind.fps ?? 30), 6);
    expect(film.variable).toBe(kind.variable ?? false);
    expect([film.width, film.height]).toEqual(kind.size ?? [160, 96]);
    if (kind.codec) expect(film.codec).toBe(kind.codec);
    if (kind.firstMicros !== undefined) expect(film.firstPtsMicros).toBe(kind.firstMicros);
    expect(film.hasAudio).toBe(/sound|late|edit|copy|wrong/.test(path.split('/').pop() ?? ''));

    const numbers = kind.size
      ? await readNumbers(path, { width: 160, height: 96 }, ['-noautorotate'])
      : await readNumbers(path, { width: 160, height: 96 });
    expect(numbers).toEqual(range(90 - film.frames, 90));

    const times = await ffprobeMicros(path);
    if (!times) return;
    const off = times.map((time, frame) => Math.abs(time - (table.ptsMicros[frame] ?? Number.NaN)));
    // the last frame of an MPEG program stream has no time of its own, so ffprobe may leave it out
    const known = off.filter((value) => !Number.isNaN(value));
    expect(Math.max(...known)).toBeLessThanOrEqual(1);
    expect(known.length).toBeGreaterThanOrEqual(film.frames - 1);
  });

  it('marks the frames at which a decoder may start', async () => {
    const { table } = await probe(at('plain.mp4'));
    expect([...table.keyFrames]).toEqual([0, 30, 60]);
  });

  it('ends where the last frame has been shown', async () => {
    const { table, seconds } = await probe(at('plain.mp4'));
    expect(table.endMicros).toBe(3_000_000);
    expect(seconds).toBe(3);
  });

  it('knows an hour of silent film in seconds, though it is one long chunk', {
    timeout: 60_000,
  }, async () => {
    const path = await makeNumberedFilm({ path: at('second.mp4'), frames: 900, width: 32, height: 32 });
    const list = Array.from({ length: 120 }, () => `file '${path}'`).join('\n');
    writeFileSync(at('list.txt'), list);
    await copyFilm(at('list.txt'), at('hour.mp4'), [], ['-f', 'concat', '-safe', '0']);
    const before = performance.now();
    const film = await probe(at('hour.mp4'));
    expect(film.frames).toBe(108_000);
    expect(performance.now() - before).toBeLessThan(5_000);
  });
});

const REAL = '../shared/film';
const REAL_FILMS = [
  { name: 'cursed-vfr.mp4', frames: 63, size: [3026, 1386], firstMicros: 0, variable: true },
  { name: 'edts.mp4', frames: 225, size: [854, 480], firstMicros: 0, variable: false },
  // a fragmented file with negative offsets: Chromium paints its first frame at 0.083333 s
  { name: 'rotate-buck-bunny.mp4', frames: 45, size: [1080, 1920], firstMicros: 83_333, variable: false },
  { name: 'video.mp4', frames: 125, size: [1920, 1080], firstMicros: 0, variable: false },
] as const;

describe.skipIf(!existsSync(REAL))(
  'film that nobody here made (skipped where ../shared/film is absent)',
  () => {
    it.each(REAL_FILMS)(
      '$name is read as ffprobe reads it',
      async ({ name, frames, size, firstMicros, variable }) => {
        const path = join(REAL, name);
        const film = await probe(path);
        expect(film).toMatchObject({ frames, width: size[0], height: size[1], variable });
        expect(Math.abs(film.firstPtsMicros - firstMicros)).toBeLessThanOrEqual(1);
        const times = await ffprobeMicros(path);
        if (!times) return;
        expect(times.length).toBe(frames);
        const off = times.map((time, frame) => Math.abs(time - film.table.ptsMicros[frame]!));
        expect(Math.max(...off)).toBeLessThanOrEqual(1);
      },
    );

    it('multiple-aac-tracks.mp4 is refused, for it has no picture', async () => {
      const result = await probeFilm(join(REAL, 'multiple-aac-tracks.mp4'), { tools });
      expect(result.ok ? 'read' : result.problem.code).toBe('film-no-picture');
    });
  },
);
