import type { KickCall } from './calls.ts';
import { carrying } from './carrying.ts';
import { person } from './casting.ts';
import { FIELD } from './field.ts';
import { runKickFormation } from './kick-formations.ts';
import { pursue, runBlock } from './minds.ts';
import type { Person, Slot } from './people.ts';
import { between, seeded } from './random.ts';
import { otherTeam, playerAt } from './rosters.ts';
import type { Situation } from './scrimmage.ts';
import { LEAD_TICKS, type MomentTicks, type Outcome, type PlaySimulation, TAIL_TICKS } from './simulation.ts';
import { gapBetween, type Spot, spot } from './space.ts';
import { type Down, tackleWatch } from './tackling.ts';
import { personAt, type Shot, shoot, step, TICKS_PER_SECOND, type World } from './world.ts';

/** ticks after the snap (or the start, on a kickoff) at which foot meets ball */
const KICK_TICK = { kickoff: 0, punt: 60, fieldGoal: 40, try: 40 } as const;
const HANG_SECONDS = { kickoff: 3.7, punt: 4, fieldGoal: 0, try: 0 } as const;
const PLACE_KICK_SPEED = 24;

/**
 * A kick from the snap (on a kickoff: from the kick) to a little after the whistle. The kicking team is the offense of
 * the play; the other side's return runs the other way.
 */
export function playKick(call: KickCall, situation: Situation): PlaySimulation {
  const { ballAcross, place } = situation;
  const random = seeded(situation.seed);
  const formation = runKickFormation(call.kick, ballAcross, place.yardsToGoal);
  const people = new Map<Slot, Person>();
  const add = (slot: Slot, side: Person['side'], who: readonly [string, number], at: Spot) => {
    const team = side === 'offense' ? situation.offense : otherTeam(situation.offense);
    people.set(slot, person(slot, side, playerAt(team, ...who), at, side === 'offense' ? 0 : Math.PI));
  };
  for (const [slot, who, at] of formation.kicking) add(slot, 'offense', who, at);
  for (const [slot, who, at] of formation.receiving) add(slot, 'defense', who, at);
  const world: World = {
    tick: 0,
    people,
    minds: new Map(),
    rails: new Map(),
    blocks: new Map(),
    ball: { kind: 'spotted', at: spot(ballAcross, call.kick === 'kickoff' ? 0 : -0.2) },
    carrier: null,
  };
  const shots: Shot[] = [];
  filmBefore(world, call, shots);
  const flight = planFlight(call, situation, random);
  const kickTick = KICK_TICK[call.kick];
  const landing = kickTick + flight.ticks;
  setMinds(world, call, formation, flight.to, random);
  const watch = tackleWatch(place.yardsToGoal, 0, -1);
  let moments: MomentTicks | null = null;
  let down: Down | null = null;
  let outcome: Outcome | null = null;
  shots.push(shoot(world));
  while (world.tick < 400) {
    snapAndKick(world, call, formation, flight, kickTick);
    step(world);
    if (!outcome && world.tick === landing) {
      if (call.kick === 'fieldGoal' || call.kick === 'try') {
        outcome = blank(call, {
          deadAt: flight.to,
          kickYards: call.kick === 'fieldGoal' ? place.yardsToGoal + 17 : null,
        });
        moments = { snap: 0, whistle: world.tick };
      } else {
        caught(world, formation.returner);
        if (call.outcome !== 'returned') {
          const inEndZone = call.outcome === 'touchback';
          outcome = blank(call, {
            deadAt: flight.to,
            kickYards: inEndZone ? place.yardsToGoal : Math.round(flight.to.downfield),
            returnYards: null,
          });
          const pause = inEndZone ? 18 : 4;
          moments = { snap: 0, catch: landing, whistle: landing + pause };
          world.minds.set(formation.returner, () => ({ kind: 'stand' }));
          world.carrier = null;
        }
      }
    }
    if (outcome && call.outcome === 'touchback' && world.tick === landing + 10)
      personAt(world, formation.returner).posture = 'set';
    if (!outcome && world.carrier) {
      down = watch(world);
      if (down) {
        const kickYards = Math.round(flight.to.downfield);
        outcome = blank(call, {
          deadAt: down.deadAt,
          kickYards,
          returnYards: kickYards - Math.round(down.deadAt.downfield),
          carrier: formation.returner,
        });
        moments = {
          snap: 0,
          catch: landing,
          ...(down.contactTick === null ? {} : { contact: down.contactTick }),
          whistle: down.whistleTick,
        };
      }
    }
    if (moments && world.tick === moments.whistle)
      for (const p of people.values()) world.minds.set(p.slot, () => ({ kind: 'stand' }));
    shots.push(shoot(world));
    if (moments && world.tick >= moments.whistle + TAIL_TICKS) break;
  }
  if (!outcome || !moments) throw new Error(`a ${call.kick} never ended`);
  const cast = [...people.values()].map(({ slot, side, team, number, position }) => ({
    slot,
    side,
    team,
    number,
    position,
  }));
  return { place, ballAcross, cast, shots, moments, outcome, assignments: null, read: null };
}

interface Flight {
  readonly from: Spot;
  readonly to: Spot;
  readonly ticks: number;
  readonly fromHeight: number;
  readonly toHeight: number;
}

function planFlight(call: KickCall, situation: Situation, random: () => number): Flight {
  const { ballAcross, place } = situation;
  if (call.kick === 'fieldGoal' || call.kick === 'try') {
    const from = spot(ballAcross, -7);
    const goal = place.yardsToGoal + FIELD.endZoneYards;
    const aim = call.outcome === 'missed' ? FIELD.goalWidthYards / 2 + 2 : between(random, -1.6, 1.6);
    // The ball is followed a little past the posts; on the line from the kick it crosses between or beside them.
    const share = (goal + 4 + 7) / (goal + 7);
    const to = spot(ballAcross + (aim - ballAcross) * share, goal + 4);
    const yards = gapBetween(from, to);
    return {
      from,
      to,
      ticks: Math.round((yards / PLACE_KICK_SPEED) * TICKS_PER_SECOND),
      fromHeight: 0.1,
      toHeight: 5.5,
    };
  }
  const yards = call.kickYards ?? 40;
  const from = call.kick === 'punt' ? spot(ballAcross, -11.5) : spot(ballAcross, 0);
  const to = spot(between(random, -7, 7), yards);
  return {
    from,
    to,
    ticks: Math.round(HANG_SECONDS[call.kick] * TICKS_PER_SECOND),
    fromHeight: 0.6,
    toHeight: 1.4,
  };
}

/** On a kickoff the kicker and his ten run up before the kick; everywhere else all are still. */
function filmBefore(world: World, call: KickCall, shots: Shot[]): void {
  const home = new Map([...world.people.values()].map((p) => [p.slot, p.at]));
  for (let tick = -LEAD_TICKS; tick < 0; tick++) {
    world.tick = tick;
    if (call.kick === 'kickoff') {
      for (const p of world.people.values()) {
        if (p.side !== 'offense') continue;
        const kicker = p.slot === 'K1';
        const start = kicker ? 34 : 14;
        const share = Math.max(0, (tick + start) / start) ** 1.5;
        const back = kicker ? 8 : 4;
        const at = home.get(p.slot)!;
        const next = spot(at.across - (kicker ? 2 : 0) * (1 - share), at.downfield - back * (1 - share));
        p.velocity = spot((next.across - p.at.across) * 30, (next.downfield - p.at.downfield) * 30);
        if (tick === -LEAD_TICKS) p.velocity = spot(0, 0);
        p.at = next;
      }
    }
    shots.push(shoot(world));
  }
  world.tick = 0;
  for (const p of world.people.values()) p.at = home.get(p.slot)!;
}

function setMinds(
  world: World,
  call: KickCall,
  formation: ReturnType<typeof runKickFormation>,
  landing: Spot,
  random: () => number,
): void {
  const place = call.kick === 'fieldGoal' || call.kick === 'try';
  for (const p of world.people.values()) {
    const specialist = p.slot === 'K1' || p.slot === formation.holder;
    if (p.side === 'offense') {
      if (specialist) world.minds.set(p.slot, () => ({ kind: 'stand' }));
      else if (place)
        world.minds.set(p.slot, (_, me) => ({
          kind: 'run',
          to: spot(me.at.across, me.at.downfield),
          speed: 0.4,
          face: spot(me.at.across, 9),
        }));
      else {
        const wait =
          call.kick === 'punt'
            ? formation.gunners.includes(p.slot)
              ? 3
              : Math.round(between(random, 50, 70))
            : 0;
        const lane = spot(p.at.across * 0.6 + landing.across * 0.4, landing.downfield - 6);
        world.minds.set(p.slot, (w, me) => {
          if (w.tick < wait) return { kind: 'stand' };
          if (w.carrier) return pursue(w, me);
          return { kind: 'run', to: lane, speed: me.topSpeed * 0.93 };
        });
      }
      continue;
    }
    if (p.slot === formation.returner) {
      world.minds.set(p.slot, (w, me) =>
        w.tick < KICK_TICK[call.kick] + 15
          ? { kind: 'stand', face: spot(0, 0) }
          : { kind: 'run', to: landing, speed: me.topSpeed * 0.8, face: spot(0, 0) },
      );
      continue;
    }
    if (place) {
      world.minds.set(p.slot, (w, me) => ({
        kind: 'run',
        to: spot(me.at.across * 0.97, w.tick > 4 && Math.abs(me.at.across) < 7 ? 0.5 : me.at.downfield),
        speed: 2.5,
        face: spot(0, -7),
      }));
    }
  }
  if (!place) setReturnBlocks(world, call, formation, landing, random);
}

/** Each man of the return team finds one of the coverage team to get in the way of. */
function setReturnBlocks(
  world: World,
  call: KickCall,
  formation: ReturnType<typeof runKickFormation>,
  landing: Spot,
  random: () => number,
): void {
  const cover = [...world.people.values()]
    .filter((p) => p.side === 'offense' && p.slot !== 'K1')
    .sort((a, b) => a.at.across - b.at.across);
  const block = [...world.people.values()]
    .filter((p) => p.side === 'defense' && p.slot !== formation.returner)
    .sort((a, b) => a.at.across - b.at.across);
  block.forEach((p, i) => {
    const man = cover[i % cover.length]!;
    const from = KICK_TICK[call.kick] + (call.kick === 'punt' ? 5 : Math.round(between(random, 20, 40)));
    const meetTick = from + Math.round(between(random, 60, 95));
    world.blocks.set(p.slot, { on: man.slot, style: 'pass', turn: 0, shedTick: meetTick + 45 });
    const drop = spot(
      p.at.across * 0.7 + landing.across * 0.3,
      call.kick === 'punt' ? p.at.downfield + 6 : Math.min(landing.downfield - 14, p.at.downfield + 22),
    );
    const chase = runBlock([], landing);
    world.minds.set(p.slot, (w, me) => {
      if (w.tick < from) return { kind: 'stand' };
      if (w.tick < meetTick - 30) return { kind: 'run', to: drop, speed: me.topSpeed * 0.85 };
      return chase(w, me);
    });
  });
}

function snapAndKick(
  world: World,
  call: KickCall,
  formation: ReturnType<typeof runKickFormation>,
  flight: Flight,
  kickTick: number,
): void {
  const { tick } = world;
  if (call.kick !== 'kickoff' && tick === 0) {
    const to = formation.holder ? personAt(world, formation.holder).at : personAt(world, 'K1').at;
    world.ball = {
      kind: 'flight',
      from: spot(to.across, -0.2),
      to,
      fromHeight: 0.3,
      toHeight: call.kick === 'punt' ? 1.1 : 0.5,
      startTick: 0,
      endTick: call.kick === 'punt' ? 23 : 14,
    };
  }
  const ball = world.ball;
  if (ball.kind === 'flight' && tick >= ball.endTick && tick < kickTick) {
    world.ball =
      call.kick === 'punt'
        ? { kind: 'held', by: 'K1' }
        : { kind: 'spotted', at: spot(flight.from.across, flight.from.downfield) };
  }
  if (call.kick !== 'kickoff' && tick > kickTick - 16 && tick < kickTick) {
    const to =
      call.kick === 'punt'
        ? spot(flight.from.across, flight.from.downfield - 0.3)
        : spot(flight.from.across - 0.3, flight.from.downfield - 0.4);
    world.minds.set('K1', (_, me) => ({ kind: 'run', to, speed: me.topSpeed * 0.8 }));
  }
  if (tick === kickTick) {
    world.ball = {
      kind: 'flight',
      from: flight.from,
      to: flight.to,
      fromHeight: flight.fromHeight,
      toHeight: flight.toHeight,
      startTick: tick,
      endTick: tick + flight.ticks,
    };
    world.minds.set('K1', (w, me) =>
      w.tick < kickTick + 12
        ? { kind: 'run', to: spot(me.at.across + 0.2, flight.from.downfield + 3), speed: 3 }
        : { kind: 'stand' },
    );
  }
}

function caught(world: World, returner: Slot): void {
  world.ball = { kind: 'held', by: returner };
  world.carrier = returner;
  world.rails.delete(returner);
  world.minds.set(returner, carrying(-1));
}

function blank(call: KickCall, known: Partial<Outcome> & { deadAt: Spot }): Outcome {
  return {
    result: call.outcome ?? 'returned',
    gain: null,
    airYards: null,
    target: null,
    carrier: null,
    route: null,
    touchdown: false,
    interceptedBy: null,
    returnYards: null,
    kickYards: null,
    rushers: null,
    ...known,
  };
}
