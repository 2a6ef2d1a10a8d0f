import type { OffenseSlot, RouteName } from './calls.ts';
import { STANDS_FOR } from './concepts.ts';
import type { Route } from './routes.ts';
import { clamp, gapBetween, type SideSign, type Spot } from './space.ts';
import { advance, personAt, type Rail, spotOn, TICKS_PER_SECOND, type World } from './world.ts';

/** A throw that the passer means to make: leaves his hand at one tick, and meets the receiver's run at another. */
export interface Throw {
  readonly target: OffenseSlot;
  readonly route: RouteName;
  readonly releaseTick: number;
  readonly arriveTick: number;
  readonly aim: Spot;
}

/** Flight time of a pass: harder the longer it is, with arc on the deep ones. */
export function flightTicks(from: Spot, to: Spot): number {
  const yards = gapBetween(from, to);
  return Math.max(6, Math.round((yards / clamp(15 + yards * 0.22, 15, 23)) * TICKS_PER_SECOND));
}

/** Who runs what the read names, the most open first. */
export function candidates(
  world: World,
  routes: ReadonlyMap<OffenseSlot, Route>,
  wanted: RouteName,
  strength: SideSign,
): OffenseSlot[] {
  const names = STANDS_FOR[wanted] ?? [wanted];
  const open = (slot: OffenseSlot) => {
    const at = personAt(world, slot).at;
    let room = Infinity;
    for (const other of world.people.values())
      if (other.side === 'defense') room = Math.min(room, gapBetween(other.at, at));
    return room + (at.across * strength > 0 ? 1.5 : 0);
  };
  return [...routes]
    .filter(([slot, route]) => names.includes(route.name) && world.rails.has(slot))
    .map(([slot]) => slot)
    .sort((a, b) => open(b) - open(a));
}

/** The first throw that reaches the receiver after his break, worked out by running his path ahead of time. */
export function planThrow(
  world: World,
  target: OffenseSlot,
  route: Route,
  passerAt: Spot,
  earliestTick: number,
): Throw | null {
  const rail = world.rails.get(target);
  if (!rail) return null;
  const ahead: Rail = { ...rail };
  const at: Spot[] = [];
  const along: number[] = [];
  for (let k = 0; k < 120; k++) {
    at.push(spotOn(ahead.path, ahead.s));
    along.push(ahead.s);
    advance(ahead);
  }
  for (let release = earliestTick; release < world.tick + 80; release++) {
    for (let k = release - world.tick + 6; k < at.length; k++) {
      const needed = flightTicks(passerAt, at[k]!);
      if (needed > k - (release - world.tick)) continue;
      if (along[k]! < route.openFrom) break;
      return { target, route: route.name, releaseTick: release, arriveTick: world.tick + k, aim: at[k]! };
    }
  }
  return null;
}
