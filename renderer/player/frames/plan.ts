import type { Heading, Reach } from './frame-store.ts';

/** Frames kept ready on each side of a film that stands still, if there is room. */
const STANDING = 90;
/** Frames kept ready in the direction in which a film runs, and behind it. */
const AHEAD = 200;
const BEHIND = 45;
/** Most frames of one piece of a run backwards: with a key frame every 250 frames, smaller pieces come too late. */
const PIECE = 125;

/** What is known when the next piece of film to decode is chosen. */
export interface Outlook extends Heading {
  /** frames of the film */
  readonly count: number;
  /** frames that fit into memory */
  readonly room: number;
  readonly has: (frame: number) => boolean;
  /** the last frame at or before this one at which decoding can start */
  readonly keyBefore: (frame: number) => number;
  /** the frame that a decoder already under way gives next; null where none is */
  readonly running: number | null;
}

/** Frames to decode and keep, both ends included. */
export interface Piece {
  readonly from: number;
  readonly to: number;
  /** ends there for good: what the decoder still holds back is asked out of it */
  readonly closed: boolean;
}

/** How many frames are kept ready above and below where the film stands. */
export function reachOf(direction: Heading['direction'], room: number): Reach {
  if (direction === 0) {
    const each = Math.min(STANDING, Math.floor((room - 1) / 2));
    return { up: Math.max(0, each), down: Math.max(0, each) };
  }
  const ahead = Math.max(1, Math.min(AHEAD, Math.floor(room * 0.78)));
  const behind = Math.max(0, Math.min(BEHIND, room - ahead - 1));
  return direction === 1 ? { up: ahead, down: behind } : { up: behind, down: ahead };
}

/** The piece of film to decode next, or null while enough is ready. */
export function nextPiece(outlook: Outlook): Piece | null {
  const { at, direction, count, room, has, keyBefore, running } = outlook;
  const reach = reachOf(direction, room);
  const top = Math.min(count - 1, at + reach.up);
  const bottom = Math.max(0, at - reach.down);
  if (!has(at)) {
    // what lies before the wanted frame is decoded on the way to it and kept as well
    if (direction === -1) return { from: backFrom(at, bottom, reach.down, keyBefore), to: at, closed: true };
    return { from: at, to: Math.min(top, at + 8), closed: false };
  }
  const up = firstMissing(at, top, has);
  const down = firstMissing(at, bottom, has);
  const upward = up === null ? null : upPiece(up);
  const downward = down === null ? null : downPiece(down);
  if (!upward || !downward) return upward ?? downward;
  const weight = direction === 0 ? 1 : 3;
  const upFar = (up! - at) * (direction === -1 ? weight : 1);
  const downFar = (at - down!) * (direction === 1 ? weight : 1);
  return upFar <= downFar ? upward : downward;

  function upPiece(missing: number): Piece | null {
    const goesOn = running !== null && running <= missing && keyBefore(missing) <= running;
    // a start anew costs the way from the key frame, so it waits until it is worth it
    if (!goesOn && missing - at > reach.up / 2) return null;
    return { from: missing, to: top, closed: top === count - 1 };
  }

  function downPiece(missing: number): Piece | null {
    const from = backFrom(missing, 0, reach.down, keyBefore);
    const fits = from >= bottom;
    if (!fits && at - missing > reach.down / 3) return null;
    return { from: Math.max(from, bottom), to: missing, closed: true };
  }
}

/** Where a piece that ends at a frame and is played backwards begins. */
function backFrom(to: number, bottom: number, reach: number, keyBefore: (frame: number) => number): number {
  const piece = Math.max(1, Math.min(PIECE, Math.floor(reach * 0.6)));
  return Math.max(bottom, keyBefore(to), to - piece + 1);
}

function firstMissing(from: number, to: number, has: (frame: number) => boolean): number | null {
  const step = to < from ? -1 : 1;
  for (let frame = from; frame !== to + step; frame += step) if (!has(frame)) return frame;
  return null;
}
