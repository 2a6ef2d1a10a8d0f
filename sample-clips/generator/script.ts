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

/** Formations are called to the wide or the short side of the field; which hand that is, the ball's place decides. */
export type Strength = 'field' | 'boundary';
/** Runs are called to the formation's strength or away from it. */
export type RunSide = 'strong' | 'weak';

/** What both staffs call, before the ball's place is known. */
export interface ScriptCall extends Pick<ScrimmageCall, 'defense' | 'fortune'> {
  readonly offense: Omit<ScrimmageCall['offense'], 'strength' | 'runTo'>;
  readonly strength: Strength;
  readonly runSide?: RunSide;
}

/** One line of the game's script. Situations are not in it: they follow from the plays. */
export interface ScriptLine {
  readonly call: ScriptCall | KickCall;
  /** the quarter that begins with this play */
  readonly quarter?: number;
}

type Look = readonly [Front, Coverage, Pressure];
type Extras = Pick<DefenseCall, 'flats' | 'shell'> & { readonly motion?: Motion } & Fortune;

function line(
  offense: ScriptCall['offense'],
  strength: Strength,
  [front, coverage, pressure]: Look,
  { flats, shell, motion, ...fortune }: Extras,
  runSide?: RunSide,
): ScriptLine {
  return {
    call: {
      offense: { ...offense, ...(motion ? { motion } : {}) },
      strength,
      ...(runSide ? { runSide } : {}),
      defense: { front, coverage, pressure, ...(flats ? { flats } : {}), ...(shell ? { shell } : {}) },
      fortune,
    },
  };
}

/** A pass: concept, personnel, formation, strength, protection, then the defense's look. */
export function pass(
  concept: PassConcept,
  [personnel, formation, strength, protection]: readonly [Personnel, Formation, Strength, Protection],
  look: Look,
  extras: Extras = {},
): ScriptLine {
  return line({ personnel, formation, concept, protection }, strength, look, extras);
}

/** A run: concept, personnel, formation, strength, the side it is run to, then the defense's look. */
export function run(
  concept: RunConcept,
  [personnel, formation, strength, side]: readonly [Personnel, Formation, Strength, RunSide],
  look: Look,
  extras: Extras = {},
): ScriptLine {
  return line({ personnel, formation, concept }, strength, look, extras, side);
}

export function kick(kind: KickCall['kick'], outcome: KickCall['outcome'], kickYards?: number): ScriptLine {
  return { call: { kick: kind, outcome, ...(kickYards === undefined ? {} : { kickYards }) } };
}

export function inQuarter(quarter: number, first: ScriptLine): ScriptLine {
  return { ...first, quarter };
}

/** The call as it is run with the ball there. In the middle of the field, the right side counts as the wide one. */
export function callAt(script: ScriptCall, ballAcross: number): ScrimmageCall {
  const field: SideSign = ballAcross > 0.5 ? -1 : 1;
  const strength = (script.strength === 'field' ? field : -field) as SideSign;
  const runTo = (script.runSide === 'weak' ? -strength : strength) as SideSign;
  return {
    offense: { ...script.offense, strength, ...(script.runSide ? { runTo } : {}) },
    defense: script.defense,
    fortune: script.fortune,
  };
}

export const SCRIPT: () => readonly ScriptLine[] = () => [...FIRST_HALF(), ...SECOND_HALF()];
