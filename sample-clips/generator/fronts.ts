import type { DefenseSlot, Front } from './calls.ts';
import { type SideSign, type Spot, spot } from './space.ts';

/** Yards from the ball of each technique, by the gap numbering that coaches use. Common practice, no source. */
const TECHNIQUE_ACROSS = {
  '0': 0,
  '1': 0.7,
  '2i': 1.1,
  '3': 2.2,
  '4i': 2.6,
  '5': 3.7,
  '7': 4.2,
  '9': 5.6,
} as const;
type Technique = keyof typeof TECHNIQUE_ACROSS;

/** Techniques from weak end to strong end. */
const FRONTS: Readonly<Record<Front, readonly [Technique, Technique, Technique, Technique]>> = {
  over: ['5', '1', '3', '9'],
  under: ['5', '3', '1', '9'],
  even: ['5', '2i', '2i', '5'],
  odd: ['9', '4i', '0', '4i'],
  bear: ['9', '3', '0', '3'],
};

/** Where the four men on the line stand. In odd and bear fronts the weak end is a stand-up rusher. */
export function lineOfDefense(
  front: Front,
  strength: SideSign,
  ball: number,
  attached: { readonly strong: boolean; readonly weak: boolean },
): Map<DefenseSlot, Spot> {
  const weak = (strength === 1 ? -1 : 1) as SideSign;
  const techniques = FRONTS[front];
  const sides: readonly SideSign[] = [weak, weak, strength, strength];
  const line = techniques.map((technique, i) => {
    const wide = i === 3 && technique === '9' && !attached.strong ? TECHNIQUE_ACROSS['5'] + 0.4 : null;
    const end = i === 0 && technique === '5' && attached.weak ? TECHNIQUE_ACROSS['9'] : null;
    return spot(ball + sides[i]! * (wide ?? end ?? TECHNIQUE_ACROSS[technique]), 0.9);
  });
  line.sort((a, b) => a.across - b.across);
  const slots: readonly DefenseSlot[] = ['DEL', 'DTL', 'DTR', 'DER'];
  return new Map(slots.map((slot, i) => [slot, line[i]!]));
}
