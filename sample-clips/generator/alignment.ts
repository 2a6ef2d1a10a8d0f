import type { DefenseCall, DefenseSlot, OffenseSlot } from './calls.ts';
import { receiversBySide } from './formations.ts';
import { lineOfDefense } from './fronts.ts';
import { clamp, type SideSign, type Spot, spot } from './space.ts';

/** Where the eleven stand when the ball is snapped: the front, then the second level, then the shell. */
export function alignDefense(
  call: DefenseCall,
  offense: ReadonlyMap<OffenseSlot, Spot>,
  strength: SideSign,
  ball: number,
): Map<DefenseSlot, Spot> {
  const s = strength;
  const w = (s === 1 ? -1 : 1) as SideSign;
  const { left, right } = receiversBySide(offense, ball);
  const strong = s === 1 ? right : left;
  const weak = s === 1 ? left : right;
  const at = (slot: OffenseSlot | undefined) => (slot ? offense.get(slot) : undefined);
  const attached = (slots: readonly OffenseSlot[]) =>
    slots.some((slot) => Math.abs((at(slot)?.across ?? 99) - ball) < 5.2);
  const spots = lineOfDefense(call.front, s, ball, { strong: attached(strong), weak: attached(weak) });

  const man = call.coverage === 'Cover 1' || call.coverage === 'Cover 0';
  const cornerDepth =
    { 'Cover 0': 5, 'Cover 1': 5.5, 'Cover 2': 4.5, 'Cover 4': 7.5 }[call.coverage as string] ?? 7;
  const placeCorner = (slot: DefenseSlot, side: SideSign, over: OffenseSlot | undefined) => {
    const widest = at(over)?.across ?? ball + side * 9;
    const leverage = call.coverage === 'Cover 2' ? 0.9 : man ? -0.8 : -0.4;
    spots.set(slot, spot(clamp(widest + side * leverage, -25, 25), cornerDepth));
  };
  placeCorner('CL', -1, left[0]);
  placeCorner('CR', 1, right[0]);

  const second = at(strong[1]);
  const tight = second && Math.abs(second.across - ball) < 5.2;
  spots.set(
    'N',
    second
      ? spot(second.across + s * (tight ? 1.6 : man ? -0.3 : -1), tight ? 4 : 5)
      : spot(ball + s * 5.5, 4.2),
  );
  const weakSecond = at(weak[1]);
  const walkedOut = weakSecond && Math.abs(weakSecond.across - ball) > 5.2;
  const trips = strong.length >= 3;
  spots.set('M', spot(ball + s * (trips ? 2.6 : 1.2), 4.6));
  spots.set(
    'W',
    walkedOut && !man
      ? spot(ball + (weakSecond.across - ball) * 0.62, 4.6)
      : spot(ball + w * (trips ? 1.4 : 2.8), 4.5),
  );
  // Blitzers off the edge creep to it: what is said to come must be there in time.
  if (call.pressure === 'edge') spots.set('W', spot(ball + w * 6, 3));
  if (call.pressure === 'field') spots.set('N', spot(ball + s * 7.2, 3));
  if (call.pressure === 'A-gap' || call.pressure === 'zero') spots.set('M', spot(ball + s * 0.9, 3.2));
  if (call.pressure === 'zero') spots.set('W', spot(ball + w * 0.9, 3.2));
  if (call.front === 'bear' && call.pressure === 'four-man rush') spots.set('W', spot(ball + w * 3.6, 3));

  safeties(call, spots, { s, w, ball, third: at(strong[2]), weakSecond });
  return spots;
}

interface SafetyLook {
  readonly s: SideSign;
  readonly w: SideSign;
  readonly ball: number;
  readonly third: Spot | undefined;
  readonly weakSecond: Spot | undefined;
}

function safeties(call: DefenseCall, spots: Map<DefenseSlot, Spot>, look: SafetyLook): void {
  const { s, w, ball, third, weakSecond } = look;
  const middle = ball * 0.4;
  if (call.coverage === 'Cover 0') {
    spots.set('FS', spot((third?.across ?? ball + s * 4) - s * 0.3, 6.5));
    spots.set('SS', spot(weakSecond?.across ?? ball + w * 4.5, 6.5));
    return;
  }
  if (call.coverage === 'Cover 1' && third && call.pressure !== 'field') {
    // Against trips in man, the strong safety stands over the third receiver.
    spots.set('SS', spot(third.across, call.shell === 'one-high' ? 6.5 : 11));
    spots.set(
      'FS',
      call.shell === 'one-high' ? spot(middle, 12.5) : spot(clamp(middle + w * 4, -12, 12), 12),
    );
    return;
  }
  if (call.shell === 'one-high') {
    const nickelComes = call.pressure === 'field';
    const down = nickelComes ? s : w;
    spots.set(nickelComes ? 'SS' : 'FS', spot(middle, 12.5));
    spots.set(nickelComes ? 'FS' : 'SS', spot(ball + down * 7.5, 6.5));
    return;
  }
  spots.set('FS', spot(clamp(middle + s * 7.5, -12, 12), 12));
  spots.set('SS', spot(clamp(middle + w * 7.5, -12, 12), 12));
}
