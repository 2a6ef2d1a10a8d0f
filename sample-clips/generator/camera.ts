import { FIELD, HALF_WIDTH_YARDS, lineOfScrimmageX, type PlayPlace, type WorldPoint } from './field.ts';

export type Angle = 'sideline' | 'endzone';

export interface Picture {
  readonly width: number;
  readonly height: number;
}

/** A pinhole: where it stands, what it looks at, and its focal length in pixels. */
export interface Camera {
  readonly eye: WorldPoint;
  readonly lookAt: WorldPoint;
  readonly focalPixels: number;
  readonly picture: Picture;
}

export interface Projected {
  /** pixels from the left */
  readonly x: number;
  /** pixels from the top */
  readonly y: number;
  /** yards in front of the eye, along its axis */
  readonly depth: number;
  /** pixels that a yard measures there, seen square on */
  readonly pixelsPerYard: number;
}

type Vector = readonly [number, number, number];

function unit([a, b, c]: Vector): Vector {
  const length = Math.hypot(a, b, c);
  return [a / length, b / length, c / length];
}

function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

/** Projects any number of points with one camera. Points behind the eye come back with depth <= 0. */
export function projector(camera: Camera): (point: WorldPoint) => Projected {
  const { eye, lookAt, focalPixels, picture } = camera;
  const forward = unit([lookAt.x - eye.x, lookAt.y - eye.y, lookAt.z - eye.z]);
  const right = unit(cross(forward, [0, 0, 1]));
  const up = cross(right, forward);
  return (point) => {
    const a = point.x - eye.x;
    const b = point.y - eye.y;
    const c = point.z - eye.z;
    const depth = a * forward[0] + b * forward[1] + c * forward[2];
    const scale = focalPixels / Math.max(depth, 0.05);
    return {
      x: picture.width / 2 + (a * right[0] + b * right[1] + c * right[2]) * scale,
      y: picture.height / 2 - (a * up[0] + b * up[1] + c * up[2]) * scale,
      depth,
      pixelsPerYard: scale,
    };
  };
}

/** How a film is framed at one instant: the middle of the picture and how wide a stretch of field it shows. */
export interface Framing {
  /** yards beyond the line of scrimmage of the middle of the picture */
  readonly downfield: number;
  /** yards right of the field's middle line, as the offense sees it */
  readonly across: number;
  /** yards of field shown across the picture at its middle */
  readonly widthYards: number;
}

const PRESS_BOX = { setBackYards: 34, heightYards: 26 };
const NEARER_YARDS = 2.6;
const END_ZONE_LIFT = { behindEndLineYards: 14, heightYards: 24 };

/** The press box slides half way along with the ball, so that no play is seen too much from the side. */
function sidelineCamera(place: PlayPlace, framing: Framing, picture: Picture): Camera {
  const x = lineOfScrimmageX(place) + place.direction * framing.downfield;
  const eye = {
    x: 50 + 0.6 * (lineOfScrimmageX(place) + place.direction * 7 - 50),
    y: -PRESS_BOX.setBackYards,
    z: PRESS_BOX.heightYards,
  };
  // A little nearer than the middle of the field: the near sideline takes more of the picture than the far one.
  const lookAt = { x, y: HALF_WIDTH_YARDS - NEARER_YARDS - place.direction * framing.across, z: 0 };
  return aim(eye, lookAt, framing.widthYards, picture);
}

/** There is a lift behind each end zone; the film is taken from the nearer one. */
function endZoneCamera(place: PlayPlace, framing: Framing, picture: Picture): Camera {
  const behindOffense = place.yardsToGoal >= 50;
  const west = behindOffense === (place.direction === 1);
  const back = FIELD.endZoneYards + END_ZONE_LIFT.behindEndLineYards;
  const eye = {
    x: west ? -back : FIELD.goalToGoalYards + back,
    y: HALF_WIDTH_YARDS,
    z: END_ZONE_LIFT.heightYards,
  };
  const lookAt = {
    x: lineOfScrimmageX(place) + place.direction * framing.downfield,
    y: HALF_WIDTH_YARDS - place.direction * framing.across,
    z: 0,
  };
  return aim(eye, lookAt, framing.widthYards, picture);
}

function aim(eye: WorldPoint, lookAt: WorldPoint, widthYards: number, picture: Picture): Camera {
  const distance = Math.hypot(lookAt.x - eye.x, lookAt.y - eye.y, lookAt.z - eye.z);
  return { eye, lookAt, focalPixels: (picture.width * distance) / widthYards, picture };
}

export function cameraFor(angle: Angle, place: PlayPlace, framing: Framing, picture: Picture): Camera {
  return angle === 'sideline'
    ? sidelineCamera(place, framing, picture)
    : endZoneCamera(place, framing, picture);
}
