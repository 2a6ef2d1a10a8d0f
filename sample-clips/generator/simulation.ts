import type { DefenseSlot, OffenseSlot, RouteName } from './calls.ts';
import type { KeyAction, KeyDefender } from './concepts.ts';
import type { Duty } from './coverages.ts';
import type { PlayPlace } from './field.ts';
import type { Slot } from './people.ts';
import type { ProtectionPlan } from './protections.ts';
import type { TeamName } from './rosters.ts';
import type { Route } from './routes.ts';
import type { RunPlan } from './runs.ts';
import type { SideSign, Spot } from './space.ts';
import type { Shot } from './world.ts';

/** Ticks of the simulation at which things happen; a film's frame is the tick plus the film's lead. */
export interface MomentTicks {
  readonly snap: 0;
  readonly release?: number;
  readonly catch?: number;
  readonly contact?: number;
  readonly whistle: number;
}

export interface CastMember {
  readonly slot: Slot;
  readonly side: 'offense' | 'defense';
  readonly team: TeamName;
  readonly number: number;
  readonly position: string;
}

/** Who was told to do what: the tests hold it against where people went. */
export interface Assignments {
  readonly strength: SideSign;
  readonly duties: ReadonlyMap<DefenseSlot, Duty>;
  readonly routes: ReadonlyMap<OffenseSlot, Route>;
  readonly protection: ProtectionPlan | null;
  readonly run: RunPlan | null;
}

export interface Read {
  readonly keySlot: DefenseSlot;
  readonly keyDefender: KeyDefender;
  readonly action: KeyAction;
  readonly tick: number;
  /** route that the read rule names */
  readonly goTo: RouteName;
}

/** What the simulation saw happen. Yards are from the line of scrimmage of the snap. */
export interface Outcome {
  readonly result: string;
  readonly gain: number | null;
  readonly airYards: number | null;
  readonly target: OffenseSlot | null;
  readonly carrier: Slot | null;
  readonly route: RouteName | null;
  readonly touchdown: boolean;
  readonly interceptedBy: Slot | null;
  readonly returnYards: number | null;
  readonly kickYards: number | null;
  /** where the ball is dead, as the offense of the snap sees it */
  readonly deadAt: Spot;
  /** defenders who crossed the line of scrimmage while the passer had the ball */
  readonly rushers: number | null;
}

export interface PlaySimulation {
  readonly place: PlayPlace;
  /** yards right of the field's middle, where the ball is snapped */
  readonly ballAcross: number;
  readonly cast: readonly CastMember[];
  readonly shots: readonly Shot[];
  readonly moments: MomentTicks;
  readonly outcome: Outcome;
  readonly assignments: Assignments | null;
  readonly read: Read | null;
}

/** ticks recorded before the snap */
export const LEAD_TICKS = 75;
/** ticks recorded after the whistle */
export const TAIL_TICKS = 22;

export function shotAt(play: PlaySimulation, tick: number): Shot {
  const first = play.shots[0]!.tick;
  const shot = play.shots[Math.min(Math.max(tick - first, 0), play.shots.length - 1)];
  return shot!;
}
