import type { Duty } from './coverages.ts';
import { HALF_WIDTH_YARDS } from './field.ts';
import type { Person, Slot } from './people.ts';
import { clamp, gapBetween, type Spot, spot, towards } from './space.ts';
import { advance, type Mind, personAt, spotOn, TICK_SECONDS, type World } from './world.ts';

/** Runs the path that the world keeps for him. */
export const onRails: Mind = (world, me) => {
  const rail = world.rails.get(me.slot);
  if (!rail) return { kind: 'stand' };
  advance(rail);
  return { kind: 'rail', at: spotOn(rail.path, rail.s) };
};

/** Sets back to a place, then stays between his man and the passer. */
export function passSet(setAt: Spot, passer: Slot): Mind {
  return (world, me) => {
    const job = world.blocks.get(me.slot);
    const man = job ? personAt(world, job.on) : null;
    const guard = personAt(world, passer).at;
    // First the set or the slide step that the protection asks for, then the man.
    if (!man || world.tick < 9 || man.at.downfield > 1.2 || gapBetween(man.at, me.at) > 4.5) {
      return { kind: 'run', to: setAt, speed: 3.2, face: man?.at ?? spot(setAt.across, 5) };
    }
    if (job && world.tick >= job.shedTick) return { kind: 'run', to: man.at, speed: 2, face: man.at };
    const between = towards(man.at, guard, 0.85);
    // He gives ground and lets the rush come: whoever sets his feet on the line has lost.
    const to = spot(between.across, Math.min(between.downfield, -1.2));
    return { kind: 'run', to, speed: me.topSpeed, face: man.at };
  };
}

/** A run blocker: his track first if he pulls, then between his man and the hole. */
export function runBlock(via: readonly Spot[], hole: Spot): Mind {
  let corner = 0;
  return (world, me) => {
    const next = via[corner];
    if (next) {
      if (gapBetween(me.at, next) < 0.7) corner++;
      return { kind: 'run', to: next, speed: me.topSpeed };
    }
    const job = world.blocks.get(me.slot);
    if (!job) return { kind: 'stand' };
    const man = personAt(world, job.on);
    if (world.tick >= job.shedTick) return { kind: 'run', to: man.at, speed: 2.5, face: man.at };
    const guard = world.carrier ? personAt(world, world.carrier).at : hole;
    const lead = spot(
      man.at.across + man.velocity.across * 0.25,
      man.at.downfield + man.velocity.downfield * 0.25,
    );
    return { kind: 'run', to: towards(lead, guard, 0.7), speed: me.topSpeed, face: man.at };
  };
}

/** Through his lane, then to the passer. */
export function rush(lane: Spot, passer: Slot): Mind {
  let through = false;
  return (world, me) => {
    if (me.at.downfield < 0.1) through = true;
    if (world.carrier) return pursue(world, me);
    const goal = personAt(world, passer).at;
    return { kind: 'run', to: through ? goal : lane, speed: me.topSpeed, face: goal };
  };
}

/** Against a run the front squeezes its gap and waits for the ball to declare itself. */
export function holdGap(lane: Spot, untilTick: number): Mind {
  return (world, me) => {
    if (
      world.carrier &&
      (world.tick >= untilTick || gapBetween(personAt(world, world.carrier).at, me.at) < 2.2)
    )
      return pursue(world, me);
    return {
      kind: 'run',
      to: spot(lane.across, lane.downfield),
      speed: 3.4,
      face: spot(lane.across * 0.5, -5),
    };
  };
}

/** Meets the carrier where both arrive together. */
export function pursue(world: World, me: Person): ReturnType<Mind> {
  if (!world.carrier) return { kind: 'stand' };
  const carrier = personAt(world, world.carrier);
  let ahead = 0;
  for (let k = 0; k < 4; k++) {
    const meet = leadOf(carrier, ahead);
    ahead = Math.min(1.6, gapBetween(me.at, meet) / me.topSpeed);
  }
  const far = gapBetween(me.at, carrier.at);
  const meet = leadOf(carrier, ahead * 0.9);
  // Close in, he gathers himself so that he can turn with the carrier.
  const closing = me.at.downfield > carrier.at.downfield + 0.5 && far < 4;
  return {
    kind: 'run',
    to: towards(me.at, meet, gapBetween(me.at, meet) + 1),
    speed: me.topSpeed * (closing ? 0.72 : 1),
  };
}

function leadOf(runner: Person, seconds: number): Spot {
  return spot(
    clamp(runner.at.across + runner.velocity.across * seconds, -HALF_WIDTH_YARDS, HALF_WIDTH_YARDS),
    runner.at.downfield + runner.velocity.downfield * seconds,
  );
}

/** Man coverage: over the top of his man until the man breaks, then a quarter of a second behind him. */
export function coverMan(on: Slot, reactTicks: number, inside: number): Mind {
  const seen: Spot[] = [];
  return (world, me) => {
    if (world.carrier) return pursue(world, me);
    const man = personAt(world, on);
    seen.push(man.at);
    const late = seen[Math.max(0, seen.length - 1 - reactTicks)]!;
    const goingDeep = man.velocity.downfield > 4;
    const cushion = goingDeep ? clamp(me.at.downfield - man.at.downfield, 0.6, 2.5) * 0.9 : 0.3;
    const leverage = inside * (man.at.across > 0 ? -1 : 1);
    const guess = spot(
      late.across + man.velocity.across * reactTicks * TICK_SECONDS * 0.55 + leverage,
      late.downfield + man.velocity.downfield * reactTicks * TICK_SECONDS * (goingDeep ? 1 : 0.55) + cushion,
    );
    // Nobody in coverage crosses the line before the ball is gone.
    const to = spot(guess.across, Math.max(1.6, guess.downfield));
    return { kind: 'run', to, speed: me.topSpeed, face: man.at };
  };
}

interface ZoneLook {
  readonly duty: Duty;
  /** where he stood at the snap */
  readonly from: Spot;
  readonly ball: number;
  readonly flats: 'expand' | 'sink';
  readonly eligible: readonly Slot[];
  readonly passer: Slot;
}

/** Zone coverage: to his landmark, then with what comes into his zone, eyes on the passer. */
export function coverZone(look: ZoneLook): Mind {
  return (world, me) => {
    if (world.carrier) return pursue(world, me);
    const eyes = personAt(world, look.passer).at;
    const receivers = look.eligible.map((slot) => personAt(world, slot));
    const to = zoneSpot(look, receivers, me);
    const deep =
      look.duty.kind === 'third' ||
      look.duty.kind === 'half' ||
      look.duty.kind === 'quarter' ||
      look.duty.kind === 'post';
    const backing = to.downfield > me.at.downfield + 0.5 && Math.abs(to.across - me.at.across) < 4;
    const hurried = receivers.some((r) => r.at.downfield > me.at.downfield - 4 && r.velocity.downfield > 5);
    const speed = deep ? (hurried ? me.topSpeed : backing ? 5.6 : 7.2) : backing ? 5.4 : 6.4;
    return { kind: 'run', to, speed, face: eyes };
  };
}

function zoneSpot(look: ZoneLook, receivers: readonly Person[], me: Person): Spot {
  const { duty, ball } = look;
  const inBand = (low: number, high: number) =>
    receivers.filter((r) => r.at.across >= low && r.at.across <= high);
  switch (duty.kind) {
    case 'post':
      return deepSpot(0, inBand(-12, 12), 14, 0.35);
    case 'third': {
      const middle = duty.side * 17.5;
      const list = duty.side === 0 ? inBand(-9, 9) : inBand(...ordered(duty.side * 8, duty.side * 27));
      return deepSpot(middle, list, duty.side === 0 ? 14.5 : 13, duty.side === 0 ? 0.4 : 0.6);
    }
    case 'half':
      return deepSpot(duty.side * 12.5, inBand(...ordered(duty.side * 1, duty.side * 27)), 15.5, 0.3);
    case 'quarter': {
      const middle = duty.side * (duty.inside ? 6.5 : 18);
      const list = inBand(
        ...ordered(duty.side * (duty.inside ? 0 : 11), duty.side * (duty.inside ? 12 : 27)),
      );
      return deepSpot(middle, list, 13, 0.6);
    }
    case 'flat': {
      const base = spot(duty.side * 19, 5.5);
      return lean(
        base,
        receivers.filter((r) => r.at.across * duty.side > 11 && r.at.downfield < 8),
        3.5,
        7,
      );
    }
    case 'curl-flat': {
      const expands = look.flats === 'expand';
      const inside = look.from.across * duty.side;
      const base = expands
        ? spot(duty.side * Math.min(inside + clamp(12 - inside, 5.5, 7), 21), 5.5)
        : spot(duty.side * Math.min(inside + clamp(10 - inside, 1.5, 4), 19), 10);
      const list = receivers.filter(
        (r) =>
          r.at.across * duty.side > 8 &&
          (expands ? r.at.downfield < 7 : r.at.downfield > 6) &&
          r.at.downfield < 14,
      );
      return lean(base, list, expands ? 3 : 2, expands ? 6 : 10.5);
    }
    case 'hook': {
      const base = duty.side === 0 ? spot(ball * 0.5, 9.5) : spot(ball * 0.4 + duty.side * 6, 9);
      const list = receivers.filter(
        (r) => Math.abs(r.at.across - base.across) < 5 && r.at.downfield > 3 && r.at.downfield < 13,
      );
      return lean(base, list, 2.2, 10);
    }
    case 'hole':
      return lean(
        spot(ball * 0.6, 8),
        receivers.filter(
          (r) => Math.abs(r.at.across - ball) < 6 && r.at.downfield > 2 && r.at.downfield < 12,
        ),
        2.5,
        9,
      );
    default:
      return me.at;
  }
}

function ordered(a: number, b: number): [number, number] {
  return a < b ? [a, b] : [b, a];
}

/** A deep man stays over the deepest threat of his zone, and leans to it. */
function deepSpot(middle: number, threats: readonly Person[], depth: number, leanShare: number): Spot {
  const upfield = threats.filter((r) => r.at.downfield > 4);
  const top = upfield.slice().sort((a, b) => b.at.downfield - a.at.downfield)[0];
  const across = top ? middle + (top.at.across - middle) * leanShare : middle;
  const over = top ? top.at.downfield + Math.max(0, top.velocity.downfield) * 0.3 + 2.5 : 0;
  return spot(across, Math.max(depth, over));
}

/** An underneath man shades to the nearest threat of his zone, no further than `reach`, no deeper than `floor`. */
function lean(base: Spot, threats: readonly Person[], reach: number, floor: number): Spot {
  const near = threats.slice().sort((a, b) => gapBetween(a.at, base) - gapBetween(b.at, base))[0];
  if (!near) return base;
  return spot(
    base.across + clamp(near.at.across - base.across, -reach, reach),
    Math.min(floor, base.downfield + clamp(near.at.downfield - base.downfield, -1.5, 1.5)),
  );
}
