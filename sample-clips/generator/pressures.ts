import type { Coverage, DefenseSlot, Pressure } from './calls.ts';
import { type SideSign, type Spot, spot } from './space.ts';

/** Who comes besides the line. Edge: the Will off the weak edge. Field: the nickel off the wide side's edge. */
export function blitzersOf(pressure: Pressure, coverage: Coverage): readonly DefenseSlot[] {
  switch (pressure) {
    case 'four-man rush':
      return [];
    case 'edge':
      return ['W'];
    case 'field':
      return ['N'];
    case 'A-gap':
      return ['M'];
    case 'zero':
      if (coverage !== 'Cover 0')
        throw new RangeError('a zero pressure leaves nobody deep: it is played with Cover 0');
      return ['M', 'W'];
  }
}

/** Where a rusher crosses the line of scrimmage: linemen through their gap, blitzers where the call sends them. */
export function rushLane(
  slot: DefenseSlot,
  pressure: Pressure,
  from: Spot,
  ball: number,
  strength: SideSign,
): Spot {
  const weak = (strength === 1 ? -1 : 1) as SideSign;
  if (slot === 'M') return spot(ball + strength * 0.75, 0);
  if (slot === 'W' && pressure === 'zero') return spot(ball + weak * 0.75, 0);
  if (slot === 'W') return spot(ball + weak * 6, 0);
  if (slot === 'N') return spot(ball + strength * 6.4, 0);
  const side = Math.sign(from.across - ball);
  const offBall = Math.abs(from.across - ball);
  const outside = offBall > 3.2 ? 0.9 : 0.2;
  return spot(from.across + side * outside, 0);
}
