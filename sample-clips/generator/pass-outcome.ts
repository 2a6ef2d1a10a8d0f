import { FIELD } from './field.ts';
import type { PassState } from './pass-state.ts';
import type { Outcome } from './simulation.ts';
import { type Spot, spot } from './space.ts';
import type { Down } from './tackling.ts';
import { ballAt, personAt } from './world.ts';

export function finish(
  state: PassState,
  result: string,
  airAt: Spot | null,
  deadAt: Spot,
  whistle?: number,
): void {
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

export function end(state: PassState, down: Down): void {
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
      interceptedBy: carrier.slot,
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
