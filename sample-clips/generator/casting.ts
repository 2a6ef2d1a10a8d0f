import type { DefenseSlot, OffenseSlot, Personnel } from './calls.ts';
import type { Lineup } from './formations.ts';
import { type Person, topSpeedOf } from './people.ts';
import { playerAt, type RosterPlayer, type TeamName } from './rosters.ts';
import type { Spot } from './space.ts';

const RECEIVER_ORDER: readonly OffenseSlot[] = ['X', 'Z', 'H', 'Y'];
const TIGHT_END_ORDER: readonly OffenseSlot[] = ['Y', 'U'];

/** Puts roster players into the slots of a lineup. `backup` puts the second back in. */
export function castOffense(team: TeamName, lineup: Lineup, backup: boolean): Person[] {
  return [...lineup.spots].map(([slot, at]) => {
    const position = lineup.positions.get(slot)!;
    let nth = 0;
    if (position === 'WR') nth = RECEIVER_ORDER.indexOf(slot);
    if (position === 'TE') nth = TIGHT_END_ORDER.indexOf(slot);
    if (position === 'RB') nth = backup ? 1 : 0;
    return person(slot, 'offense', playerAt(team, position, nth), at, 0);
  });
}

/** The nickel is a corner by trade against three receivers or more, the Sam linebacker against fewer. */
export function castDefense(
  team: TeamName,
  spots: ReadonlyMap<DefenseSlot, Spot>,
  personnel: Personnel,
): Person[] {
  const base = personnel === '12' || personnel === '21';
  const who: Readonly<Record<DefenseSlot, readonly [string, number]>> = {
    DEL: ['DE', 0],
    DTL: ['DT', 0],
    DTR: ['DT', 1],
    DER: ['DE', 1],
    M: ['LB', 0],
    W: ['LB', 1],
    N: base ? ['LB', 2] : ['NB', 0],
    CL: ['CB', 0],
    CR: ['CB', 1],
    SS: ['SS', 0],
    FS: ['FS', 0],
  };
  return [...spots].map(([slot, at]) => person(slot, 'defense', playerAt(team, ...who[slot]), at, Math.PI));
}

export function person(
  slot: Person['slot'],
  side: Person['side'],
  player: RosterPlayer,
  at: Spot,
  facing: number,
): Person {
  return {
    slot,
    side,
    team: player.team,
    number: player.number,
    position: player.position,
    topSpeed: topSpeedOf(player.position),
    at,
    velocity: { across: 0, downfield: 0 },
    facing,
    posture: 'up',
    stumble: 0,
  };
}
