import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Angle, cameraFor, projector } from '../../sample-clips/generator/camera.ts';
import { JERSEY_HEIGHT_YARDS } from '../../sample-clips/generator/drawing/figures.ts';
import { findFfmpeg } from '../../sample-clips/generator/encode.ts';
import { HALF_WIDTH_YARDS, toWorld } from '../../sample-clips/generator/field.ts';
import { PICTURE, sceneOf } from '../../sample-clips/generator/film.ts';
import { shotAt } from '../../sample-clips/generator/simulation.ts';
import { GAME, PLAYS } from './the-game.ts';

const FOLDER = join(import.meta.dirname, '../../sample-clips');
const ffmpeg = findFfmpeg();
const { width, height } = PICTURE;

/** Every frame of a film as RGB bytes. */
function decode(file: string): Buffer {
  const run = spawnSync(
    ffmpeg!,
    ['-loglevel', 'error', '-i', join(FOLDER, file), '-f', 'rawvideo', '-pix_fmt', 'rgb24', 'pipe:1'],
    { maxBuffer: 1 << 30 },
  );
  if (run.status !== 0) throw new Error(run.stderr.toString());
  return run.stdout;
}

type Color = readonly [red: number, green: number, blue: number];

const isBlue = ([r, g, b]: Color) => b > r + 45 && b > g + 25;
const isOrange = ([r, g, b]: Color) => r > g + 50 && r > b + 60;
const isBall = ([r, g, b]: Color) => (r > g + 15 && r < 230) || (r > 190 && g > 175 && b > 140);

/** Share of the pixels around a place that pass a test. */
function shareOf(frame: Buffer, x: number, y: number, reach: number, test: (c: Color) => boolean): number {
  let hits = 0;
  let all = 0;
  for (let py = Math.round(y) - reach; py <= Math.round(y) + reach; py++) {
    for (let px = Math.round(x) - reach; px <= Math.round(x) + reach; px++) {
      if (px < 0 || py < 0 || px >= width || py >= height) continue;
      const at = (py * width + px) * 3;
      all++;
      if (test([frame[at]!, frame[at + 1]!, frame[at + 2]!])) hits++;
    }
  }
  return all === 0 ? 0 : hits / all;
}

const cases = [3, 12, 20, 37].flatMap((number) =>
  (['sideline', 'endzone'] as const).map((angle) => ({ number, angle })),
);

describe.skipIf(ffmpeg === null)('the film itself (needs ffmpeg, else skipped)', () => {
  it.each(cases)(
    'of play $number, $angle: has the frames its clip names, and shows people and ball where they are',
    ({ number, angle }) => {
      const play = PLAYS[number - 1]!;
      const clip = GAME.plays[number - 1]!.clips.find((c) => c.angle === angle)!;
      const film = decode(clip.file);
      const size = width * height * 3;
      expect(film.length / size).toBe(clip.frames);

      const scene = sceneOf(play, angle as Angle);
      const { release, catch: caught, whistle } = play.simulation.moments;
      let checked = 0;
      let right = 0;
      for (const tick of [-5, release ?? 30, whistle]) {
        const frame = film.subarray((clip.moments.snap + tick) * size, (clip.moments.snap + tick + 1) * size);
        const project = projector(
          cameraFor(scene.angle, play.simulation.place, scene.framingAt(tick), PICTURE),
        );
        const people = play.simulation.cast.map((member) => {
          const shot = shotAt(play.simulation, tick).people.get(member.slot)!;
          return { member, shot, at: project(toWorld(play.simulation.place, shot.at, JERSEY_HEIGHT_YARDS)) };
        });
        for (const { member, shot, at } of people) {
          const alone = people.every(
            (p) => p.member === member || Math.hypot(p.at.x - at.x, p.at.y - at.y) > 26,
          );
          const inside = at.x > 10 && at.x < width - 10 && at.y > 10 && at.y < height - 10;
          if (!alone || !inside || shot.posture !== 'up') continue;
          checked++;
          const mine = member.team === 'Herons' ? isBlue : isOrange;
          const theirs = member.team === 'Herons' ? isOrange : isBlue;
          // white numbers and the codec's coarse colours take most of a small blue jersey, never all of it
          const own = shareOf(frame, at.x, at.y, 4, mine);
          if (own > 0.08 && own > 3 * shareOf(frame, at.x, at.y, 4, theirs)) right++;
        }
      }
      expect(checked).toBeGreaterThan(10);
      expect(right / checked).toBeGreaterThan(0.9);

      const middle = Math.round((release! + caught!) / 2);
      const project = projector(
        cameraFor(scene.angle, play.simulation.place, scene.framingAt(middle), PICTURE),
      );
      const { ball } = shotAt(play.simulation, middle);
      const at = project(toWorld(play.simulation.place, ball.at, ball.height));
      const frame = film.subarray(
        (clip.moments.snap + middle) * size,
        (clip.moments.snap + middle + 1) * size,
      );
      expect(shareOf(frame, at.x, at.y, 2, isBall)).toBeGreaterThan(0.3);
    },
  );
});

describe('the field of the film', () => {
  it('lies in the picture as the rule book measures it', () => {
    // NCAA rule 1-2-1: 160 feet wide, hash marks 60 feet from the sidelines, lines every five yards
    expect(HALF_WIDTH_YARDS * 2 * 3).toBeCloseTo(160, 9);
    const place = { yardsToGoal: 60, direction: 1 } as const;
    const camera = cameraFor('sideline', place, { downfield: 5, across: 0, widthYards: 41 }, PICTURE);
    const project = projector(camera);
    // a point in the middle of the picture is where the camera looks
    const middle = project(camera.lookAt);
    expect(middle.x).toBeCloseTo(width / 2, 6);
    expect(middle.y).toBeCloseTo(height / 2, 6);
    // and there, the picture is as wide as it was framed
    expect(width / middle.pixelsPerYard).toBeCloseTo(41, 6);
    // what is nearer is lower in the picture, what is higher is above its foot
    expect(project({ ...camera.lookAt, y: 2 }).y).toBeGreaterThan(middle.y);
    expect(project({ ...camera.lookAt, z: 2 }).y).toBeLessThan(middle.y);
  });

  it('puts the offense’s right hand on the right of a picture from behind it', () => {
    for (const direction of [1, -1] as const) {
      const place = { yardsToGoal: 70, direction };
      const project = projector(
        cameraFor('endzone', place, { downfield: 7, across: 0, widthYards: 46 }, PICTURE),
      );
      const left = project(toWorld(place, { across: -15, downfield: 0 }));
      const right = project(toWorld(place, { across: 15, downfield: 0 }));
      expect(right.x).toBeGreaterThan(left.x);
      const deep = project(toWorld(place, { across: 0, downfield: 20 }));
      expect(deep.y).toBeLessThan(left.y);
    }
  });
});
