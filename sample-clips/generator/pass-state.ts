import type { OffenseSlot } from './calls.ts';
import type { Slot } from './people.ts';
import type { Route } from './routes.ts';
import type { Snap } from './scrimmage.ts';
import type { Outcome, Read } from './simulation.ts';
import type { Down } from './tackling.ts';
import type { Throw } from './throwing.ts';
import type { World } from './world.ts';

/** What is known of a pass play as it goes on. */
export interface PassState {
  readonly snap: Snap;
  readonly routes: ReadonlyMap<OffenseSlot, Route>;
  /** ticks after the snap at which the passer is set to throw */
  readonly setTick: number;
  read: Read | null;
  plan: Throw | null;
  release: number | null;
  caught: number | null;
  contact: number | null;
  whistle: number | null;
  outcome: Outcome | null;
  watch: ((world: World) => Down | null) | null;
  readonly crossed: Set<Slot>;
}
