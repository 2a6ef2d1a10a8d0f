import type { RouteName } from './calls.ts';
import { HALF_WIDTH_YARDS, HASH_OFFSET_YARDS } from './field.ts';
import { clamp, gapBetween, type SideSign, type Spot, spot } from './space.ts';

/**
 * The depth in yards at which each route makes its break (the route's last change of direction but one for those that
 * come back). Common practice, no source: staffs differ by a yard or two.
 */
const BREAK_DEPTH_YARDS = {
  stick: 5.5,
  flat: 2,
  hitch: 6,
  corner: 11,
  in: 12,
  snag: 5.5,
  curl: 12,
  post: 12,
  slant: 3,
} as const;

/** Landmarks of vertical routes, yards from the field's middle: just outside the hash, and five from the sideline. */
const SEAM_LANDMARK_YARDS = HASH_OFFSET_YARDS + 1;
const GO_LANDMARK_YARDS = HALF_WIDTH_YARDS - 5;

export interface Route {
  readonly name: RouteName;
  /** corners of the path, the first being where the receiver stands at the snap */
  readonly path: readonly Spot[];
  /** yards along the path of the break */
  readonly breakAt: number;
  /** yards along the path from which the ball may arrive */
  readonly openFrom: number;
  /** the receiver waits there instead of running on */
  readonly settles: boolean;
}

interface Look {
  readonly from: Spot;
  /** the side the receiver is lined up on: outside is in this direction */
  readonly side: SideSign;
  readonly ball: number;
  /** against man coverage, routes that would sit keep running */
  readonly man: boolean;
  /** mesh: the second crosser runs just above the first */
  readonly over?: boolean;
}

const SIDELINE_ROOM = HALF_WIDTH_YARDS - 1.6;

/** Route of a receiver from where he stands. Distances are from the line of scrimmage, as coaches count them. */
export function routeOf(name: RouteName, look: Look): Route {
  const { from, side, ball, man } = look;
  const out = (yards: number) => clamp(from.across + side * yards, -SIDELINE_ROOM, SIDELINE_ROOM);
  const stem = (depth: number) => spot(from.across, depth);
  const landmark = (yards: number) => side * yards;
  const made = (corners: readonly Spot[], breakCorner: number, after: number, settles: boolean): Route => {
    const path = [from, ...corners];
    const breakAt = lengthTo(path, breakCorner);
    return { name, path, breakAt, openFrom: breakAt + after, settles };
  };
  switch (name) {
    case 'stick':
      return man
        ? made([stem(BREAK_DEPTH_YARDS.stick), spot(out(9), 5.2)], 1, 2.2, false)
        : made([stem(BREAK_DEPTH_YARDS.stick), spot(out(1.2), 5)], 1, 1, true);
    case 'hitch':
      return made([stem(BREAK_DEPTH_YARDS.hitch), spot(from.across - side * 0.6, 5)], 1, 0.9, true);
    case 'curl':
      return made([stem(BREAK_DEPTH_YARDS.curl), spot(from.across - side * 1.6, 10.4)], 1, 1.6, true);
    case 'snag': {
      const sit = spot(from.across - side * 4.2, BREAK_DEPTH_YARDS.snag);
      return man
        ? made([stem(1), sit, spot(sit.across + side * 5, 5.2)], 2, 1.8, false)
        : made([stem(1), sit, spot(sit.across + side * 0.9, 5.2)], 2, 0.6, true);
    }
    case 'slant':
      return made([stem(BREAK_DEPTH_YARDS.slant), spot(from.across - side * 11, 9)], 1, 3.2, false);
    case 'flat':
      return made([spot(from.across + side * 1, BREAK_DEPTH_YARDS.flat), spot(out(11), 3.6)], 1, 4.5, false);
    case 'arrow':
      return made([spot(from.across + side * 1, 1.2), spot(out(9), 4)], 1, 4, false);
    case 'swing': {
      const turn = spot(ball + side * 5, from.downfield - 0.4);
      return made([turn, spot(clamp(ball + side * 12, -SIDELINE_ROOM, SIDELINE_ROOM), 1.5)], 1, 4.5, false);
    }
    case 'corner':
      return made([stem(BREAK_DEPTH_YARDS.corner), spot(out(9), 20)], 1, 5.2, false);
    case 'post':
      return made([stem(BREAK_DEPTH_YARDS.post), spot(from.across - side * 8, 27)], 1, 5, false);
    case 'in':
      return made([stem(BREAK_DEPTH_YARDS.in), spot(from.across - side * 18, 12.3)], 1, 3.2, false);
    case 'shallow': {
      const depth = look.over ? 6 : 5;
      const meet = spot(ball + side * 0.6, depth);
      return made(
        [spot(from.across - side * 1, 1.5), meet, spot(ball - side * 17, depth + 0.4)],
        2,
        4.2,
        false,
      );
    }
    case 'fade':
    case 'go':
      return made(
        [
          spot(landmark(Math.max(Math.abs(from.across), GO_LANDMARK_YARDS)), 10),
          spot(landmark(GO_LANDMARK_YARDS), 42),
        ],
        1,
        8,
        false,
      );
    case 'seam':
      return made(
        [spot(landmark(SEAM_LANDMARK_YARDS), 8), spot(landmark(SEAM_LANDMARK_YARDS), 42)],
        1,
        9,
        false,
      );
    case 'check-down': {
      const sit = spot(ball + side * 2.4, 3.6);
      return made(
        [spot(from.across + side * 0.4, from.downfield + 1), spot(ball + side * 2.6, 2.6), sit],
        2,
        0.4,
        true,
      );
    }
  }
}

/** yards along a path to one of its corners */
export function lengthTo(path: readonly Spot[], corner: number): number {
  let length = 0;
  for (let i = 1; i <= corner; i++) length += gapBetween(path[i - 1]!, path[i]!);
  return length;
}
