import { isRun, LINE_SLOTS } from './calls.ts';
import { carrying } from './carrying.ts';
import { coverMan, coverZone, holdGap, onRails, pursue, runBlock, rush } from './minds.ts';
import { after, SNAP_TICKS } from './pass-setup.ts';
import { rushLane } from './pressures.ts';
import { between } from './random.ts';
import { planRun, type RunPlan } from './runs.ts';
import type { Snap } from './scrimmage.ts';
import { type PlaySimulation, TAIL_TICKS } from './simulation.ts';
import { gapBetween, spot } from './space.ts';
import { type Down, tackleWatch } from './tackling.ts';
import { type Mind, personAt, shoot, step, TICKS_PER_SECOND } from './world.ts';

const LAST_TICK = 285;

/** Runs a running play from the snap to a little after the whistle. */
export function playRun(snap: Snap): PlaySimulation {
  const { world, call, situation } = snap;
  const plan = setUpRun(snap);
  const watch = tackleWatch(situation.place.yardsToGoal, call.fortune.brokenTackles ?? 0, 1);
  let down: Down | null = null;
  let handed = false;
  snap.shots.push(shoot(world));
  while (world.tick < LAST_TICK) {
    step(world);
    const { ball } = world;
    if (ball.kind === 'flight' && world.tick >= ball.endTick) world.ball = { kind: 'held', by: 'QB' };
    const passer = personAt(world, 'QB');
    const back = personAt(world, 'F');
    if (
      !handed &&
      world.ball.kind === 'held' &&
      gapBetween(passer.at, back.at) < 1.25 &&
      gapBetween(back.at, plan.mesh) < 1.3
    ) {
      handed = true;
      world.ball = { kind: 'held', by: 'F' };
      world.carrier = 'F';
    }
    if (handed && world.rails.has('F')) {
      const rail = world.rails.get('F')!;
      const end = plan.track.at(-1)!;
      if (gapBetween(back.at, end) < 1.1 || back.at.downfield > -1.2 || rail.v === 0) {
        world.rails.delete('F');
        world.minds.set('F', carrying(1));
      }
    }
    if (!down && handed) {
      down = watch(world);
      if (down) {
        const scored = down.how === 'touchdown';
        for (const p of world.people.values())
          if (!(scored && p.slot === 'F')) world.minds.set(p.slot, () => ({ kind: 'stand' }));
      }
    }
    snap.shots.push(shoot(world));
    if (down && world.tick >= down.whistleTick + TAIL_TICKS) break;
  }
  if (!down) throw new Error(`${call.offense.concept} never ended`);
  const gain = down.how === 'touchdown' ? situation.place.yardsToGoal : Math.round(down.deadAt.downfield);
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
    moments: {
      snap: 0,
      ...(down.contactTick === null ? {} : { contact: down.contactTick }),
      whistle: down.whistleTick,
    },
    outcome: {
      result: 'rush',
      gain,
      airYards: null,
      target: null,
      carrier: 'F',
      route: null,
      touchdown: down.how === 'touchdown',
      interceptedBy: null,
      returnYards: null,
      kickYards: null,
      deadAt: down.deadAt,
      rushers: null,
    },
    assignments: {
      strength: call.offense.strength,
      duties: snap.duties,
      routes: new Map(),
      protection: null,
      run: plan,
    },
    read: null,
  };
}

function setUpRun(snap: Snap): RunPlan {
  const { world, call, lineup, defense, situation, random } = snap;
  const { concept } = call.offense;
  if (!isRun(concept)) throw new RangeError(`${concept} is a pass`);
  const ball = situation.ballAcross;
  const to = call.offense.runTo ?? call.offense.strength;
  const plan = planRun({
    concept,
    to,
    ball,
    offense: lineup.spots,
    defense,
    underCenter: lineup.underCenter,
  });
  const hole = plan.track.at(-1)!;
  const hold = call.fortune.blocksHold ?? 0;
  for (const [slot, job] of plan.jobs) {
    const line = (LINE_SLOTS as readonly string[]).includes(slot);
    const seconds =
      (job.on && /^D/.test(job.on) ? between(random, 1.9, 3) : between(random, 2.4, 3.6)) + hold;
    if (job.on)
      world.blocks.set(slot, {
        on: job.on,
        style: 'run',
        turn: job.turn,
        shedTick: Math.round(seconds * TICKS_PER_SECOND),
      });
    const block = after(line ? 1 : 3, runBlock(job.via, hole));
    world.minds.set(slot, line && concept === 'inside zone' ? zoneStep(to, block) : block);
  }
  setPasser(snap, plan);
  world.rails.set('F', {
    path: plan.track,
    topSpeed: personAt(world, 'F').topSpeed * 0.8,
    stops: false,
    s: 0,
    v: 0,
  });
  world.minds.set('F', after(Math.round(plan.waitSeconds * TICKS_PER_SECOND), onRails));
  setDefense(snap, random);
  for (const person of world.people.values()) person.posture = 'up';
  if (call.offense.motion === 'jet' && lineup.motion) {
    const man = personAt(world, lineup.motion.slot);
    const away = man.at.across < ball ? 1 : -1;
    world.minds.set(man.slot, () => ({
      kind: 'run',
      to: spot(ball + away * 16, -1),
      speed: man.topSpeed * 0.85,
    }));
    world.blocks.delete(man.slot);
  }
  return plan;
}

/** Zone blocking starts with the same step to the play side by all five. */
function zoneStep(to: number, then: Mind): Mind {
  return (world, me) => {
    if (world.tick > 8) return then(world, me);
    const next = spot(me.at.across + to * 2, me.at.downfield);
    return { kind: 'run', to: next, speed: 3, face: spot(me.at.across, 9) };
  };
}

function setPasser(snap: Snap, plan: RunPlan): void {
  const { world, lineup, situation } = snap;
  const passer = personAt(world, 'QB');
  const ball = situation.ballAcross;
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
  const meet = spot(plan.mesh.across - Math.sign(plan.mesh.across - ball) * 0.5, plan.mesh.downfield + 0.1);
  world.minds.set(
    'QB',
    after(lineup.underCenter ? 1 : flight - 2, (w) => {
      if (w.carrier === 'F')
        return {
          kind: 'run',
          to: spot(ball - Math.sign(plan.mesh.across - ball) * 3, passer.at.downfield - 0.5),
          speed: 3.5,
        };
      return { kind: 'run', to: meet, speed: 4.8, face: personAt(w, 'F').at };
    }),
  );
}

/** The front plays its gaps, the coverage starts its rotation, and each comes to the run when he has seen it. */
function setDefense(snap: Snap, random: () => number): void {
  const { world, call, duties, defense, eligible, situation } = snap;
  for (const [slot, duty] of duties) {
    const react = Math.round(
      (slot === 'M' || slot === 'W' || slot === 'N'
        ? between(random, 0.7, 0.95)
        : between(random, 1.05, 1.35)) * TICKS_PER_SECOND,
    );
    if (duty.kind === 'rush') {
      const lane = rushLane(
        slot,
        call.defense.pressure,
        defense.get(slot)!,
        situation.ballAcross,
        call.offense.strength,
      );
      const blitzer = !/^D/.test(slot);
      world.minds.set(
        slot,
        blitzer ? rush(spot(lane.across, -0.5), 'QB') : holdGap(spot(lane.across, -0.7), react + 16),
      );
      continue;
    }
    const first =
      duty.kind === 'man'
        ? coverMan(duty.on, 8, 0.4)
        : coverZone({
            duty,
            from: personAt(world, slot).at,
            ball: situation.ballAcross,
            flats: call.defense.flats ?? 'sink',
            eligible: [...eligible.keys()],
            passer: 'QB',
          });
    const backer = slot === 'M' || slot === 'W' || slot === 'N';
    const hold: Mind = (w, me) =>
      backer && duty.kind !== 'man'
        ? { kind: 'run', to: spot(me.at.across, 4), speed: 1.5, face: personAt(w, 'F').at }
        : first(w, me);
    world.minds.set(slot, (w, me) =>
      w.tick < 3 ? { kind: 'stand' } : w.tick < react || !w.carrier ? hold(w, me) : pursue(w, me),
    );
  }
}
