import type { SideSign } from './space.ts';

export type OffenseSlot = 'QB' | 'LT' | 'LG' | 'C' | 'RG' | 'RT' | 'X' | 'Z' | 'H' | 'Y' | 'U' | 'F' | 'B';
/** The defense by slots: linemen from the offense's left to right, Mike and Will, the nickel or Sam, and the secondary. */
export type DefenseSlot = 'DEL' | 'DTL' | 'DTR' | 'DER' | 'M' | 'W' | 'N' | 'CL' | 'CR' | 'SS' | 'FS';

export const LINE_SLOTS = ['LT', 'LG', 'C', 'RG', 'RT'] as const;

export type PassConcept = 'stick' | 'smash' | 'mesh' | 'four verticals' | 'snag' | 'curl-flat';
export type RunConcept = 'inside zone' | 'power' | 'counter';
export type Personnel = '10' | '11' | '12' | '20' | '21';
export type Formation =
  | 'doubles'
  | 'trips'
  | 'trips tight end'
  | 'bunch'
  | 'empty'
  | 'singleback'
  | 'I'
  | 'pistol';
export type Motion = 'none' | 'jet' | 'across' | 'short' | 'return';
export type Protection = 'half slide' | 'full slide' | 'man' | 'big on big' | 'max' | 'quick';
export type Front = 'over' | 'under' | 'even' | 'odd' | 'bear';
export type Coverage =
  | 'Cover 0'
  | 'Cover 1'
  | 'Cover 2'
  | 'Cover 3 sky'
  | 'Cover 3 buzz'
  | 'Cover 3 cloud'
  | 'Cover 4';
export type Pressure = 'four-man rush' | 'edge' | 'field' | 'A-gap' | 'zero';
export type RouteName =
  | 'stick'
  | 'flat'
  | 'arrow'
  | 'swing'
  | 'fade'
  | 'hitch'
  | 'corner'
  | 'shallow'
  | 'in'
  | 'go'
  | 'seam'
  | 'snag'
  | 'curl'
  | 'post'
  | 'slant'
  | 'check-down';

/** What the offense called. `strength` is the side of the formation's passing strength. */
export interface OffenseCall {
  readonly personnel: Personnel;
  readonly formation: Formation;
  readonly strength: SideSign;
  readonly motion?: Motion;
  readonly concept: PassConcept | RunConcept;
  readonly protection?: Protection;
  /** side a run is called to; the strength where it is left out */
  readonly runTo?: SideSign;
}

export interface DefenseCall {
  readonly front: Front;
  readonly coverage: Coverage;
  readonly pressure: Pressure;
  /** what the curl-flat defenders are taught to do this week with a flat in front of them */
  readonly flats?: 'expand' | 'sink';
  /** one high safety shown before the snap, or two */
  readonly shell?: 'one-high' | 'two-high';
}

/** What the staff cannot call: how well the people do it. Everything else comes out of the simulation. */
export interface Fortune {
  /** route thrown to although the read says otherwise */
  readonly throwTo?: RouteName;
  /** where the ball goes, off the receiver, in yards */
  readonly miss?: { readonly across: number; readonly downfield: number };
  /** the passer never sees the underneath defender: the ball goes through him */
  readonly intoCoverage?: boolean;
  /** the passer holds the ball and then does this */
  readonly hold?: 'sack' | 'scramble' | 'throwaway';
  /** tackles that the carrier breaks */
  readonly brokenTackles?: number;
  /** seconds that blocks are held, added to the usual */
  readonly blocksHold?: number;
}

export type KickKind = 'kickoff' | 'punt' | 'fieldGoal' | 'try';

export interface KickCall {
  readonly kick: KickKind;
  /** yards the ball flies; where it lands decides what follows */
  readonly kickYards?: number;
  readonly outcome?: 'returned' | 'touchback' | 'fairCatch' | 'good' | 'missed';
}

export interface ScrimmageCall {
  readonly offense: OffenseCall;
  readonly defense: DefenseCall;
  readonly fortune: Fortune;
}

const RUNS: readonly string[] = ['inside zone', 'power', 'counter'];

export function isRun(concept: PassConcept | RunConcept): concept is RunConcept {
  return RUNS.includes(concept);
}
