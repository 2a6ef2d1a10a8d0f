import { spawnSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { layPicture, runsOf, setsOf } from '../../electron/export/reel/assemble.ts';
import { copySound } from '../../electron/export/reel/copy-sound.ts';
import { PacketFilms, planCuts } from '../../electron/export/reel/cut-plan.ts';
import { estimateReel } from '../../electron/export/reel/estimate.ts';
import { writeMp4 } from '../../electron/export/reel/write-mp4.ts';
import { renderReel } from '../../electron/export/reel.ts';
import { planReel } from '../../electron/export/reel-plan.ts';
import type { ReelOptions, ReelSegment } from '../../electron/export/reel-types.ts';
import { keyFrameBefore } from '../../electron/film/frame-table.ts';
import { probeFilm } from '../../electron/film/probe.ts';
import { findFilmTools } from '../../electron/film/tools.ts';
import { record } from './record.ts';

/*
 * The speed of reels, as ratios of processor seconds (this process and all that it starts), so that a busy machine tells the
 * same: 60 clips of 6 to 10 s of a 1080p recording of 8 Mbit/s, a key frame every 60 frames, two B-frames, with sound.
 */
const found = await findFilmTools();
if (!found.ok) throw new Error(found.problem.message);
const tools = found.value;
const kept = join(tmpdir(), 'tapebook-bench-film');
const folder = mkdtempSync(join(tmpdir(), 'tapebook-bench-reel-'));
const PART_SECONDS = 20;
const PARTS = 30;
const CLIPS = 60;
/** Encoding all of it takes minutes; the time of every tenth clip, by frames, stands for the whole. */
const ENCODED_EVERY = 10;

function ffmpeg(args: readonly string[]): void {
  const run = spawnSync(tools.ffmpeg.path, ['-v', 'error', '-y', ...args], { encoding: 'utf8' });
  if (run.status !== 0) throw new Error(run.stderr);
}

function makeFilm(): string {
  const film = join(kept, 'recording.mp4');
  if (existsSync(film)) return film;
  mkdirSync(kept, { recursive: true });
  const part = join(kept, 'part.mp4');
  // turf that keeps its texture as the camera pans, figures that run across it, and a little noise: near 8 Mbit/s at a
  // quantiser that a camera would choose
  const picture = [
    'color=c=0x507040:s=2560x1440:r=30000/1001:d=0.04,noise=alls=50:all_seed=3,gblur=1.5,loop=-1:1',
    'setpts=N/(30000/1001)/TB,crop=1920:1080:320+300*sin(t/2):180+150*cos(t*0.7)[turf];testsrc2=s=480x270:r=30000/1001[men]',
    '[turf][men]overlay=700+500*sin(t*1.1):400+250*cos(t*0.9),noise=alls=2:allf=t',
  ];
  ffmpeg([
    ...['-f', 'lavfi', '-i', `${picture[0]},${picture[1]};${picture[2]}`],
    ...[
      '-t',
      String(PART_SECONDS),
      '-c:v',
      'libx264',
      '-preset',
      'veryfast',
      '-b:v',
      '8M',
      '-maxrate',
      '10M',
    ],
    ...['-bufsize', '16M', '-g', '60', '-keyint_min', '60', '-sc_threshold', '0', '-bf', '2'],
    ...['-pix_fmt', 'yuv420p', part],
  ]);
  const list = join(kept, 'parts.txt');
  writeFileSync(list, `file '${part}'\n`.repeat(PARTS));
  // the sound runs through, as that of a recording does
  const sound = `anoisesrc=a=0.1:d=${PART_SECONDS * PARTS}:r=48000`;
  ffmpeg([
    ...['-f', 'concat', '-safe', '0', '-i', list, '-f', 'lavfi', '-i', sound, '-map', '0:v', '-map', '1:a'],
    ...['-c:v', 'copy', '-c:a', 'aac', '-b:a', '128k', '-shortest', `${film}.part.mp4`],
  ]);
  renameSync(`${film}.part.mp4`, film);
  return film;
}

/** Processor seconds of this process and of those that it started and that have ended (proc(5), fields 14 to 17). */
function cpuSeconds(): number {
  const fields = readFileSync('/proc/self/stat', 'latin1')
    .replace(/^.*\) /, '')
    .split(' ');
  return [11, 12, 13, 14].reduce((sum, at) => sum + Number(fields[at]), 0) / 100;
}

async function cost<T>(work: () => Promise<T> | T): Promise<{ seconds: number; value: T }> {
  const before = cpuSeconds();
  const value = await work();
  return { seconds: cpuSeconds() - before, value };
}

async function reel(segments: readonly ReelSegment[], name: string, options: Partial<ReelOptions> = {}) {
  const made = await renderReel(segments, join(folder, name), { tools, ...options });
  if (!made.ok) throw new Error(made.problem.message);
  return made.value;
}

async function segmentOf(path: string, inFrame = 0, outFrame?: number): Promise<ReelSegment> {
  const film = await probeFilm(path, { tools });
  if (!film.ok) throw new Error(film.problem.message);
  const { table, contentId } = film.value;
  return { path, table, inFrame, outFrame: outFrame ?? table.ptsMicros.length, filmId: contentId };
}

/** Packets from key frame to key frame into one file, and nothing else: what is compared with. */
async function copyPlainly(segments: readonly ReelSegment[], name: string): Promise<void> {
  const snapped = segments.map((segment) => {
    const inFrame = keyFrameBefore(segment.table, segment.inFrame);
    return {
      ...segment,
      inFrame,
      outFrame: Math.max(inFrame + 1, keyFrameBefore(segment.table, segment.outFrame)),
    };
  });
  const planned = planReel(snapped, {});
  if (!planned.ok) throw new Error(planned.problem.message);
  const films = new PacketFilms();
  const cuts = await planCuts(planned.value, films, () => null);
  const runs = runsOf(planned.value, cuts, { made: new Map(), failed: new Map() }, null);
  await writeMp4(
    join(folder, name),
    layPicture(planned.value, runs, setsOf(runs)),
    await copySound(planned.value, films),
  );
}

const film = makeFilm();
const whole = await segmentOf(film);
let seed = 7;
const random = () => {
  seed = (seed * 1103515245 + 12345) % 2 ** 31;
  return seed / 2 ** 31;
};
const clips = Array.from({ length: CLIPS }, (_, at) => {
  const inFrame = at * 290 + Math.floor(random() * 40);
  return { ...whole, inFrame, outFrame: inFrame + 180 + Math.floor(random() * 110) };
});
const frames = clips.reduce((sum, { inFrame, outFrame }) => sum + outFrame - inFrame, 0);

const some = clips.filter((_, at) => at % ENCODED_EVERY === 0);
const someFrames = some.reduce((sum, { inFrame, outFrame }) => sum + outFrame - inFrame, 0);
const encoded = await cost(() => reel(some, 'encoded.mp4', { encodeAll: true }));
const encodeAll = (encoded.seconds * frames) / someFrames;
const plain = await cost(() => copyPlainly(clips, 'plain.mp4'));
const edgeFolder = join(folder, 'edges');
const foretold = await estimateReel(clips, { tools, edgeFolder });
const started = performance.now();
const cold = await cost(() => reel(clips, 'cold.mp4', { edgeFolder }));
const tookSeconds = (performance.now() - started) / 1000;
const warm = await cost(() => reel(clips, 'warm.mp4', { edgeFolder }));
const hows = (how: string) => cold.value.segments.filter((one) => one.how === how).length;
console.log(
  `${CLIPS} clips, ${frames} frames: ${hows('copied')} copied, ${hows('edges')} by their edges, ${hows('encoded')} encoded; processor seconds: encoding all ${encodeAll.toFixed(0)} (from every tenth clip), cold ${cold.seconds.toFixed(1)}, warm ${warm.seconds.toFixed(1)}, plain copying ${plain.seconds.toFixed(1)}; ${(cold.value.bytes / 1e6).toFixed(0)} MB, plain ${(statSync(join(folder, 'plain.mp4')).size / 1e6).toFixed(0)} MB`,
);
if (!readFileSync(join(folder, 'cold.mp4')).equals(readFileSync(join(folder, 'warm.mp4')))) {
  console.log('the cold and the warm reel differ: MISSED');
}
record(
  'a reel of 60 clips, nothing prepared, against encoding all',
  cold.seconds / encodeAll,
  0.1,
  'of the processor time',
);
record('the same, edges made before, against plain packet copying', warm.seconds / plain.seconds, 3, 'times');
const off = (one: number, other: number) => Math.max(one / other, other / one);
record('size of the reel against what was foretold', off(cold.value.bytes, foretold?.bytes ?? 1), 2, 'times');
record(
  'time for it on an idle machine against what was foretold',
  off(tookSeconds, foretold?.makingSeconds ?? 1),
  3,
  'times',
);
for (const name of ['cold.mp4', 'warm.mp4', 'plain.mp4', 'encoded.mp4']) rmSync(join(folder, name));

const files = Array.from({ length: 120 }, (_, at) => join(folder, `play-${at}.mp4`));
// four whole groups of 60 frames and their sound, as a camera that stops between plays writes them
await reel([{ ...(await segmentOf(film)), inFrame: 0, outFrame: 240 }], 'play-0.mp4');
for (const file of files.slice(1)) copyFileSync(files[0]!, file);
const segments: ReelSegment[] = [];
for (const file of files) segments.push(await segmentOf(file));
const cat = await cost(() => spawnSync('sh', ['-c', 'cat "$@" > "$0"', join(folder, 'cat.bin'), ...files]));
rmSync(join(folder, 'cat.bin'));
const joined = await cost(() => reel(segments, 'joined.mp4'));
console.log(
  `120 files, ${(joined.value.bytes / 1e6).toFixed(0)} MB, ${joined.value.segments.filter(({ how }) => how === 'copied').length} copied; processor seconds: joined ${joined.seconds.toFixed(2)}, cat ${cat.seconds.toFixed(2)}`,
);
record('120 separate files joined and checked, against cat', joined.seconds / cat.seconds, 2, 'times');
rmSync(folder, { recursive: true, force: true });
