import { FIELD, HALF_WIDTH_YARDS } from './field.ts';
import type { Person, Slot } from './people.ts';
import { gapBetween, mix, type Spot, spot } from './space.ts';
import { isEngaged, personAt, TICKS_PER_SECOND, type World } from './world.ts';

const TACKLE_REACH_YARDS = 1.15;
const FALL_TICKS = 13;

export interface Down {
  readonly deadAt: Spot;
  readonly contactTick: number | null;
  readonly whistleTick: number;
  readonly how: 'tackled' | 'out' | 'touchdown';
}

/** Watches the carrier until the ball is dead. Distances are in yards from the line of scrimmage. */
export function tackleWatch(yardsToGoal: number, brokenTackles: number, forwards: 1 | -1) {
  let breaks = brokenTackles;
  let contactTick: number | null = null;
  let fall: { from: Spot; to: Spot; start: number; tackler: Slot } | null = null;
  const goalAt = forwards === 1 ? yardsToGoal : yardsToGoal - FIELD.goalToGoalYards;

  const reached = (at: Spot) => (forwards === 1 ? at.downfield >= goalAt : at.downfield <= goalAt);

  /** Call after each step; gives the end of the play on the tick at which it ends. */
  return (world: World): Down | null => {
    if (!world.carrier) return null;
    const carrier = personAt(world, world.carrier);
    if (fall) {
      const share = (world.tick - fall.start) / FALL_TICKS;
      carrier.at = mix(fall.from, fall.to, 1 - (1 - Math.min(1, share)) ** 2);
      if (share > 0.45) {
        carrier.posture = 'down';
        personAt(world, fall.tackler).posture = 'down';
      }
      if (share < 1) return null;
      return { deadAt: fall.to, contactTick, whistleTick: world.tick, how: 'tackled' };
    }
    if (reached(carrier.at)) {
      const deadAt = spot(carrier.at.across, goalAt);
      return { deadAt, contactTick, whistleTick: world.tick, how: 'touchdown' };
    }
    if (Math.abs(carrier.at.across) >= HALF_WIDTH_YARDS - 0.2) {
      const deadAt = spot(carrier.at.across, Math.round(carrier.at.downfield));
      return { deadAt, contactTick, whistleTick: world.tick, how: 'out' };
    }
    const tackler = nearestTackler(world, carrier);
    if (!tackler) return null;
    contactTick ??= world.tick;
    if (breaks > 0) {
      breaks--;
      tackler.stumble = Math.round(0.9 * TICKS_PER_SECOND);
      carrier.velocity = spot(carrier.velocity.across * 0.6, carrier.velocity.downfield * 0.6);
      return null;
    }
    fall = {
      from: carrier.at,
      to: restingSpot(carrier, goalAt, forwards),
      start: world.tick,
      tackler: tackler.slot,
    };
    world.minds.set(carrier.slot, () => ({ kind: 'rail', at: carrier.at }));
    world.minds.set(tackler.slot, () => ({ kind: 'run', to: carrier.at, speed: 3 }));
    return null;
  };
}

function nearestTackler(world: World, carrier: Person): Person | null {
  for (const other of world.people.values()) {
    if (other.side === carrier.side || other.stumble > 0 || other.posture === 'down') continue;
    const reach = isEngaged(world, other) ? 0.7 : TACKLE_REACH_YARDS;
    if (gapBetween(other.at, carrier.at) < reach) return other;
  }
  return null;
}

/** He falls the way he was going, and comes to rest on a yard stripe; never a goal line's width from scoring. */
function restingSpot(carrier: Person, goalAt: number, forwards: 1 | -1): Spot {
  const slide = Math.hypot(carrier.velocity.across, carrier.velocity.downfield) * 0.16;
  const along = carrier.at.downfield + carrier.velocity.downfield * 0.16;
  let rest = Math.round(along + forwards * 0.15);
  if (forwards === 1 && rest >= goalAt) rest = Math.ceil(goalAt) - 1;
  if (forwards === -1 && rest <= goalAt) rest = Math.floor(goalAt) + 1;
  const across = carrier.at.across + (slide > 0 ? carrier.velocity.across * 0.14 : 0);
  return spot(Math.max(-HALF_WIDTH_YARDS + 0.5, Math.min(HALF_WIDTH_YARDS - 0.5, across)), rest);
}
