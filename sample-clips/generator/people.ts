import type { DefenseSlot, OffenseSlot } from './calls.ts';
import type { TeamName } from './rosters.ts';
import type { Spot } from './space.ts';

export type Slot = OffenseSlot | DefenseSlot | KickSlot;
/** kicking plays number their people: K1 to K11 kick, R1 to R11 receive */
export type KickSlot = `K${number}` | `R${number}`;

export type Posture = 'set' | 'up' | 'down';

/** A player in the simulation. `at`, `velocity` and `facing` change from tick to tick. */
export interface Person {
  readonly slot: Slot;
  readonly side: 'offense' | 'defense';
  readonly team: TeamName;
  readonly number: number;
  readonly position: string;
  readonly topSpeed: number;
  at: Spot;
  velocity: Spot;
  /** radians, 0 is downfield and positive to the right */
  facing: number;
  posture: Posture;
  /** ticks for which he stumbles */
  stumble: number;
}

const TOP_SPEED: Readonly<Record<string, number>> = {
  QB: 7,
  RB: 8.3,
  FB: 7.2,
  WR: 8.6,
  TE: 7.5,
  LT: 5.6,
  LG: 5.8,
  C: 5.6,
  RG: 5.8,
  RT: 5.6,
  DE: 6.8,
  DT: 6,
  LB: 7.6,
  CB: 8.7,
  NB: 8.5,
  SS: 8.3,
  FS: 8.4,
  K: 6.8,
  P: 6.5,
  LS: 6.2,
};

/** yards a second flat out */
export function topSpeedOf(position: string): number {
  return TOP_SPEED[position] ?? 7;
}
