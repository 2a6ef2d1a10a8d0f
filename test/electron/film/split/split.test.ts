import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { probeFilm } from '../../../../electron/film/probe.ts';
import { chooseCuts } from '../../../../electron/film/split/cut-model.ts';
import { proposePlays, type Shot } from '../../../../electron/film/split/propose.ts';
import { splitFilm } from '../../../../electron/film/split/split-film.ts';
import { stopsOf } from '../../../../electron/film/split/stops.ts';
import { type MadeFilm, makeMadeFilm } from '../../../fixtures/made-film/make.ts';
import { heldOutPlans } from '../../../fixtures/made-film/plans.ts';
import { copyFilm, tools } from '../../../fixtures/numbered-film.ts';

let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tapebook-split-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function split(path: string) {
  const probe = await probeFilm(path);
  if (!probe.ok) throw new Error(probe.problem.message);
  const found = await splitFilm(probe.value, { tools });
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

function score(film: MadeFilm, cuts: readonly number[]) {
  const found = film.cuts.filter((cut) => cuts.some((c) => Math.abs(c - cut) <= 1)).length;
  const right = cuts.filter((cut) => film.cuts.some((c) => Math.abs(c - cut) <= 1)).length;
  return { recall: found / film.cuts.length, precision: right / Math.max(1, cuts.length) };
}

describe('the cuts of a made film', () => {
  // kinds of which the model has seen no film; the figures on whole films are the bench's
  it.each(['night, heavy grain', 'mud in low contrast, grain'])(
    'are found in %s',
    async (name) => {
      const plan = heldOutPlans(14).find((p) => p.name === name)!;
      const film = await makeMadeFilm(plan, join(folder, `${plan.seed}.mp4`));
      const { cuts } = await split(film.path);
      const { recall, precision } = score(film, cuts);
      expect(recall).toBeGreaterThan(0.9);
      expect(precision).toBeGreaterThan(0.9);
    },
    60_000,
  );

  it('are none where one camera runs on, flashes and scoreboards or not', async () => {
    const plan = { ...heldOutPlans()[15]!, cuts: 0, shotFrames: [220, 240] as const, flash: 1, grain: 3 };
    const film = await makeMadeFilm(plan, join(folder, 'one.mp4'));
    expect((await split(film.path)).cuts).toEqual([]);
  }, 60_000);

  it('are not decided by a number wild beyond all film', () => {
    const wild = { frame: 5, features: new Float64Array(26).fill(1e9) };
    const tame = { frame: 5, features: new Float64Array(26).fill(1e3) };
    expect(chooseCuts([wild])).toEqual(chooseCuts([tame]));
  });
});

describe('a recording that was stopped', () => {
  it('begins anew after a hole in its time stamps, not after a late frame', () => {
    const at = (...seconds: number[]) => Float64Array.from(seconds, (s) => s * 1e6);
    expect(stopsOf({ ptsMicros: at(0, 0.03, 0.07, 0.2, 0.23, 3, 3.03, 3.07) })).toEqual([5]);
    expect(stopsOf({ ptsMicros: at(0) })).toEqual([]);
  });

  it('is split at the stop even where the picture goes on', async () => {
    const plan = {
      ...heldOutPlans()[7]!,
      cuts: 0,
      shotFrames: [60, 60] as const,
      flash: 0,
      moves: [['still']] as const,
      grain: 1,
    };
    const film = await makeMadeFilm(plan, join(folder, 'still.mp4'));
    const stopped = await copyFilm(film.path, join(folder, 'stopped.mkv'), [
      '-bsf:v',
      "setts=ts='TS+if(gte(N\\,30)\\,3/TB\\,0)'",
    ]);
    const found = await split(stopped);
    expect(found.stops).toEqual([30]);
    expect(found.cuts).toEqual([30]);
    expect(found.shots.map((s) => s.startedBy)).toEqual(['film', 'stop']);
  }, 60_000);
});

describe('plays proposed', () => {
  const shot = (startFrame: number, endFrame: number, angle: Shot['angle'] = 'other'): Shot => ({
    startFrame,
    endFrame,
    startedBy: startFrame === 0 ? 'film' : 'cut',
    angle,
  });
  /** still, then running from each snap for five seconds */
  const motion = (frames: number, snaps: readonly number[]) =>
    Float64Array.from(
      { length: frames },
      (_, f) => (snaps.some((s) => f >= s && f < s + 150) ? 4 : 0.1) + 0.02 * (f % 3),
    );

  it('put the snap where people that stood still begin to move', () => {
    const [play] = proposePlays([shot(0, 240)], motion(240, [70]), 30);
    expect(Math.abs(play!.snapFrame! - 70)).toBeLessThanOrEqual(1);
    expect(play).toMatchObject({ inFrame: 0, outFrame: 240 });
  });

  it('follow each other in a camera that runs on, without the dead time between them', () => {
    const plays = proposePlays([shot(0, 3000)], motion(3000, [300, 1200, 2200]), 30);
    expect(plays.map((p) => p.play)).toEqual([1, 2, 3]);
    for (const [n, snap] of [300, 1200, 2200].entries()) {
      expect(Math.abs(plays[n]!.snapFrame! - snap)).toBeLessThanOrEqual(2);
      expect(plays[n]!.inFrame).toBeLessThan(snap - 30);
      expect(plays[n]!.outFrame).toBeGreaterThan(snap + 140);
      expect(plays[n]!.outFrame).toBeLessThan(snap + 300);
    }
  });

  it('are paired where two angles take turns', () => {
    const shots = [
      shot(0, 200, 'sideline'),
      shot(200, 400, 'endzone'),
      shot(400, 600, 'sideline'),
      shot(600, 800, 'endzone'),
    ];
    const plays = proposePlays(shots, motion(800, [50, 250, 450, 650]), 30);
    expect(plays.map((p) => [p.play, p.angle])).toEqual([
      [1, 'sideline'],
      [1, 'endzone'],
      [2, 'sideline'],
      [2, 'endzone'],
    ]);
  });

  it('have no snap where nothing begins to move', () => {
    expect(proposePlays([shot(0, 120)], motion(120, []), 30)[0]!.snapFrame).toBeNull();
  });
});
