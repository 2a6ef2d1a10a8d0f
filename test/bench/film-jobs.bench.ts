import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createLibrary } from '../../db/library.ts';
import { makeCutup } from '../../electron/service/actions/cutups.ts';
import { filmViews } from '../../electron/service/actions/films.ts';
import { addPlay, setClip } from '../../electron/service/actions/tags.ts';
import { addFilms } from '../../electron/service/film/add-films.ts';
import { startProxy } from '../../electron/service/film/proxies.ts';
import { serveStation } from '../../electron/service/server.ts';
import { Station } from '../../electron/service/station.ts';
import { defineWork } from '../../electron/service/work.ts';
import { runTool, tools } from '../fixtures/numbered-film.ts';
import { record } from './record.ts';

/** How fast a log line is answered while two reels and a proxy are being made; the budget is that of a tag (service.bench.ts). */
const BUDGET_MS = 50;
const LINES = 150;
const folder = mkdtempSync(join(tmpdir(), 'tapebook-film-jobs-'));
const film = async (name: string, seconds: number, video: readonly string[]) => {
  const path = join(folder, name);
  await runTool(tools.ffmpeg.path, [
    ...['-v', 'error', '-f', 'lavfi', '-i', `testsrc2=s=1920x1080:r=30:d=${seconds}`, '-pix_fmt', 'yuv420p'],
    ...[...video, path],
  ]);
  return path;
};
const seconds = Number(process.env.FILM_SECONDS ?? 60);
const game = await film('first half.mp4', seconds, ['-c:v', 'libx264', '-preset', 'ultrafast', '-g', '60']);
const tape = await film('tape.avi', seconds, ['-c:v', 'mjpeg', '-q:v', '4']);

const station = new Station(
  createLibrary(join(folder, 'jobs.tapebook'), { team: 'Herons', level: 'ncaa' }),
  'coach',
);
defineWork(station);
await addFilms(station, {
  paths: [game, tape],
  gameTitle: 'Herons v Mariners',
  angle: 'sideline',
  onePlayPerFile: false,
});
for (const job of station.jobs.list()) station.jobs.cancel(job.jobId);
const films = filmViews(station);
const whole = films.find((each) => each.name === 'first half.mp4')!;
const gameId = whole.gameId!;
const clips = Math.floor(seconds / 2);
const plays = Array.from({ length: 180 }, () => addPlay(station, gameId, null).playId);
plays.slice(0, clips).forEach((playId, n) => {
  setClip(station, {
    playId,
    filmId: whole.filmId,
    angle: 'sideline',
    inFrame: n * 60 + 7,
    outFrame: n * 60 + 55,
  });
});
const cutup = makeCutup(station, { name: 'All', playIds: plays.slice(0, clips) });
station.columns();
const service = await serveStation(station, { secret: 'bench' });

async function logLines(busy: () => boolean): Promise<number[]> {
  const times: number[] = [];
  for (let line = 0; line < LINES && (times.length < 20 || busy()); line += 1) {
    const body = JSON.stringify({
      gameId,
      playId: plays[line % plays.length],
      line: `1&10 -35 l iz run ru g${line % 9}`,
    });
    const start = performance.now();
    const answer = await fetch(`${service.origin}/api/log`, {
      method: 'POST',
      body,
      headers: { 'content-type': 'application/json', 'x-tapebook-secret': 'bench' },
    });
    const said = await answer.text();
    if (answer.status !== 200) throw new Error(said);
    times.push(performance.now() - start);
    await new Promise((wait) => setTimeout(wait, 40));
  }
  return times.sort((a, b) => a - b);
}
const share = (times: readonly number[], part: number) =>
  times[Math.min(times.length - 1, Math.floor(times.length * part))] ?? 0;

const quiet = await logLines(() => true);
const jobs = [
  ...['one.mp4', 'two.mp4'].map((name) =>
    station.jobs.start('export-cutup', `Write ${name}`, {
      cutupId: cutup.cutupId,
      to: join(folder, name),
      angles: null,
    }),
  ),
  startProxy(station, films.find((each) => each.name === 'tape.avi')!.filmId),
];
const going = () => jobs.some(({ jobId }) => ['waiting', 'running'].includes(station.jobs.get(jobId)!.state));
const busy = await logLines(going);
console.log(
  `jobs at the end: ${jobs.map(({ jobId }) => station.jobs.get(jobId)!.state).join(', ')}; ${busy.length} lines logged beside them`,
);
record('a log line, from request to answer, with no film work, median', share(quiet, 0.5), BUDGET_MS, 'ms');
record('a log line while two reels and a proxy are being made, median', share(busy, 0.5), BUDGET_MS, 'ms');
record(
  'a log line while two reels and a proxy are being made, 95 of 100 within',
  share(busy, 0.95),
  2 * BUDGET_MS,
  'ms',
);
await service.close();
await station.close();
rmSync(folder, { recursive: true, force: true });
