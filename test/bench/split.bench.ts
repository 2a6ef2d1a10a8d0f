import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { probeFilm } from '../../electron/film/probe.ts';
import { splitFilm } from '../../electron/film/split/split-film.ts';
import type { Split } from '../../electron/film/split/splitter.ts';
import type { SampleGame } from '../../sample-clips/sample-game.ts';
import { makeMadeFilm } from '../fixtures/made-film/make.ts';
import { heldOutPlans } from '../fixtures/made-film/plans.ts';
import { runTool, tools } from '../fixtures/numbered-film.ts';
import { record } from './record.ts';

/**
 * What finding plays is worth on film that the cut model was not fitted to: whole kinds of made film (80 hard cuts each), the
 * sample film joined into one, its snaps, and the time it takes beside plain decoding.
 */
const folder = mkdtempSync(join(tmpdir(), 'tapebook-split-bench-'));
const FFMPEG = tools.ffmpeg.path;

async function split(path: string): Promise<Split> {
  const probe = await probeFilm(path);
  if (!probe.ok) throw new Error(probe.problem.message);
  const found = await splitFilm(probe.value, { tools });
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

function compare(truth: readonly number[], found: readonly number[]) {
  const hit = (a: readonly number[], b: readonly number[]) =>
    a.filter((x) => b.some((y) => Math.abs(x - y) <= 1)).length;
  return {
    cuts: truth.length,
    missed: truth.length - hit(truth, found),
    false: found.length - hit(found, truth),
  };
}

const total = { cuts: 0, missed: 0, false: 0 };
for (const plan of heldOutPlans()) {
  const film = await makeMadeFilm(plan, join(folder, 'film.mkv'));
  const result = compare(film.cuts, (await split(film.path)).cuts);
  console.log(`${plan.name}: ${result.cuts} cuts, ${result.missed} missed, ${result.false} false`);
  total.cuts += result.cuts;
  total.missed += result.missed;
  total.false += result.false;
}
record('share of hard cuts missed in held-out made film', total.missed / total.cuts, 0.01, '');
record(
  'share of false cuts in held-out made film',
  total.false / (total.cuts - total.missed + total.false),
  0.03,
  '',
);

const clips = new URL('../../sample-clips/', import.meta.url);
const game = JSON.parse(readFileSync(new URL('sample-game.json', clips), 'utf8')) as SampleGame;
let kicked = 0;
let snaps = 0;
let off = 0;
for (const play of game.plays) {
  for (const clip of play.clips) {
    // a kickoff has no snap: the tag there is the kick, at the end of a run
    if (play.playKind === 'kickoff') {
      kicked += 1;
      continue;
    }
    const { plays } = await split(new URL(clip.file, clips).pathname);
    snaps += 1;
    const error = Math.min(...plays.map((p) => Math.abs((p.snapFrame ?? -999) - clip.moments.snap)));
    if (error > 3) off += 1;
  }
}
console.log(`${snaps} clips with a snap, ${kicked} of kickoffs left out`);
record('share of snaps of the sample film off by more than 3 frames', off / snaps, 0.05, '');

// 1920x1080 of about 8 Mbit/s, as a staff's camera writes it
const half = join(folder, 'half.mp4');
const big = join(folder, 'big.mp4');
await runTool(FFMPEG, [
  ...['-v', 'error', '-y', '-f', 'lavfi', '-i', 'testsrc2=s=1920x1080:r=30000/1001,noise=alls=12:allf=t'],
  ...[
    '-t',
    '30',
    '-c:v',
    'libx264',
    '-preset',
    'fast',
    '-b:v',
    '8M',
    '-bf',
    '2',
    '-g',
    '60',
    '-pix_fmt',
    'yuv420p',
    big,
  ],
]);
// starting a worker takes the same however long the film is
await runTool(FFMPEG, ['-v', 'error', '-stream_loop', '4', '-i', half, '-c', 'copy', big]);
const seconds = async (work: () => Promise<unknown>) => {
  const start = performance.now();
  await work();
  return (performance.now() - start) / 1000;
};
const plain: number[] = [];
const found: number[] = [];
for (let round = 0; round < 2; round++) {
  plain.push(
    await seconds(() => runTool(FFMPEG, ['-v', 'error', '-i', big, '-map', '0:v:0', '-f', 'null', '-'])),
  );
  found.push(await seconds(() => split(big)));
}
record(
  'finding plays in 1080p against plain decoding, time',
  Math.min(...found) / Math.min(...plain),
  1 / 0.85,
  'times',
);
rmSync(folder, { recursive: true, force: true });
