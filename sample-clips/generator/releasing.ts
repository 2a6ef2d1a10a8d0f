import { carrying } from './carrying.ts';
import { HALF_WIDTH_YARDS } from './field.ts';
import { pursue } from './minds.ts';
import type { PassState } from './pass-state.ts';
import type { Slot } from './people.ts';
import { gapBetween, mix, type Spot, spot, towards } from './space.ts';
import { tackleWatch } from './tackling.ts';
import { flightTicks, type Throw } from './throwing.ts';
import { personAt } from './world.ts';

const RELEASE_HEIGHT_YARDS = 2.2;
const CATCH_HEIGHT_YARDS = 1.4;

export function release(state: PassState, plan: Throw): void {
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
      // A deep man drives through the catch; one underneath arrives under control.
      const stop = deep ? 0.2 : 0.5;
      const to = towards(aim, person.at, Math.min(stop, gapBetween(aim, person.at)));
      return { kind: 'run', to, speed: person.topSpeed * 0.86, face: aim };
    });
  }
}

export function throwAway(state: PassState): void {
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

/** Out of the pocket around the weak edge, still a passer to those who cover; from there on he runs. */
export function scramble(state: PassState): void {
  const { world, call, situation } = state.snap;
  const side = call.offense.strength === 1 ? -1 : 1;
  const passer = personAt(world, 'QB');
  if ((passer.at.across - situation.ballAcross) * side > 5) {
    world.carrier = 'QB';
    world.minds.set('QB', carrying(1));
    state.watch = tackleWatch(situation.place.yardsToGoal, call.fortune.brokenTackles ?? 0, 1);
    return;
  }
  const edge = spot(situation.ballAcross + side * 8, -4.5);
  world.minds.set('QB', (_, me) => ({ kind: 'run', to: edge, speed: me.topSpeed }));
}
