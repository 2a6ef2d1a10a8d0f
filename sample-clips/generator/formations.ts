import { LINE_SLOTS, type OffenseCall, type OffenseSlot, type Personnel } from './calls.ts';
import { clamp, type SideSign, type Spot, spot } from './space.ts';

/** yards from the ball to each lineman: splits of a yard and a half, common practice, no source */
export const LINE_ACROSS = { LT: -3, LG: -1.5, C: 0, RG: 1.5, RT: 3 } as const;
const LINE_DEPTH = { LT: -0.9, LG: -0.6, C: -0.4, RG: -0.6, RT: -0.9 } as const;
const TIGHT_END_ACROSS = 4.6;

/** The five eligible receivers and backs that each personnel group puts on the field, and what they are on the roster. */
const GROUPS: Readonly<Record<Personnel, Partial<Record<OffenseSlot, string>>>> = {
  '10': { X: 'WR', Z: 'WR', H: 'WR', Y: 'WR', F: 'RB' },
  '11': { X: 'WR', Z: 'WR', H: 'WR', Y: 'TE', F: 'RB' },
  '12': { X: 'WR', Z: 'WR', Y: 'TE', U: 'TE', F: 'RB' },
  '20': { X: 'WR', Z: 'WR', H: 'WR', B: 'FB', F: 'RB' },
  '21': { X: 'WR', Z: 'WR', Y: 'TE', B: 'FB', F: 'RB' },
};

export interface Lineup {
  readonly spots: ReadonlyMap<OffenseSlot, Spot>;
  /** roster positions by slot */
  readonly positions: ReadonlyMap<OffenseSlot, string>;
  readonly underCenter: boolean;
  /** where the man in motion starts, and who he is */
  readonly motion: { readonly slot: OffenseSlot; readonly from: Spot; readonly via?: Spot } | null;
}

/** A wide receiver splits seventeen yards where the field has room, and stays five from the sideline. */
function wideAcross(ball: number, side: SideSign): number {
  return side * clamp(ball * side + 17, 15, 21.5);
}

function slotAcross(ball: number, side: SideSign, share: number): number {
  const tackle = ball + side * 3;
  return tackle + (wideAcross(ball, side) - tackle) * share;
}

function skillSpots(call: OffenseCall, ball: number): Map<OffenseSlot, Spot> {
  const s = call.strength;
  const w = (s === 1 ? -1 : 1) as SideSign;
  const attached = (side: SideSign, depth = -0.7) => spot(ball + side * TIGHT_END_ACROSS, depth);
  const tightEnd = call.personnel === '11' || call.personnel === '12' || call.personnel === '21';
  const places = new Map<OffenseSlot, Spot>([
    ['X', spot(wideAcross(ball, w), -0.7)],
    ['Z', spot(wideAcross(ball, s), -1.4)],
  ]);
  const gunBack = (side: SideSign) => spot(ball + side * 1.7, -5.4);
  const runSide = call.runTo ?? s;
  const backSide = (runSide === 1 ? -1 : 1) as SideSign;
  switch (call.formation) {
    case 'doubles':
      places.set('H', spot(slotAcross(ball, w, 0.5), -1.4));
      places.set('Y', tightEnd ? attached(s) : spot(slotAcross(ball, s, 0.5), -0.7));
      places.set('F', gunBack(backSide));
      break;
    case 'trips':
      places.set('H', spot(slotAcross(ball, s, 0.62), -1.4));
      places.set('Y', spot(slotAcross(ball, s, 0.28), -0.7));
      places.set('F', gunBack(backSide));
      break;
    case 'trips tight end':
      places.set('H', spot(slotAcross(ball, s, 0.55), -1.4));
      places.set('Y', attached(s));
      places.set('F', gunBack(backSide));
      break;
    case 'bunch':
      places.set('Z', spot(ball + s * 10.6, -1.6));
      places.set('Y', spot(ball + s * 9, -0.7));
      places.set('H', spot(ball + s * 7.4, -1.6));
      places.set('F', gunBack(backSide));
      break;
    case 'empty':
      places.set('H', spot(slotAcross(ball, s, 0.62), -1.4));
      places.set('Y', spot(slotAcross(ball, s, 0.28), -0.7));
      places.set('F', spot(slotAcross(ball, w, 0.45), -1.4));
      break;
    case 'singleback':
      places.set('Y', attached(s));
      places.set(
        call.personnel === '12' ? 'U' : 'H',
        call.personnel === '12' ? attached(w) : spot(slotAcross(ball, w, 0.5), -1.4),
      );
      places.set('F', spot(ball, -7));
      break;
    case 'I':
      places.set('Y', attached(s));
      places.set('B', spot(ball, -4.2));
      places.set('F', spot(ball, -7.4));
      break;
    case 'pistol':
      if (call.personnel === '20') {
        places.set('H', spot(slotAcross(ball, s, 0.5), -1.4));
        places.set('B', spot(ball + s * 2.6, -3.6));
      } else {
        places.set('H', spot(slotAcross(ball, w, 0.5), -1.4));
        places.set('Y', attached(s));
      }
      places.set('F', spot(ball, -7));
      break;
  }
  return places;
}

/** Everybody's place at the snap, with the ball at `ball` yards across, and where the man in motion comes from. */
export function lineUp(call: OffenseCall, ball: number): Lineup {
  const spots = skillSpots(call, ball);
  const positions = new Map<OffenseSlot, string>([['QB', 'QB']]);
  for (const slot of LINE_SLOTS) {
    spots.set(slot, spot(ball + LINE_ACROSS[slot], LINE_DEPTH[slot]));
    positions.set(slot, slot);
  }
  for (const [slot, position] of Object.entries(GROUPS[call.personnel])) {
    positions.set(slot as OffenseSlot, position);
    if (!spots.has(slot as OffenseSlot)) throw new RangeError(`${call.formation} has no place for ${slot}`);
  }
  const underCenter = call.formation === 'singleback' || call.formation === 'I';
  spots.set('QB', spot(ball, underCenter ? -1.1 : call.formation === 'pistol' ? -4.2 : -5));
  return { spots, positions, underCenter, motion: motionOf(call, spots, ball) };
}

function motionOf(call: OffenseCall, spots: Map<OffenseSlot, Spot>, ball: number): Lineup['motion'] {
  const slot: OffenseSlot = spots.has('H') ? 'H' : 'Z';
  const end = spots.get(slot);
  if (!end || !call.motion || call.motion === 'none') return null;
  const side = (end.across < ball ? -1 : 1) as SideSign;
  switch (call.motion) {
    case 'jet':
      spots.set(slot, spot(ball + side * 3.4, -2.6));
      return { slot, from: end };
    case 'across':
      return { slot, from: spot(ball - side * 6.5, -1.6), via: spot(ball, -2.2) };
    case 'short':
      return { slot, from: spot(end.across + side * 4.5, end.downfield) };
    case 'return':
      return { slot, from: end, via: spot(end.across - side * 3, end.downfield - 0.4) };
  }
}

/** Receivers outside the tackles on each side, outermost first. Backs behind the line do not count. */
export function receiversBySide(
  spots: Iterable<readonly [OffenseSlot, Spot]>,
  ball: number,
): { readonly left: OffenseSlot[]; readonly right: OffenseSlot[] } {
  const wide = [...spots].filter(
    ([slot, at]) =>
      !(LINE_SLOTS as readonly string[]).includes(slot) &&
      slot !== 'QB' &&
      Math.abs(at.across - ball) > 3.2 &&
      at.downfield > -3,
  );
  const side = (sign: SideSign) =>
    wide
      .filter(([, at]) => (at.across - ball) * sign > 0)
      .sort((a, b) => (b[1].across - a[1].across) * sign)
      .map(([slot]) => slot);
  return { left: side(-1), right: side(1) };
}
