import { isRun, LINE_SLOTS, type OffenseSlot, type RouteName } from './calls.ts';
import { distribute } from './concepts.ts';
import { receiversBySide } from './formations.ts';
import { coverMan, coverZone, onRails, passSet, rush } from './minds.ts';
import { rushLane } from './pressures.ts';
import { type ProtectionPlan, protect } from './protections.ts';
import { between } from './random.ts';
import { type Route, routeOf } from './routes.ts';
import type { Snap } from './scrimmage.ts';
import { type SideSign, spot } from './space.ts';
import { type Mind, personAt, TICKS_PER_SECOND } from './world.ts';

const QUICK = new Set(['stick', 'snag']);
/** ticks that a shotgun snap is in the air */
export const SNAP_TICKS = 10;

export interface PassSetup {
  readonly protection: ProtectionPlan;
  readonly routes: ReadonlyMap<OffenseSlot, Route>;
  readonly setTick: number;
}

/** Gives everybody his part in a pass play and snaps the ball. */
export function setUpPass(snap: Snap): PassSetup {
  const routesWanted = wantedRoutes(snap);
  const protection = setProtection(snap, routesWanted);
  const routes = setRoutes(snap, routesWanted, protection);
  setCoverage(snap);
  const setTick = setPasser(snap);
  for (const person of snap.world.people.values()) person.posture = 'up';
  return { protection, routes, setTick };
}

function wantedRoutes(snap: Snap): Map<OffenseSlot, RouteName> {
  const { call, lineup, situation } = snap;
  const concept = call.offense.concept;
  if (isRun(concept)) throw new RangeError(`${concept} is a run`);
  const { left, right } = receiversBySide(lineup.spots, situation.ballAcross);
  const strong = call.offense.strength === 1 ? right : left;
  const weak = call.offense.strength === 1 ? left : right;
  const back = snap.eligible.has('F') && !left.includes('F') && !right.includes('F') ? 'F' : null;
  return distribute(concept, strong, weak, back);
}

function setProtection(snap: Snap, routes: Map<OffenseSlot, RouteName>): ProtectionPlan {
  const { call, world, lineup, defense, duties, situation, random } = snap;
  const { strength } = call.offense;
  const name = call.offense.protection ?? 'half slide';
  const rushers = [...duties].filter(([, duty]) => duty.kind === 'rush').map(([slot]) => slot);
  const lanes = new Map(
    rushers.map((slot) => [
      slot,
      rushLane(slot, call.defense.pressure, defense.get(slot)!, situation.ballAcross, strength),
    ]),
  );
  const helpers = (name === 'max' ? (['F', 'B', 'Y', 'U'] as const) : (['F', 'B'] as const)).filter(
    (slot) =>
      lineup.spots.has(slot) && lineup.spots.get(slot)!.downfield < (slot === 'F' || slot === 'B' ? -3 : 0),
  );
  const plan = protect({
    protection: name,
    strength,
    offense: lineup.spots,
    rushers: new Map([...lanes].map(([slot, lane]) => [slot, lane.across])),
    helpers,
  });
  for (const slot of rushers) world.minds.set(slot, rush(lanes.get(slot)!, 'QB'));
  const extra = (call.fortune.blocksHold ?? 0) * TICKS_PER_SECOND;
  const crowded = rushers.length > 5 ? -0.5 : 0;
  // A sack is one block lost: the first rusher from the edge is through when the passer is still looking.
  const beaten = call.fortune.hold === 'sack' ? [...plan.jobs].at(random() < 0.5 ? 0 : -1)?.[0] : undefined;
  for (const [blocker, rusher] of plan.jobs) {
    const usual = between(random, 3, 4.4) + crowded;
    const seconds = blocker === beaten ? 1.7 : usual;
    world.blocks.set(blocker, {
      on: rusher,
      style: 'pass',
      turn: 0,
      shedTick: Math.round(seconds * TICKS_PER_SECOND + extra),
    });
    if (!(LINE_SLOTS as readonly string[]).includes(blocker)) routes.delete(blocker);
  }
  for (const slot of LINE_SLOTS) {
    const from = lineup.spots.get(slot)!;
    const tackle = slot === 'LT' || slot === 'RT';
    const slide = plan.sliders.includes(slot) ? plan.slide * 0.8 : 0;
    world.minds.set(slot, passSet(spot(from.across + slide, tackle ? -3 : -2.2), 'QB'));
  }
  for (const slot of helpers) {
    const job = plan.jobs.get(slot);
    if (!job) continue;
    const lane = lanes.get(job)!;
    world.minds.set(
      slot,
      passSet(
        spot(lane.across * 0.6 + situation.ballAcross * 0.4, slot === 'F' || slot === 'B' ? -3.6 : -1.8),
        'QB',
      ),
    );
  }
  return plan;
}

function setRoutes(
  snap: Snap,
  wanted: ReadonlyMap<OffenseSlot, RouteName>,
  protection: ProtectionPlan,
): Map<OffenseSlot, Route> {
  const { call, world, lineup, situation, duties } = snap;
  const ball = situation.ballAcross;
  const { strength } = call.offense;
  const man = [...duties.values()].some((duty) => duty.kind === 'man');
  const routes = new Map<OffenseSlot, Route>();
  const { left, right } = receiversBySide(lineup.spots, ball);
  const third = (strength === 1 ? right : left)[2];
  for (const [slot, name] of wanted) {
    if (protection.jobs.has(slot)) continue;
    const from = personAt(world, slot).at;
    let side = (Math.abs(from.across - ball) < 3 ? strength : from.across < ball ? -1 : 1) as SideSign;
    // The third vertical of trips bends across to the far seam.
    if (call.offense.concept === 'four verticals' && slot === third) side = (side === 1 ? -1 : 1) as SideSign;
    const route = routeOf(name, { from, side, ball, man, over: from.across * strength > ball * strength });
    routes.set(slot, route);
    world.rails.set(slot, {
      path: route.path,
      topSpeed: personAt(world, slot).topSpeed * 0.94,
      stops: route.settles,
      s: 0,
      v: 0,
    });
    world.minds.set(slot, after(name === 'check-down' ? 18 : 3, onRails));
  }
  for (const slot of snap.eligible.keys()) {
    if (routes.has(slot) || world.minds.has(slot)) continue;
    const from = personAt(world, slot).at;
    world.minds.set(slot, passSet(spot(from.across, Math.min(from.downfield, -2)), 'QB'));
  }
  return routes;
}

/** Stands until a tick, then does the other thing. */
export function after(tick: number, then: Mind): Mind {
  return (world, me) => (world.tick < tick ? { kind: 'stand' } : then(world, me));
}

function setCoverage(snap: Snap): void {
  const { call, world, duties, eligible, situation, random } = snap;
  for (const [slot, duty] of duties) {
    if (duty.kind === 'rush') continue;
    if (duty.kind === 'man') {
      world.minds.set(
        slot,
        after(2, coverMan(duty.on, Math.round(between(random, 6, 10)), slot.startsWith('C') ? 0.6 : 0.2)),
      );
      continue;
    }
    const zone = coverZone({
      duty,
      from: personAt(world, slot).at,
      ball: situation.ballAcross,
      flats: call.defense.flats ?? 'sink',
      eligible: [...eligible.keys()],
      passer: 'QB',
    });
    world.minds.set(slot, after(3, zone));
  }
}

/** The passer's drop, from the gun or from under center; gives the tick at which he can throw. */
function setPasser(snap: Snap): number {
  const { call, world, lineup, situation } = snap;
  const ball = situation.ballAcross;
  const passer = personAt(world, 'QB');
  const quick = QUICK.has(call.offense.concept);
  const deep = lineup.underCenter ? (quick ? -4.6 : -7.2) : passer.at.downfield - (quick ? 1.3 : 2.4);
  const flight = lineup.underCenter ? 1 : SNAP_TICKS;
  world.ball = {
    kind: 'flight',
    from: spot(ball, -0.2),
    to: spot(passer.at.across, passer.at.downfield + 0.3),
    fromHeight: 0.3,
    toHeight: 1.2,
    startTick: 0,
    endTick: flight,
  };
  world.minds.set(
    'QB',
    after(lineup.underCenter ? 1 : flight - 3, () => ({
      kind: 'run',
      to: spot(ball, deep),
      speed: 4.6,
      face: spot(ball, 12),
    })),
  );
  const yards = passer.at.downfield - deep;
  return flight + Math.round((yards / 4) * TICKS_PER_SECOND) + 6;
}
