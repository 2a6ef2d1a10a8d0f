import type { KickKind } from './calls.ts';
import type { Slot } from './people.ts';
import { type Spot, spot } from './space.ts';

type Who = readonly [position: string, nth: number];
type Placed = readonly [slot: Slot, who: Who, at: Spot];

export interface KickFormation {
  readonly kicking: readonly Placed[];
  readonly receiving: readonly Placed[];
  readonly returner: Slot;
  readonly holder: Slot | null;
  readonly gunners: readonly Slot[];
}

const COVER_TEAM: readonly Who[] = [
  ['CB', 0],
  ['WR', 4],
  ['LB', 2],
  ['SS', 0],
  ['LB', 0],
  ['LB', 1],
  ['RB', 1],
  ['NB', 0],
  ['WR', 3],
  ['CB', 1],
];
const RETURN_TEAM: readonly Who[] = [
  ['LB', 0],
  ['TE', 1],
  ['LB', 2],
  ['DE', 1],
  ['LB', 1],
  ['SS', 0],
  ['TE', 0],
  ['FB', 0],
  ['NB', 0],
  ['WR', 3],
];
const PUNT_LINE: readonly Who[] = [
  ['TE', 0],
  ['LT', 0],
  ['LG', 0],
  ['LS', 0],
  ['RG', 0],
  ['RT', 0],
  ['TE', 1],
];
const FRONT_TEAM: readonly Who[] = [
  ['DE', 0],
  ['DT', 0],
  ['LB', 0],
  ['LB', 1],
  ['DT', 1],
  ['DE', 1],
];

function placed(letter: 'K' | 'R', first: number, list: readonly Who[], at: (i: number) => Spot): Placed[] {
  return list.map((who, i) => [`${letter}${first + i}` as Slot, who, at(i)]);
}

/** Where the twenty-two stand for a kick. K1 kicks. */
export function runKickFormation(kick: KickKind, ball: number, yardsToGoal: number): KickFormation {
  switch (kick) {
    case 'kickoff':
      return kickoff(ball);
    case 'punt':
      return punt(ball, yardsToGoal);
    default:
      return placeKick(ball);
  }
}

function kickoff(ball: number): KickFormation {
  const lanes = [-22.5, -17.5, -12.5, -7.5, -3.2, 3.2, 7.5, 12.5, 17.5, 22.5];
  const kicking: Placed[] = [
    ['K1', ['K', 0], spot(ball - 0.4, -0.5)],
    ...placed('K', 2, COVER_TEAM, (i) => spot(lanes[i]!, -1)),
  ];
  const front = placed('R', 1, RETURN_TEAM.slice(0, 5), (i) => spot((i - 2) * 9, 12));
  const second = placed('R', 6, RETURN_TEAM.slice(5, 9), (i) => spot((i - 1.5) * 10, 27));
  const deep: Placed[] = [
    ['R10', RETURN_TEAM[9]!, spot(8, 58)],
    ['R11', ['WR', 2], spot(-3, 62)],
  ];
  return { kicking, receiving: [...front, ...second, ...deep], returner: 'R11', holder: null, gunners: [] };
}

function punt(ball: number, yardsToGoal: number): KickFormation {
  const line = placed('K', 2, PUNT_LINE, (i) => spot(ball + (i - 3) * 1.5, -0.5 - Math.abs(i - 3) * 0.1));
  const kicking: Placed[] = [
    ['K1', ['P', 0], spot(ball, -13.5)],
    ...line,
    ['K9', ['FB', 0], spot(ball + 1, -5.5)],
    ['K10', ['WR', 3], spot(Math.max(-21, ball - 17), -0.5)],
    ['K11', ['WR', 4], spot(Math.min(21, ball + 17), -0.5)],
  ];
  const front = placed('R', 1, FRONT_TEAM, (i) => spot(ball + (i - 2.5) * 1.7, 1));
  const receiving: Placed[] = [
    ...front,
    ['R7', ['LB', 2], spot(ball, 5)],
    ['R8', ['CB', 0], spot(Math.max(-21, ball - 17), 2)],
    ['R9', ['CB', 1], spot(Math.min(21, ball + 17), 2)],
    ['R10', ['SS', 0], spot(ball - 4, 9)],
    ['R11', ['WR', 2], spot(0, Math.min(42, yardsToGoal - 10))],
  ];
  return { kicking, receiving, returner: 'R11', holder: null, gunners: ['K10', 'K11'] };
}

function placeKick(ball: number): KickFormation {
  const line = placed('K', 2, PUNT_LINE, (i) => spot(ball + (i - 3) * 1.15, -0.4 - Math.abs(i - 3) * 0.08));
  const kicking: Placed[] = [
    ['K1', ['K', 0], spot(ball - 2, -9.6)],
    ...line,
    ['K9', ['FB', 0], spot(ball - 4.6, -1.2)],
    ['K10', ['DE', 0], spot(ball + 4.6, -1.2)],
    ['K11', ['P', 0], spot(ball + 0.5, -7)],
  ];
  const receiving: Placed[] = [
    ...placed('R', 1, FRONT_TEAM, (i) => spot(ball + (i - 2.5) * 1.3, 1)),
    ['R7', ['LB', 2], spot(ball - 5.2, 1)],
    ['R8', ['SS', 0], spot(ball + 5.2, 1)],
    ['R9', ['FS', 0], spot(ball, 4.5)],
    ['R10', ['CB', 0], spot(ball - 7, 3)],
    ['R11', ['CB', 1], spot(ball + 7, 3)],
  ];
  return { kicking, receiving, returner: 'R9', holder: 'K11', gunners: [] };
}
