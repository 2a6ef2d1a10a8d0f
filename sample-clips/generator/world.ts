import type { Person, Posture, Slot } from './people.ts';
import { clamp, gapBetween, mix, type Spot, spot, towards } from './space.ts';

export const TICKS_PER_SECOND = 30;
export const TICK_SECONDS = 1 / TICKS_PER_SECOND;
/** yards per second squared */
const GRAVITY = 9.81 / 0.9144;
const ACCELERATION = 9;

/** What one person wants this tick: to run somewhere, to be somewhere (on rails), or to stand. */
export type Step =
  | { readonly kind: 'run'; readonly to: Spot; readonly speed: number; readonly face?: Spot }
  | { readonly kind: 'rail'; readonly at: Spot }
  | { readonly kind: 'stand'; readonly face?: Spot };

export type Mind = (world: World, me: Person) => Step;

export type Ball =
  | { readonly kind: 'held'; readonly by: Slot }
  | { readonly kind: 'spotted'; readonly at: Spot }
  | {
      readonly kind: 'flight';
      readonly from: Spot;
      readonly to: Spot;
      readonly fromHeight: number;
      readonly toHeight: number;
      readonly startTick: number;
      readonly endTick: number;
    };

export interface BlockJob {
  readonly on: Slot;
  readonly style: 'pass' | 'run';
  /** side towards which a run block turns its man */
  readonly turn: number;
  /** first tick at which the defender is rid of him */
  readonly shedTick: number;
}

/** A path run at a runner's speed, slowing into its corners. `s` is yards along it, `v` yards a second. */
export interface Rail {
  readonly path: readonly Spot[];
  readonly topSpeed: number;
  readonly stops: boolean;
  s: number;
  v: number;
}

export interface World {
  tick: number;
  readonly people: Map<Slot, Person>;
  readonly minds: Map<Slot, Mind>;
  readonly rails: Map<Slot, Rail>;
  readonly blocks: Map<Slot, BlockJob>;
  ball: Ball;
  carrier: Slot | null;
}

export interface PersonShot {
  readonly at: Spot;
  readonly facing: number;
  readonly posture: Posture;
  /** yards a second */
  readonly speed: number;
}

export interface Shot {
  readonly tick: number;
  readonly people: ReadonlyMap<Slot, PersonShot>;
  readonly ball: { readonly at: Spot; readonly height: number; readonly heldBy: Slot | null };
}

export function personAt(world: World, slot: Slot): Person {
  const person = world.people.get(slot);
  if (!person) throw new RangeError(`nobody plays ${slot}`);
  return person;
}

export function isEngaged(world: World, defender: Person): boolean {
  for (const [blocker, job] of world.blocks) {
    if (job.on !== defender.slot || world.tick >= job.shedTick) continue;
    if (gapBetween(personAt(world, blocker).at, defender.at) < 1.2) return true;
  }
  return false;
}

/** One tick: everybody decides from the same picture, then everybody moves. */
export function step(world: World): void {
  const wanted = new Map<Slot, Step>();
  const held = new Set<Slot>();
  for (const person of world.people.values()) {
    const mind = world.minds.get(person.slot);
    wanted.set(person.slot, mind ? mind(world, person) : { kind: 'stand' });
    if (isEngaged(world, person)) held.add(person.slot);
  }
  for (const person of world.people.values())
    move(world, person, wanted.get(person.slot)!, held.has(person.slot));
  separate(world, wanted);
  world.tick++;
}

function move(world: World, me: Person, wanted: Step, held: boolean): void {
  if (wanted.kind === 'rail') {
    me.velocity = spot(
      (wanted.at.across - me.at.across) / TICK_SECONDS,
      (wanted.at.downfield - me.at.downfield) / TICK_SECONDS,
    );
    me.at = wanted.at;
    turn(me, null);
    return;
  }
  const want = wanted.kind === 'run' ? wanted : { to: me.at, speed: 0, face: wanted.face };
  let speed = Math.min(want.speed, me.topSpeed);
  if (me.stumble > 0) {
    me.stumble--;
    speed *= 0.25;
  }
  const distance = gapBetween(me.at, want.to);
  speed = Math.min(speed, Math.sqrt(2 * ACCELERATION * distance), distance / TICK_SECONDS);
  let goal =
    distance > 1e-6
      ? towards(spot(0, 0), spot(want.to.across - me.at.across, want.to.downfield - me.at.downfield), speed)
      : spot(0, 0);
  if (held) goal = pushed(world, me, goal);
  const change = spot(goal.across - me.velocity.across, goal.downfield - me.velocity.downfield);
  const size = Math.hypot(change.across, change.downfield);
  const limit = (held ? 20 : ACCELERATION + 2) * TICK_SECONDS;
  const share = size > limit ? limit / size : 1;
  me.velocity = spot(
    me.velocity.across + change.across * share,
    me.velocity.downfield + change.downfield * share,
  );
  me.at = spot(
    me.at.across + me.velocity.across * TICK_SECONDS,
    me.at.downfield + me.velocity.downfield * TICK_SECONDS,
  );
  turn(me, want.face ?? null);
}

/** A blocked man: on a pass he bulls forward slowly, on a run he is driven and turned. */
function pushed(world: World, me: Person, goal: Spot): Spot {
  for (const job of world.blocks.values()) {
    if (job.on !== me.slot || world.tick >= job.shedTick) continue;
    if (job.style === 'pass')
      return towards(spot(0, 0), goal, Math.min(0.95, Math.hypot(goal.across, goal.downfield)));
    return spot(job.turn * 0.8, me.at.downfield < 3 ? 0.7 : 0.3);
  }
  return goal;
}

function turn(me: Person, face: Spot | null): void {
  const speed = Math.hypot(me.velocity.across, me.velocity.downfield);
  let target = me.facing;
  if (face) target = Math.atan2(face.across - me.at.across, face.downfield - me.at.downfield);
  else if (speed > 0.8) target = Math.atan2(me.velocity.across, me.velocity.downfield);
  const difference = Math.atan2(Math.sin(target - me.facing), Math.cos(target - me.facing));
  me.facing += clamp(difference, -0.35, 0.35);
}

/** Bodies do not run through each other; people on rails have the right of way. */
function separate(world: World, wanted: ReadonlyMap<Slot, Step>): void {
  const people = [...world.people.values()];
  for (let i = 0; i < people.length; i++) {
    for (let j = i + 1; j < people.length; j++) {
      const a = people[i]!;
      const b = people[j]!;
      const distance = gapBetween(a.at, b.at);
      const room = 0.72 - distance;
      if (room <= 0 || a.posture === 'down' || b.posture === 'down') continue;
      const fixedA = wanted.get(a.slot)!.kind === 'rail' || a.slot === world.carrier;
      const fixedB = wanted.get(b.slot)!.kind === 'rail' || b.slot === world.carrier;
      if (fixedA && fixedB) continue;
      const away =
        distance > 1e-6
          ? towards(spot(0, 0), spot(b.at.across - a.at.across, b.at.downfield - a.at.downfield), room)
          : spot(room, 0);
      const shareA = fixedA ? 0 : fixedB ? 1 : 0.5;
      a.at = spot(a.at.across - away.across * shareA, a.at.downfield - away.downfield * shareA);
      b.at = spot(b.at.across + away.across * (1 - shareA), b.at.downfield + away.downfield * (1 - shareA));
    }
  }
}

export function spotOn(path: readonly Spot[], s: number): Spot {
  let left = s;
  for (let i = 1; i < path.length; i++) {
    const leg = gapBetween(path[i - 1]!, path[i]!);
    if (left <= leg && leg > 0) return mix(path[i - 1]!, path[i]!, left / leg);
    left -= leg;
  }
  return path.at(-1)!;
}

/** Moves a runner one tick along his rail: as fast as the next corner allows. */
export function advance(rail: Rail): void {
  let allowed = rail.topSpeed;
  let along = 0;
  for (let i = 1; i < rail.path.length; i++) {
    along += gapBetween(rail.path[i - 1]!, rail.path[i]!);
    if (along <= rail.s + 1e-6) continue;
    const last = i === rail.path.length - 1;
    const corner = last ? (rail.stops ? 0 : rail.topSpeed) : cornerSpeed(rail, i);
    allowed = Math.min(allowed, Math.sqrt(corner * corner + 2 * 13 * (along - rail.s)));
  }
  rail.v = Math.min(allowed, rail.v + ACCELERATION * TICK_SECONDS);
  rail.s = Math.min(along, rail.s + rail.v * TICK_SECONDS);
}

function cornerSpeed(rail: Rail, corner: number): number {
  const [before, at, after] = [rail.path[corner - 1]!, rail.path[corner]!, rail.path[corner + 1]!];
  const angle =
    Math.atan2(after.across - at.across, after.downfield - at.downfield) -
    Math.atan2(at.across - before.across, at.downfield - before.downfield);
  const bend = Math.abs(Math.atan2(Math.sin(angle), Math.cos(angle)));
  return Math.max(1.6, rail.topSpeed * Math.cos(bend / 2) ** 1.6);
}

export function ballAt(world: World, tick = world.tick): Shot['ball'] {
  const { ball } = world;
  if (ball.kind === 'spotted') return { at: ball.at, height: 0.15, heldBy: null };
  if (ball.kind === 'held') {
    const holder = personAt(world, ball.by);
    const reach = 0.3;
    const at = spot(
      holder.at.across + Math.sin(holder.facing) * reach,
      holder.at.downfield + Math.cos(holder.facing) * reach,
    );
    return { at, height: holder.posture === 'down' ? 0.3 : 1.2, heldBy: ball.by };
  }
  const total = (ball.endTick - ball.startTick) * TICK_SECONDS;
  const gone = clamp((tick - ball.startTick) * TICK_SECONDS, 0, total);
  const share = total > 0 ? gone / total : 1;
  const rise = (ball.toHeight - ball.fromHeight) / total + (GRAVITY * total) / 2;
  return {
    at: mix(ball.from, ball.to, share),
    height: ball.fromHeight + rise * gone - (GRAVITY * gone * gone) / 2,
    heldBy: null,
  };
}

export function shoot(world: World): Shot {
  const people = new Map<Slot, PersonShot>();
  for (const p of world.people.values()) {
    people.set(p.slot, {
      at: p.at,
      facing: p.facing,
      posture: p.posture,
      speed: Math.hypot(p.velocity.across, p.velocity.downfield),
    });
  }
  return { tick: world.tick, people, ball: ballAt(world) };
}
