import { isRun } from './calls.ts';
import { carrying } from './carrying.ts';
import { READ_SECONDS } from './concepts.ts';
import { pursue } from './minds.ts';
import { end, finish } from './pass-outcome.ts';
import { setUpPass } from './pass-setup.ts';
import type { PassState } from './pass-state.ts';
import type { Slot } from './people.ts';
import { keySlotOf, readKey } from './reading.ts';
import { release, scramble, throwAway } from './releasing.ts';
import type { Snap } from './scrimmage.ts';
import { type MomentTicks, type PlaySimulation, type Read, TAIL_TICKS } from './simulation.ts';
import { gapBetween, spot, towards } from './space.ts';
import { tackleWatch } from './tackling.ts';
import { candidates, planThrow, type Throw } from './throwing.ts';
import { isEngaged, personAt, shoot, step, TICKS_PER_SECOND } from './world.ts';

const LAST_TICK = 285;

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
  const { world, call } = state.snap;
  if (world.ball.kind !== 'held' || world.ball.by !== 'QB' || world.carrier) return;
  if (state.plan && world.tick === state.plan.releaseTick) {
    release(state, state.plan);
    return;
  }
  const { hold } = call.fortune;
  if (hold === 'scramble' && world.tick >= 66) scramble(state);
  if (hold === 'throwaway' && world.tick === 76) throwAway(state);
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
  // Looking the ball in costs him a step.
  receiver.velocity = spot(receiver.velocity.across * 0.75, receiver.velocity.downfield * 0.75);
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
