import { alignDefense } from './alignment.ts';
import { type DefenseSlot, isRun, LINE_SLOTS, type OffenseSlot, type ScrimmageCall } from './calls.ts';
import { castDefense, castOffense } from './casting.ts';
import { dutiesOf } from './coverages.ts';
import type { PlayPlace } from './field.ts';
import { type Lineup, lineUp } from './formations.ts';
import { playPass } from './passing.ts';
import type { Person, Slot } from './people.ts';
import { type Random, seeded } from './random.ts';
import { otherTeam, type TeamName } from './rosters.ts';
import { playRun } from './running.ts';
import { LEAD_TICKS, type PlaySimulation } from './simulation.ts';
import { gapBetween, mix, type SideSign, type Spot, spot } from './space.ts';
import { type Shot, shoot, type World } from './world.ts';

export interface Situation {
  readonly place: PlayPlace;
  readonly ballAcross: number;
  readonly offense: TeamName;
  readonly seed: number;
}

/** Everything that is fixed when the ball is snapped. */
export interface Snap {
  readonly call: ScrimmageCall;
  readonly situation: Situation;
  readonly world: World;
  readonly random: Random;
  readonly lineup: Lineup;
  readonly defense: ReadonlyMap<DefenseSlot, Spot>;
  readonly duties: ReturnType<typeof dutiesOf>;
  readonly eligible: ReadonlyMap<OffenseSlot, Spot>;
  readonly shots: Shot[];
}

/** Lines both teams up, films the seconds before the snap, and plays the down. */
export function playDown(call: ScrimmageCall, situation: Situation): PlaySimulation {
  const snap = readyToSnap(call, situation);
  return isRun(call.offense.concept) ? playRun(snap) : playPass(snap);
}

function readyToSnap(call: ScrimmageCall, situation: Situation): Snap {
  const { ballAcross } = situation;
  if (call.defense.pressure === 'field' && fieldSideOf(ballAcross) !== call.offense.strength)
    throw new RangeError('a field pressure comes from the wide side, and the nickel stands to the strength');
  const random = seeded(situation.seed);
  const lineup = lineUp(call.offense, ballAcross);
  const defense = alignDefense(call.defense, lineup.spots, call.offense.strength, ballAcross);
  const eligible = new Map(
    [...lineup.spots].filter(([slot]) => slot !== 'QB' && !(LINE_SLOTS as readonly string[]).includes(slot)),
  );
  const duties = dutiesOf(call.defense, {
    strength: call.offense.strength,
    ball: ballAcross,
    defenders: defense,
    eligible,
  });
  const backup = random() < 0.3;
  const people = new Map<Slot, Person>();
  for (const p of castOffense(situation.offense, lineup, backup)) people.set(p.slot, p);
  for (const p of castDefense(otherTeam(situation.offense), defense, call.offense.personnel))
    people.set(p.slot, p);
  const world: World = {
    tick: 0,
    people,
    minds: new Map(),
    rails: new Map(),
    blocks: new Map(),
    ball: { kind: 'spotted', at: spot(ballAcross, 0) },
    carrier: null,
  };
  const snap: Snap = { call, situation, world, random, lineup, defense, duties, eligible, shots: [] };
  filmBeforeSnap(snap);
  return snap;
}

export function fieldSideOf(ballAcross: number): SideSign | 0 {
  return Math.abs(ballAcross) < 2 ? 0 : ballAcross > 0 ? -1 : 1;
}

/** The man in motion and whoever goes with him; everybody else is still. */
function filmBeforeSnap(snap: Snap): void {
  const { world, lineup, duties } = snap;
  for (const person of world.people.values()) {
    const down = /^(LT|LG|C|RG|RT|DEL|DTL|DTR|DER)$/.test(person.slot);
    if (down) person.posture = 'set';
  }
  const home = new Map([...world.people.values()].map((p) => [p.slot, p.at]));
  for (let tick = -LEAD_TICKS; tick < 0; tick++) {
    world.tick = tick;
    if (lineup.motion) {
      const man = world.people.get(lineup.motion.slot)!;
      const end = home.get(man.slot)!;
      const at = motionSpot(lineup.motion, end, tick, snap.call.offense.motion === 'jet');
      moveTo(man, at);
      for (const [slot, duty] of duties) {
        const defender = world.people.get(slot)!;
        const share = duty.kind === 'man' && duty.on === man.slot ? 0.85 : 0;
        if (share === 0) continue;
        const base = home.get(slot)!;
        moveTo(defender, spot(base.across + (at.across - end.across) * share, base.downfield));
      }
    }
    snap.shots.push(shoot(world));
  }
  world.tick = 0;
  for (const person of world.people.values()) {
    if (snap.call.offense.motion === 'jet' && person.slot === lineup.motion?.slot) continue;
    person.at = home.get(person.slot)!;
    person.velocity = spot(0, 0);
    person.facing = person.side === 'offense' ? 0 : Math.PI;
  }
  if (lineup.motion) world.people.get(lineup.motion.slot)!.at = home.get(lineup.motion.slot)!;
}

function moveTo(person: Person, at: Spot): void {
  person.velocity = spot((at.across - person.at.across) * 30, (at.downfield - person.at.downfield) * 30);
  const moving = Math.hypot(person.velocity.across, person.velocity.downfield) > 0.5;
  if (moving && person.side === 'offense')
    person.facing = Math.atan2(person.velocity.across, person.velocity.downfield);
  else person.facing = person.side === 'offense' ? 0 : Math.PI;
  person.at = at;
}

function motionSpot(motion: NonNullable<Lineup['motion']>, end: Spot, tick: number, jet: boolean): Spot {
  const stop = jet ? 0 : -12;
  const path = motion.via ? [motion.from, motion.via, end] : [motion.from, end];
  const length = path.slice(1).reduce((sum, at, i) => sum + gapBetween(path[i]!, at), 0);
  const ticks = Math.min(LEAD_TICKS + stop - 8, (length / (jet ? 6.5 : 4.6)) * 30);
  const share = Math.min(1, Math.max(0, 1 - (stop - tick) / ticks));
  let left = share * length;
  for (let i = 1; i < path.length; i++) {
    const leg = gapBetween(path[i - 1]!, path[i]!);
    if (left <= leg) return mix(path[i - 1]!, path[i]!, leg > 0 ? left / leg : 0);
    left -= leg;
  }
  return end;
}
