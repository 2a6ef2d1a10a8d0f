import type {
  Coverage,
  DefenseCall,
  Formation,
  Fortune,
  Front,
  KickCall,
  Motion,
  PassConcept,
  Personnel,
  Pressure,
  Protection,
  RunConcept,
  ScrimmageCall,
} from './calls.ts';
import { FIRST_HALF } from './script-first-half.ts';
import { SECOND_HALF } from './script-second-half.ts';
import type { SideSign } from './space.ts';

/** One line of the game's script: what both staffs call. Situations are not in it: they follow from the plays. */
export interface ScriptLine {
  readonly call: ScrimmageCall | KickCall;
  /** the quarter that begins with this play */
  readonly quarter?: number;
}

type Look = readonly [Front, Coverage, Pressure];
type DefenseExtras = Pick<DefenseCall, 'flats' | 'shell'>;
type OffenseExtras = { readonly motion?: Motion; readonly runTo?: SideSign };

/** A pass: concept, personnel, formation, strength, protection, then the defense's look. */
export function pass(
  concept: PassConcept,
  group: readonly [Personnel, Formation, SideSign, Protection],
  [front, coverage, pressure]: Look,
  extras: DefenseExtras & OffenseExtras & Fortune = {},
): ScriptLine {
  const [personnel, formation, strength, protection] = group;
  const { flats, shell, motion, ...fortune } = extras;
  return {
    call: {
      offense: { personnel, formation, strength, concept, protection, ...(motion ? { motion } : {}) },
      defense: { front, coverage, pressure, ...(flats ? { flats } : {}), ...(shell ? { shell } : {}) },
      fortune,
    },
  };
}

/** A run: concept, personnel, formation, strength, the side it is run to, then the defense's look. */
export function run(
  concept: RunConcept,
  group: readonly [Personnel, Formation, SideSign, SideSign],
  [front, coverage, pressure]: Look,
  extras: DefenseExtras & OffenseExtras & Fortune = {},
): ScriptLine {
  const [personnel, formation, strength, runTo] = group;
  const { flats, shell, motion, ...fortune } = extras;
  return {
    call: {
      offense: { personnel, formation, strength, concept, runTo, ...(motion ? { motion } : {}) },
      defense: { front, coverage, pressure, ...(flats ? { flats } : {}), ...(shell ? { shell } : {}) },
      fortune,
    },
  };
}

export function kick(kind: KickCall['kick'], outcome: KickCall['outcome'], kickYards?: number): ScriptLine {
  return { call: { kick: kind, outcome, ...(kickYards === undefined ? {} : { kickYards }) } };
}

export function inQuarter(quarter: number, line: ScriptLine): ScriptLine {
  return { ...line, quarter };
}

export const SCRIPT: () => readonly ScriptLine[] = () => [...FIRST_HALF(), ...SECOND_HALF()];
