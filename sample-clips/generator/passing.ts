import { isRun, type OffenseSlot } from './calls.ts';
import { carrying } from './carrying.ts';
import { READ_SECONDS } from './concepts.ts';
import { FIELD, HALF_WIDTH_YARDS } from './field.ts';
import { pursue } from './minds.ts';
import { setUpPass } from './pass-setup.ts';
import type { Slot } from './people.ts';
import { keySlotOf, readKey } from './reading.ts';
import type { Route } from './routes.ts';
import type { Snap } from './scrimmage.ts';
import { type MomentTicks, type Outcome, type PlaySimulation, type Read, TAIL_TICKS } from './simulation.ts';
import { gapBetween, mix, type Spot, spot, towards } from './space.ts';
import { type Down, tackleWatch } from './tackling.ts';
import { candidates, flightTicks, planThrow, type Throw } from './throwing.ts';
import { ballAt, isEngaged, personAt, shoot, step, TICKS_PER_SECOND, type World } from './world.ts';

const LAST_TICK = 285;
const RELEASE_HEIGHT_YARDS = 2.2;
const CATCH_HEIGHT_YARDS = 1.4;

interface PassState {
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

/** Runs a pass play from the snap to a little after the whistle. */
export function playPass(snap: Snap): PlaySimulation {
  const { world, situation, call } = snap;
  const setup = setUpPass(snap);
  const state: PassState = {
    snap,
    routes: setup.routes,
    setTick: setup.setTick,
    read: null,
    plan: null,
    release: null,
    caught: null,
    contact: null,
    whistle: null,
    outcome: null,
    watch: null,
    crossed: new Set(),
  };
  const concept = call.offense.concept;
  if (isRun(concept)) throw new RangeError(`${concept} is a run`);
  const look = { concept, strength: call.offense.strength, duties: snap.duties, routes: setup.routes };
  const keySlot = keySlotOf(look);
  const keyFrom = personAt(world, keySlot).at;
  const readTick = Math.round(READ_SECONDS[concept] * TICKS_PER_SECOND);
  snap.shots.push(shoot(world));
  while (world.tick < LAST_TICK) {
    if (world.tick === readTick) {
      state.read = readKey(world, look, keySlot, keyFrom);
      if (!call.fortune.hold) state.plan = choose(state, state.read);
    }
    if (state.whistle === null) act(state);
    step(world);
    if (state.whistle === null) judge(state);
    snap.shots.push(shoot(world));
    if (state.whistle !== null && world.tick >= state.whistle + TAIL_TICKS) break;
  }
  if (state.whistle === null || !state.outcome) throw new Error(`a ${concept} pass never ended`);
  return {
    place: situation.place,
    ballAcross: situation.ballAcross,
    cast: [...world.people.values()].map(({ slot, side, team, number, position }) => ({
      slot,
      side,
      team,
      number,
      position,
    })),
    shots: snap.shots,
    moments: momentsOf(state, state.whistle),
    outcome: { ...state.outcome, rushers: state.crossed.size },
    assignments: {
      strength: call.offense.strength,
      duties: snap.duties,
      routes: setup.routes,
      protection: setup.protection,
      run: null,
    },
    read: state.read,
  };
}

function momentsOf(state: PassState, whistle: number): MomentTicks {
  return {
    snap: 0,
    ...(state.release === null ? {} : { release: state.release }),
    ...(state.caught === null ? {} : { catch: state.caught }),
    ...(state.contact === null ? {} : { contact: state.contact }),
    whistle,
  };
}

function choose(state: PassState, read: Read): Throw | null {
  const { world, call } = state.snap;
  const passer = personAt(world, 'QB').at;
  const earliest = Math.max(world.tick + 4, state.setTick);
  const wanted = [call.fortune.throwTo ?? read.goTo, 'check-down', 'flat', 'hitch'] as const;
  for (const route of wanted) {
    for (const slot of candidates(world, state.routes, route, call.offense.strength)) {
      const plan = planThrow(world, slot, state.routes.get(slot)!, passer, earliest);
      if (plan) return plan;
    }
  }
  return null;
}

/** What the passer does this tick, if it is his. */
function act(state: PassState): void {
  const { world, call, situation } = state.snap;
  if (world.ball.kind !== 'held' || world.ball.by !== 'QB' || world.carrier) return;
  if (state.plan && world.tick === state.plan.releaseTick) {
    release(state, state.plan);
    return;
  }
  const { hold } = call.fortune;
  if (hold === 'scramble' && world.tick === 72) {
    world.carrier = 'QB';
    world.minds.set('QB', carrying(1));
    state.watch = tackleWatch(situation.place.yardsToGoal, call.fortune.brokenTackles ?? 0, 1);
  }
  if (hold === 'throwaway' && world.tick === 76) throwAway(state);
}

function release(state: PassState, plan: Throw): void {
  const { world, call } = state.snap;
  const from = personAt(world, 'QB').at;
  const { miss, intoCoverage } = call.fortune;
  state.release = world.tick;
  let aim = plan.aim;
  let arriveTick = plan.arriveTick;
  let toHeight = CATCH_HEIGHT_YARDS;
  if (miss) {
    aim = spot(aim.across + miss.across, aim.downfield + miss.downfield);
    toHeight = 0.15;
    arriveTick += 3;
  }
  if (intoCoverage) {
    const robber = robberOf(state, from, plan.aim);
    aim = robber.aim;
    arriveTick = world.tick + flightTicks(from, aim) + 3;
    world.minds.set(robber.slot, (_, me) => ({
      kind: 'run',
      to: robber.aim,
      speed: me.topSpeed,
      face: from,
    }));
  }
  state.plan = { ...plan, arriveTick };
  world.ball = {
    kind: 'flight',
    from,
    to: aim,
    fromHeight: RELEASE_HEIGHT_YARDS,
    toHeight,
    startTick: world.tick,
    endTick: arriveTick,
  };
  breakOnBall(state, aim, arriveTick);
}

/** The zone defender nearest to the throw's line, and the place where he steps into it. */
function robberOf(state: PassState, from: Spot, to: Spot): { slot: Slot; aim: Spot } {
  const { world, duties } = state.snap;
  let best: { slot: Slot; aim: Spot; far: number } | null = null;
  for (const [slot, duty] of duties) {
    if (duty.kind === 'rush') continue;
    const at = personAt(world, slot).at;
    for (let share = 0.55; share <= 1; share += 0.05) {
      const aim = mix(from, to, share);
      const far = gapBetween(at, aim);
      if (!best || far < best.far) best = { slot, aim, far };
    }
  }
  return { slot: best!.slot, aim: best!.aim };
}

/** Everybody who can get there closes on the ball, after the time it takes to see it. */
function breakOnBall(state: PassState, aim: Spot, arriveTick: number): void {
  const { world, duties } = state.snap;
  const seen = world.tick + 8;
  for (const [slot, duty] of duties) {
    const me = personAt(world, slot);
    const before = world.minds.get(slot)!;
    if (duty.kind === 'rush') continue;
    if (duty.kind === 'man' && duty.on !== state.plan?.target && gapBetween(me.at, aim) > 8) continue;
    if (gapBetween(me.at, aim) > 18) continue;
    const deep =
      duty.kind === 'third' || duty.kind === 'half' || duty.kind === 'post' || duty.kind === 'quarter';
    const spare = state.snap.call.fortune.intoCoverage;
    world.minds.set(slot, (w, person) => {
      if (w.carrier) return pursue(w, person);
      if (spare || w.tick < seen || w.tick > arriveTick + 30) return before(w, person);
      const stop = deep && person.at.downfield > aim.downfield ? 1 : 0.5;
      const to = towards(aim, person.at, Math.min(stop, gapBetween(aim, person.at)));
      return { kind: 'run', to, speed: person.topSpeed * 0.86, face: aim };
    });
  }
}

function throwAway(state: PassState): void {
  const { world, situation } = state.snap;
  const from = personAt(world, 'QB').at;
  const side = from.across < situation.ballAcross ? -1 : 1;
  const to = spot(side * (HALF_WIDTH_YARDS + 3), 6);
  state.release = world.tick;
  const endTick = world.tick + flightTicks(from, to) + 6;
  world.ball = {
    kind: 'flight',
    from,
    to,
    fromHeight: RELEASE_HEIGHT_YARDS,
    toHeight: 0.15,
    startTick: world.tick,
    endTick,
  };
}

/** What the officials see after this tick. */
function judge(state: PassState): void {
  const { world, snap } = { world: state.snap.world, snap: state.snap };
  const { ball } = world;
  if (ball.kind === 'flight' && state.release === null && world.tick >= ball.endTick)
    world.ball = { kind: 'held', by: 'QB' };
  if (!world.carrier) {
    for (const slot of snap.duties.keys())
      if (personAt(world, slot).at.downfield < -0.05) state.crossed.add(slot);
    if (state.release === null) sackCheck(state);
  }
  if (ball.kind === 'flight' && state.release !== null && world.tick >= ball.endTick) arrive(state);
  if (world.carrier && state.watch) {
    const down = state.watch(world);
    if (down) end(state, down);
  }
}

function sackCheck(state: PassState): void {
  const { world, situation, call } = state.snap;
  if (world.ball.kind !== 'held' || world.ball.by !== 'QB') return;
  const passer = personAt(world, 'QB');
  for (const other of world.people.values()) {
    if (other.side !== 'defense' || gapBetween(other.at, passer.at) > 0.95) continue;
    if (isEngaged(world, other) && gapBetween(other.at, passer.at) > 0.8) continue;
    if (call.fortune.hold && call.fortune.hold !== 'sack' && world.tick < 60) continue;
    world.carrier = 'QB';
    passer.velocity = spot(passer.velocity.across * 0.3, Math.min(-1, other.velocity.downfield * 0.5));
    state.watch = tackleWatch(situation.place.yardsToGoal, 0, 1);
    return;
  }
}

function arrive(state: PassState): void {
  const { world, call, situation, duties } = state.snap;
  const { ball } = world;
  if (ball.kind !== 'flight') return;
  const plan = state.plan;
  if (!plan) {
    finish(state, 'throwaway', null, ball.to);
    return;
  }
  if (call.fortune.intoCoverage) {
    const thief = [...duties.keys()]
      .map((slot) => personAt(world, slot))
      .sort((a, b) => gapBetween(a.at, ball.to) - gapBetween(b.at, ball.to))[0]!;
    if (gapBetween(thief.at, ball.to) < 1.4) {
      intercepted(state, thief.slot);
      return;
    }
  }
  const receiver = personAt(world, plan.target);
  const closest = Math.min(
    ...[...duties.keys()].map((slot) => gapBetween(personAt(world, slot).at, receiver.at)),
  );
  const reachable = gapBetween(receiver.at, ball.to) < 1 && ball.toHeight > 0.5;
  const brokenUp = closest < 0.8 && state.snap.random() < 0.5;
  if (!reachable || brokenUp) {
    const airAt = receiver.at;
    if (ball.toHeight > 0.5) {
      const on = towards(ball.to, ball.from, -1.4);
      world.ball = {
        kind: 'flight',
        from: ball.to,
        to: on,
        fromHeight: ball.toHeight,
        toHeight: 0.15,
        startTick: world.tick,
        endTick: world.tick + 10,
      };
      finish(state, 'incomplete', airAt, on, world.tick + 10);
    } else finish(state, 'incomplete', airAt, ball.to);
    return;
  }
  state.caught = world.tick;
  world.ball = { kind: 'held', by: plan.target };
  world.carrier = plan.target;
  world.minds.set(plan.target, carrying(1));
  world.rails.delete(plan.target);
  state.watch = tackleWatch(situation.place.yardsToGoal, call.fortune.brokenTackles ?? 0, 1);
}

function intercepted(state: PassState, slot: Slot): void {
  const { world, situation } = state.snap;
  state.caught = world.tick;
  world.ball = { kind: 'held', by: slot };
  world.carrier = slot;
  world.minds.set(slot, carrying(-1));
  for (const person of world.people.values())
    if (person.side === 'offense') world.minds.set(person.slot, pursue);
  state.watch = tackleWatch(situation.place.yardsToGoal, 0, -1);
}

function finish(state: PassState, result: string, airAt: Spot | null, deadAt: Spot, whistle?: number): void {
  const { world } = state.snap;
  state.whistle = whistle ?? world.tick;
  for (const person of world.people.values()) world.minds.set(person.slot, () => ({ kind: 'stand' }));
  state.outcome = {
    ...blank(state),
    result,
    gain: 0,
    airYards: airAt ? Math.round(airAt.downfield) : null,
    deadAt,
  };
}

function blank(state: PassState): Outcome {
  return {
    result: 'incomplete',
    gain: null,
    airYards: null,
    target: state.release !== null ? (state.plan?.target ?? null) : null,
    carrier: null,
    route: state.release !== null ? (state.plan?.route ?? null) : null,
    touchdown: false,
    interceptedBy: null,
    returnYards: null,
    kickYards: null,
    deadAt: spot(0, 0),
    rushers: null,
  };
}

function end(state: PassState, down: Down): void {
  const { world, situation } = state.snap;
  const carrier = personAt(world, world.carrier!);
  state.contact = down.contactTick;
  state.whistle = down.whistleTick;
  for (const person of world.people.values())
    if (person.slot !== carrier.slot || down.how === 'tackled')
      world.minds.set(person.slot, () => ({ kind: 'stand' }));
  const catchSpot = state.caught === null ? null : catchAt(state);
  const base = { ...blank(state), deadAt: down.deadAt, touchdown: down.how === 'touchdown' };
  if (carrier.side === 'defense') {
    const from = Math.round(catchSpot!.downfield);
    const stop = Math.round(down.deadAt.downfield);
    state.outcome = {
      ...base,
      result: 'interception',
      gain: 0,
      airYards: from,
      interceptedBy: carrier.slot as never,
      returnYards: from - stop,
    };
    return;
  }
  const gain = down.how === 'touchdown' ? situation.place.yardsToGoal : Math.round(down.deadAt.downfield);
  if (carrier.slot === 'QB') {
    const scramble = state.snap.call.fortune.hold === 'scramble' && gain > 0;
    state.outcome = {
      ...base,
      result: scramble ? 'scramble' : 'sack',
      gain,
      carrier: scramble ? 'QB' : null,
    };
    return;
  }
  state.outcome = {
    ...base,
    result: 'complete',
    gain,
    airYards: Math.min(
      gain === situation.place.yardsToGoal ? gain : FIELD.goalToGoalYards,
      Math.round(catchSpot!.downfield),
    ),
  };
}

function catchAt(state: PassState): Spot {
  const { shots, world } = state.snap;
  const shot = shots.find((s) => s.tick === state.caught);
  return shot ? shot.people.get(world.carrier!)!.at : ballAt(world).at;
}
