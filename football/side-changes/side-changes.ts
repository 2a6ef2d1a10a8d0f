/** How far outside receivers run across the field because they are sent to the other side on the next play. */

import type { PlayRecord } from '../play.ts';

/** 160 feet, at every level of the game. */
const FIELD_WIDTH_YARDS = 160 / 3;
const YARDS_PER_MILE = 1760;

export const OUTSIDE_FIELDS = ['leftOutside', 'rightOutside'] as const;

export interface SideChangeLine {
  readonly receiver: string;
  readonly changes: number;
  /** straight across, from one side to the other */
  readonly yards: number;
  readonly miles: number;
  /** the plays before which he changed sides */
  readonly playIds: readonly string[];
}

/** Yards and miles of so many changes straight across. @param insetYards how far inside the sideline he lines up */
export function distanceOf(changes: number, insetYards = 0): { yards: number; miles: number } {
  const yards = changes * (FIELD_WIDTH_YARDS - 2 * insetYards);
  return { yards, miles: yards / YARDS_PER_MILE };
}

/**
 * Counts a change where a receiver is outside on one side of a play and on the other on the next play of the same drive.
 * A receiver who sat out a play in between is not counted, for nobody knows which way he came back.
 * @param plays of one game or practice, in order
 */
export function sideChangesOf(plays: readonly PlayRecord[], insetYards = 0): SideChangeLine[] {
  const lines = new Map<string, string[]>();
  for (const [i, play] of plays.entries()) {
    const before = plays[i - 1];
    if (!before || before.possession !== play.possession || before.drive !== play.drive) continue;
    for (const [own, other] of [OUTSIDE_FIELDS, [...OUTSIDE_FIELDS].reverse()] as const) {
      const receiver = play.tags[own!];
      if (receiver === undefined || before.tags[other!] !== receiver) continue;
      const name = String(receiver);
      const playIds = lines.get(name);
      if (playIds) playIds.push(play.playId);
      else lines.set(name, [play.playId]);
    }
  }
  return [...lines].map(([receiver, playIds]) => ({
    receiver,
    changes: playIds.length,
    ...distanceOf(playIds.length, insetYards),
    playIds,
  }));
}
