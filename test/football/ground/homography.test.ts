import { describe, expect, it } from 'vitest';
import { type GroundPoint, groundAt, groundMap, yardsBetween } from '../../../football/ground/homography.ts';
import { cameraFor, projector } from '../../../sample-clips/generator/camera.ts';
import { FIELD, type WorldPoint } from '../../../sample-clips/generator/field.ts';
import { seeded } from '../../support/seeded.ts';

const PICTURE = { width: 1280, height: 720 };
/** A coach's hand: the place is marked up to so many pixels beside the crossing of the lines. */
const HAND_PIXELS = 1;

const world = ({ along, across }: GroundPoint): WorldPoint => ({ x: along, y: across, z: 0 });

/** Crossings of every fifth yard line with sidelines and hash marks. */
const CROSSINGS: GroundPoint[] = [];
for (let along = 0; along <= 100; along += 5) {
  for (const across of [
    0,
    FIELD.hashFromSidelineYards,
    FIELD.widthYards - FIELD.hashFromSidelineYards,
    FIELD.widthYards,
  ])
    CROSSINGS.push({ along, across });
}

describe('the ground from four marked places', () => {
  it('maps a square seen square on by proportion', () => {
    const corner = (x: number, y: number, along: number, across: number) => ({
      picture: { x, y },
      ground: { along, across },
    });
    const map = groundMap([
      corner(0, 0, 10, 0),
      corner(100, 0, 20, 0),
      corner(100, 100, 20, 10),
      corner(0, 100, 10, 10),
    ]);
    if (!map.ok) throw new Error(map.problem.message);
    const middle = groundAt(map.value, { x: 50, y: 25 })!;
    expect(middle.along).toBeCloseTo(15, 9);
    expect(middle.across).toBeCloseTo(2.5, 9);
    expect(yardsBetween(map.value, { x: 0, y: 0 }, { x: 30, y: 40 })).toBeCloseTo(5, 9);
  });

  it('measures 200 pairs seen by the sample film’s cameras within half a yard for 95 in 100, marked by hand', () => {
    const random = seeded(53);
    const between = (low: number, high: number) => low + (high - low) * random();
    const misses: number[] = [];
    while (misses.length < 200) {
      const angle = misses.length % 2 ? ('endzone' as const) : ('sideline' as const);
      const project = projector(
        cameraFor(
          angle,
          { yardsToGoal: Math.round(between(8, 92)), direction: random() < 0.5 ? 1 : -1 },
          { downfield: between(3, 12), across: between(-4, 4), widthYards: angle === 'sideline' ? 41 : 46 },
          PICTURE,
        ),
      );
      const seen = (at: GroundPoint) => {
        const p = project(world(at));
        return p.depth > 0 && p.x >= 0 && p.y >= 0 && p.x < PICTURE.width && p.y < PICTURE.height ? p : null;
      };
      const marks = CROSSINGS.flatMap((ground) => {
        const p = seen(ground);
        return p
          ? [
              {
                ground,
                picture: {
                  x: p.x + between(-HAND_PIXELS, HAND_PIXELS),
                  y: p.y + between(-HAND_PIXELS, HAND_PIXELS),
                },
              },
            ]
          : [];
      });
      // the four that lie farthest apart, two on each of two long lines
      const lines = [...new Set(marks.map((m) => m.ground.across))];
      const rows = [lines[0], lines.at(-1)].map((across) => marks.filter((m) => m.ground.across === across));
      if (lines.length < 2 || rows.some((row) => row.length < 2)) continue;
      const map = groundMap(rows.flatMap((row) => [row[0]!, row.at(-1)!]));
      if (!map.ok) throw new Error(map.problem.message);
      const a = { along: between(0, 100), across: between(0, FIELD.widthYards) };
      const b = { along: a.along + between(-20, 20), across: between(0, FIELD.widthYards) };
      const [seenA, seenB] = [seen(a), seen(b)];
      if (!seenA || !seenB) continue;
      const truth = Math.hypot(a.along - b.along, a.across - b.across);
      misses.push(Math.abs(yardsBetween(map.value, seenA, seenB)! - truth));
    }
    const within = misses.filter((miss) => miss <= 0.5).length / misses.length;
    expect(within).toBeGreaterThanOrEqual(0.95);
  });

  it('gives no distance to the sky', () => {
    const project = projector(
      cameraFor(
        'sideline',
        { yardsToGoal: 50, direction: 1 },
        { downfield: 6, across: 0, widthYards: 41 },
        PICTURE,
      ),
    );
    const at = (along: number, across: number) => ({
      ground: { along, across },
      picture: project(world({ along, across })),
    });
    const map = groundMap([at(45, 20), at(60, 20), at(60, 33), at(45, 33)]);
    if (!map.ok) throw new Error(map.problem.message);
    expect(groundAt(map.value, { x: 640, y: -4000 })).toBeNull();
  });

  it('asks for more where there are three places, or three on one line', () => {
    const mark = (x: number, y: number) => ({ picture: { x, y }, ground: { along: x, across: y } });
    const few = groundMap([mark(0, 0), mark(1, 0), mark(1, 1)]);
    expect(few.ok ? null : few.problem.code).toBe('ground-too-few');
    const flat = groundMap([mark(0, 0), mark(10, 0), mark(20, 0), mark(20, 20)]);
    expect(flat.ok ? null : flat.problem.code).toBe('ground-in-a-line');
  });
});
