/**
 * A place on the field as the offense of the play sees it, in yards: `across` is right (+) or left (-) of the
 * field's long middle line, `downfield` is beyond (+) or behind (-) the line of scrimmage.
 */
export interface Spot {
  readonly across: number;
  readonly downfield: number;
}

/** Which way from the middle of the field: 1 is the offense's right, -1 its left. */
export type SideSign = 1 | -1;

export function spot(across: number, downfield: number): Spot {
  return { across, downfield };
}

export function gapBetween(a: Spot, b: Spot): number {
  return Math.hypot(a.across - b.across, a.downfield - b.downfield);
}

export function towards(from: Spot, to: Spot, yards: number): Spot {
  const distance = gapBetween(from, to);
  if (distance < 1e-9) return from;
  return mix(from, to, yards / distance);
}

export function mix(a: Spot, b: Spot, share: number): Spot {
  return spot(a.across + (b.across - a.across) * share, a.downfield + (b.downfield - a.downfield) * share);
}

export function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}
