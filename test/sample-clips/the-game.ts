import type { DefenseSlot, OffenseSlot, ScrimmageCall } from '../../sample-clips/generator/calls.ts';
import { isRun } from '../../sample-clips/generator/calls.ts';
import { sampleGame } from '../../sample-clips/generator/data.ts';
import { type GamePlay, isKick, playGame } from '../../sample-clips/generator/game.ts';
import type { Slot } from '../../sample-clips/generator/people.ts';
import { SCRIPT } from '../../sample-clips/generator/script.ts';
import { type Assignments, type PlaySimulation, shotAt } from '../../sample-clips/generator/simulation.ts';
import type { Spot } from '../../sample-clips/generator/space.ts';
import type { SamplePlay } from '../../sample-clips/sample-game.ts';

/** The sample game, simulated anew. */
export const PLAYS: readonly GamePlay[] = playGame(SCRIPT());
export const GAME = sampleGame(PLAYS);

/** A play from scrimmage: what was called, what people did, and what the tags say. */
export interface Scrimmage {
  readonly name: string;
  readonly call: ScrimmageCall;
  readonly sim: PlaySimulation;
  readonly told: Assignments;
  readonly tags: SamplePlay;
}

export const SCRIMMAGES: readonly Scrimmage[] = PLAYS.flatMap((play) => {
  if (isKick(play.call) || !play.simulation.assignments) return [];
  const { concept } = play.call.offense;
  const { coverage, pressure } = play.call.defense;
  return [
    {
      name: `play ${play.playNumber}, ${concept} against ${coverage}, ${pressure}`,
      call: play.call,
      sim: play.simulation,
      told: play.simulation.assignments,
      tags: GAME.plays[play.playNumber - 1]!,
    },
  ];
});

export const PASSES = SCRIMMAGES.filter((p) => !isRun(p.call.offense.concept));
export const RUNS = SCRIMMAGES.filter((p) => isRun(p.call.offense.concept));

export function placeOf(sim: PlaySimulation, slot: Slot, tick: number): Spot {
  const person = shotAt(sim, tick).people.get(slot);
  if (!person) throw new Error(`nobody plays ${slot}`);
  return person.at;
}

/** Where a player was on every tick from the snap to the last of the film. */
export function trackOf(sim: PlaySimulation, slot: Slot, lastTick = sim.moments.whistle): Spot[] {
  return Array.from({ length: lastTick + 1 }, (_, tick) => placeOf(sim, slot, tick));
}

export function slotWearing(sim: PlaySimulation, number: number, side: 'offense' | 'defense'): Slot {
  const member = sim.cast.find((m) => m.number === number && m.side === side);
  if (!member) throw new Error(`number ${number} is not on the field`);
  return member.slot;
}

export const distance = (a: Spot, b: Spot) => Math.hypot(a.across - b.across, a.downfield - b.downfield);

export const DEFENDERS: readonly DefenseSlot[] = [
  'DEL',
  'DTL',
  'DTR',
  'DER',
  'M',
  'W',
  'N',
  'CL',
  'CR',
  'SS',
  'FS',
];
export const LINE: readonly OffenseSlot[] = ['LT', 'LG', 'C', 'RG', 'RT'];
