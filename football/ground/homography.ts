import { fail, ok, type Problem, type Result } from '../result.ts';

/** A place in the picture, pixels from its top left corner. */
export interface PicturePoint {
  readonly x: number;
  readonly y: number;
}

/**
 * A place on the ground in yards: `along` from the left goal line (0) to the right one (100), negative and beyond 100 in the
 * end zones; `across` from the near sideline (0) to the far one (53 1/3), as the film shows them.
 */
export interface GroundPoint {
  readonly along: number;
  readonly across: number;
}

export interface Landmark {
  readonly picture: PicturePoint;
  readonly ground: GroundPoint;
}

/** Maps the picture to the ground: nine numbers of a 3x3 matrix, row by row, the last one 1 or as near as may be. */
export type GroundMap = readonly [number, number, number, number, number, number, number, number, number];

export interface GroundProblem extends Problem {
  readonly code: 'ground-too-few' | 'ground-in-a-line';
}

/** Smallest share of a triangle in the box around its points: under it they lie on a line as good as. */
const FLATTEST = 0.01;

/**
 * The map from picture to ground that fits the landmarks best: exact for four, least squares for more.
 * Four points of the plane in general position determine it; the equations are set up on points that are moved to
 * their middle and scaled, without which they are badly conditioned.
 * Source: direct linear transformation with normalisation, R. Hartley and A. Zisserman, "Multiple View Geometry in
 * Computer Vision", 2nd ed. 2004, section 4.4, algorithm 4.2 (from memory).
 */
export function groundMap(landmarks: readonly Landmark[]): Result<GroundMap, GroundProblem> {
  if (landmarks.length < 4) {
    return fail({
      code: 'ground-too-few',
      message: `The ground needs four known places; ${landmarks.length} ${landmarks.length === 1 ? 'is' : 'are'} marked.`,
      next: 'Mark where yard lines cross hash marks or sidelines, four of them, not on one line.',
    });
  }
  if (landmarks.length === 4 && anyThreeInALine(landmarks)) return inALine();
  const picture = normalised(landmarks.map(({ picture: { x, y } }) => [x, y]));
  const ground = normalised(landmarks.map(({ ground: { along, across } }) => [along, across]));
  const rows: number[][] = [];
  const right: number[] = [];
  picture.points.forEach(([x, y], i) => {
    const [u, v] = ground.points[i]!;
    rows.push([x, y, 1, 0, 0, 0, -u * x, -u * y]);
    right.push(u);
    rows.push([0, 0, 0, x, y, 1, -v * x, -v * y]);
    right.push(v);
  });
  const solved = leastSquares(rows, right);
  if (!solved) return inALine();
  const h = [...solved, 1];
  const back = [1 / ground.scale, 0, ground.middle[0], 0, 1 / ground.scale, ground.middle[1], 0, 0, 1];
  const { scale, middle } = picture;
  const there = [scale, 0, -scale * middle[0], 0, scale, -scale * middle[1], 0, 0, 1];
  return ok(asMap(times(times(back, h), there)));
}

/** The place on the ground that is seen at a place in the picture; null on and above the horizon. */
export function groundAt(map: GroundMap, { x, y }: PicturePoint): GroundPoint | null {
  const depth = map[6] * x + map[7] * y + map[8];
  // the sign of the depth changes at the horizon; the landmarks' own side is the positive one
  if (!(depth > 1e-9)) return null;
  return {
    along: (map[0] * x + map[1] * y + map[2]) / depth,
    across: (map[3] * x + map[4] * y + map[5]) / depth,
  };
}

/** Yards along the ground between two places of the picture; null where one of them is not on the ground. */
export function yardsBetween(map: GroundMap, from: PicturePoint, to: PicturePoint): number | null {
  const a = groundAt(map, from);
  const b = groundAt(map, to);
  return a && b ? Math.hypot(a.along - b.along, a.across - b.across) : null;
}

function inALine(): Result<GroundMap, GroundProblem> {
  return fail({
    code: 'ground-in-a-line',
    message: 'Three of the marked places lie on one line, so the ground can not be worked out from them.',
    next: 'Move one of them: two yard lines crossed by two long lines are best.',
  });
}

type Pair = readonly [number, number];

function triangle(a: Pair, b: Pair, c: Pair): number {
  return Math.abs((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]));
}

function anyThreeInALine(landmarks: readonly Landmark[]): boolean {
  const flat = (points: readonly Pair[]) => {
    const box = Math.max(...[0, 1].map((i) => spread(points.map((p) => p[i as 0 | 1])))) ** 2;
    return points.some((_, left) => {
      const [a, b, c] = points.filter((_p, i) => i !== left) as [Pair, Pair, Pair];
      return triangle(a, b, c) < FLATTEST * box;
    });
  };
  return (
    flat(landmarks.map(({ picture: { x, y } }) => [x, y] as const)) ||
    flat(landmarks.map(({ ground: { along, across } }) => [along, across] as const))
  );
}

function spread(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}

/** Points moved to their middle and scaled to a mean distance of √2 from it. */
function normalised(points: readonly Pair[]): {
  readonly points: readonly Pair[];
  readonly middle: Pair;
  readonly scale: number;
} {
  const mean = (i: 0 | 1) => points.reduce((sum, p) => sum + p[i], 0) / points.length;
  const middle: Pair = [mean(0), mean(1)];
  const away = points.reduce((sum, p) => sum + Math.hypot(p[0] - middle[0], p[1] - middle[1]), 0);
  const scale = away > 0 ? (Math.SQRT2 * points.length) / away : 1;
  return {
    points: points.map((p) => [(p[0] - middle[0]) * scale, (p[1] - middle[1]) * scale]),
    middle,
    scale,
  };
}

/** Solves rows · x = right in the least squares sense by its normal equations; null where they have no one answer. */
function leastSquares(rows: readonly number[][], right: readonly number[]): number[] | null {
  const n = rows[0]!.length;
  const m = Array.from({ length: n }, (_, i) => [
    ...Array.from({ length: n }, (_x, j) => rows.reduce((sum, row) => sum + row[i]! * row[j]!, 0)),
    rows.reduce((sum, row, k) => sum + row[i]! * right[k]!, 0),
  ]);
  for (let i = 0; i < n; i++) {
    let pivot = i;
    for (let r = i + 1; r < n; r++) if (Math.abs(m[r]![i]!) > Math.abs(m[pivot]![i]!)) pivot = r;
    if (Math.abs(m[pivot]![i]!) < 1e-10) return null;
    [m[i], m[pivot]] = [m[pivot]!, m[i]!];
    for (let r = 0; r < n; r++) {
      if (r === i) continue;
      const factor = m[r]![i]! / m[i]![i]!;
      for (let c = i; c <= n; c++) m[r]![c]! -= factor * m[i]![c]!;
    }
  }
  return m.map((row, i) => row[n]! / row[i]!);
}

function times(a: readonly number[], b: readonly number[]): number[] {
  return Array.from({ length: 9 }, (_, i) => {
    const row = 3 * Math.floor(i / 3);
    const column = i % 3;
    return a[row]! * b[column]! + a[row + 1]! * b[column + 3]! + a[row + 2]! * b[column + 6]!;
  });
}

function asMap(values: readonly number[]): GroundMap {
  return values as unknown as GroundMap;
}
