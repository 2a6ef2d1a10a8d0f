import type { SKRSContext2D } from '@napi-rs/canvas';
import type { Projected } from '../camera.ts';
import { FIELD, HALF_WIDTH_YARDS, HASH_OFFSET_YARDS, type WorldPoint } from '../field.ts';
import { COLORS, KITS } from './colors.ts';
import { LETTERS } from './letters.ts';

export type Project = (point: WorldPoint) => Projected;

const BORDER_YARDS = 2;

/** The field as paint on the ground, then the goal posts. */
export function drawGround(context: SKRSContext2D, project: Project, width: number, height: number): void {
  context.fillStyle = COLORS.surround;
  context.fillRect(0, 0, width, height);
  const fill = (color: string, corners: readonly (readonly [number, number])[]) =>
    polygon(context, project, color, corners);
  const box = (color: string, x1: number, y1: number, x2: number, y2: number) =>
    fill(color, [
      [x1, y1],
      [x2, y1],
      [x2, y2],
      [x1, y2],
    ]);
  const { widthYards: w, endZoneYards: ez, lineWidthYards: lw } = FIELD;
  box(COLORS.border, -ez - BORDER_YARDS, -BORDER_YARDS, 100 + ez + BORDER_YARDS, w + BORDER_YARDS);
  for (let x = 0; x < 100; x += 5) box(x % 10 === 0 ? COLORS.turfLight : COLORS.turfDark, x, 0, x + 5, w);
  box(KITS.Herons.endZone, -ez, 0, 0, w);
  box(KITS.Mariners.endZone, 100, 0, 100 + ez, w);
  word(context, project, 'HERONS', -ez / 2, 1);
  word(context, project, 'MARINERS', 100 + ez / 2, -1);
  for (let x = 5; x < 100; x += 5) box(COLORS.line, x - lw / 2, 0, x + lw / 2, w);
  for (const x of [0, 100]) {
    const half = FIELD.goalLineWidthYards / 2;
    box(COLORS.line, x - half, 0, x + half, w);
  }
  drawHashes(box);
  for (let yards = 10; yards <= 90; yards += 10) drawNumber(context, project, yards);
  // The mark in the middle of the three-yard line, from which tries are snapped.
  for (const x of [3, 97]) box(COLORS.line, x - 0.5 / 3, w / 2 - 0.5, x + 0.5 / 3, w / 2 + 0.5);
}

type Box = (color: string, x1: number, y1: number, x2: number, y2: number) => void;

/** One-yard marks at both sidelines and at both hash lines. */
function drawHashes(box: Box): void {
  const { widthYards: w, shortMarkYards: mark, lineWidthYards: lw } = FIELD;
  for (let x = 1; x < 100; x++) {
    if (x % 5 === 0) {
      for (const y of [HALF_WIDTH_YARDS - HASH_OFFSET_YARDS, HALF_WIDTH_YARDS + HASH_OFFSET_YARDS])
        box(COLORS.line, x - 0.35, y - lw / 2, x + 0.35, y + lw / 2);
      continue;
    }
    const starts = [
      0.15,
      w - 0.15 - mark,
      HALF_WIDTH_YARDS - HASH_OFFSET_YARDS,
      HALF_WIDTH_YARDS + HASH_OFFSET_YARDS - mark,
    ];
    for (const y of starts) box(COLORS.line, x - lw / 2, y, x + lw / 2, y + mark);
  }
}

/** Strokes of the digits in a box one wide and one and a half high, the origin at the bottom left. */
const DIGITS: Readonly<Record<string, readonly (readonly [number, number])[]>> = {
  '0': [
    [0, 0],
    [1, 0],
    [1, 1.5],
    [0, 1.5],
    [0, 0],
  ],
  '1': [
    [0.5, 0],
    [0.5, 1.5],
    [0.25, 1.25],
  ],
  '2': [
    [0, 1.5],
    [1, 1.5],
    [1, 0.75],
    [0, 0.75],
    [0, 0],
    [1, 0],
  ],
  '3': [
    [0, 1.5],
    [1, 1.5],
    [1, 0.75],
    [0.3, 0.75],
    [1, 0.75],
    [1, 0],
    [0, 0],
  ],
  '4': [
    [0, 1.5],
    [0, 0.7],
    [1, 0.7],
    [1, 1.5],
    [1, 0],
  ],
  '5': [
    [1, 1.5],
    [0, 1.5],
    [0, 0.8],
    [1, 0.8],
    [1, 0],
    [0, 0],
  ],
};

function drawNumber(context: SKRSContext2D, project: Project, yards: number): void {
  const label = `${yards <= 50 ? yards : 100 - yards}`;
  const {
    numberTopFromSidelineYards: top,
    numberHeightYards: high,
    numberWidthYards: wide,
    widthYards,
  } = FIELD;
  // Near numbers are read from the press box, far numbers from the other side.
  for (const near of [true, false]) {
    const away = near ? 1 : -1;
    const bottom = near ? top - high : widthYards - top + high;
    [...label].forEach((digit, i) => {
      const left = i === 0 ? -wide - 0.45 : 0.45;
      const at = ([a, b]: readonly [number, number]): readonly [number, number] => [
        yards + away * (left + a * wide),
        bottom + away * ((b / 1.5) * high),
      ];
      strokes(context, project, DIGITS[digit]!.map(at), 0.3);
    });
    if (yards !== 50) {
      const towardGoal = yards < 50 ? -1 : 1;
      const tip = yards + towardGoal * 2.9;
      const base = yards + towardGoal * 2.1;
      const middle = bottom + away * high * 0.62;
      polygon(context, project, COLORS.line, [
        [tip, middle],
        [base, middle - 0.3],
        [base, middle + 0.3],
      ]);
    }
  }
}

/** A word across an end zone, read from the field of play's side that `facing` points to. */
function word(context: SKRSContext2D, project: Project, text: string, x: number, facing: 1 | -1): void {
  const high = 5.4;
  const wide = 3;
  const gap = 1.6;
  const length = text.length * wide + (text.length - 1) * gap;
  [...text].forEach((letter, i) => {
    const start = -length / 2 + i * (wide + gap);
    for (const stroke of LETTERS[letter] ?? []) {
      const points = stroke.map(([a, b]): readonly [number, number] => [
        x + facing * (b / 1.5 - 0.5) * high * -1,
        HALF_WIDTH_YARDS + facing * -(start + a * wide) * -1,
      ]);
      strokes(context, project, points, 0.75, '#e6e3da');
    }
  });
}

function strokes(
  context: SKRSContext2D,
  project: Project,
  points: readonly (readonly [number, number])[],
  thick: number,
  color: string = COLORS.line,
): void {
  for (let i = 1; i < points.length; i++) {
    const [ax, ay] = points[i - 1]!;
    const [bx, by] = points[i]!;
    const length = Math.hypot(bx - ax, by - ay);
    const [ux, uy] = [((bx - ax) / length) * (thick / 2), ((by - ay) / length) * (thick / 2)];
    polygon(context, project, color, [
      [ax - ux - uy, ay - uy + ux],
      [bx + ux - uy, by + uy + ux],
      [bx + ux + uy, by + uy - ux],
      [ax - ux + uy, ay - uy - ux],
    ]);
  }
}

export function polygon(
  context: SKRSContext2D,
  project: Project,
  color: string,
  corners: readonly (readonly [number, number])[],
): void {
  context.fillStyle = color;
  context.beginPath();
  corners.forEach(([x, y], i) => {
    const at = project({ x, y, z: 0 });
    if (i === 0) context.moveTo(at.x, at.y);
    else context.lineTo(at.x, at.y);
  });
  context.closePath();
  context.fill();
}

/** Goal posts on both end lines: a crossbar ten feet up between uprights 18 feet 6 inches apart. */
export function drawPosts(context: SKRSContext2D, project: Project): void {
  for (const x of [-FIELD.endZoneYards, 100 + FIELD.endZoneYards]) {
    const half = FIELD.goalWidthYards / 2;
    const [left, right] = [HALF_WIDTH_YARDS - half, HALF_WIDTH_YARDS + half];
    const bar = FIELD.crossbarHeightYards;
    const top = FIELD.uprightHeightYards;
    const outer = x < 0 ? x - 2 : x + 2;
    const pipes: readonly (readonly [WorldPoint, WorldPoint])[] = [
      [
        { x: outer, y: HALF_WIDTH_YARDS, z: 0 },
        { x: outer, y: HALF_WIDTH_YARDS, z: bar },
      ],
      [
        { x: outer, y: HALF_WIDTH_YARDS, z: bar },
        { x, y: HALF_WIDTH_YARDS, z: bar },
      ],
      [
        { x, y: left, z: bar },
        { x, y: right, z: bar },
      ],
      [
        { x, y: left, z: bar },
        { x, y: left, z: top },
      ],
      [
        { x, y: right, z: bar },
        { x, y: right, z: top },
      ],
    ];
    context.strokeStyle = COLORS.post;
    for (const [a, b] of pipes) {
      const from = project(a);
      const to = project(b);
      if (from.depth < 1 || to.depth < 1) continue;
      context.lineWidth = Math.max(1, 0.13 * from.pixelsPerYard);
      context.beginPath();
      context.moveTo(from.x, from.y);
      context.lineTo(to.x, to.y);
      context.stroke();
    }
  }
}
