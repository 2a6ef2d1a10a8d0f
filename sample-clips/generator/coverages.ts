import type { DefenseCall, DefenseSlot, OffenseSlot } from './calls.ts';
import { blitzersOf } from './pressures.ts';
import type { SideSign, Spot } from './space.ts';

/** What a defender does on a pass. Zones are named from the passer's left to right by `side`. */
export type Duty =
  | { readonly kind: 'rush' }
  | { readonly kind: 'man'; readonly on: OffenseSlot }
  | { readonly kind: 'hole' }
  | { readonly kind: 'flat'; readonly side: SideSign }
  | { readonly kind: 'curl-flat'; readonly side: SideSign }
  | { readonly kind: 'hook'; readonly side: SideSign | 0 }
  | { readonly kind: 'third'; readonly side: SideSign | 0 }
  | { readonly kind: 'half'; readonly side: SideSign }
  | { readonly kind: 'quarter'; readonly side: SideSign; readonly inside: boolean }
  | { readonly kind: 'post' };

export interface CoverageLook {
  readonly strength: SideSign;
  /** yards across of the ball */
  readonly ball: number;
  readonly defenders: ReadonlyMap<DefenseSlot, Spot>;
  readonly eligible: ReadonlyMap<OffenseSlot, Spot>;
}

const corner = (side: SideSign): DefenseSlot => (side === 1 ? 'CR' : 'CL');

/** Everybody's duty for the call. The line always rushes; who else does, the pressure says. */
export function dutiesOf(call: DefenseCall, look: CoverageLook): Map<DefenseSlot, Duty> {
  const duties = new Map<DefenseSlot, Duty>();
  const blitzers = blitzersOf(call.pressure, call.coverage);
  for (const slot of ['DEL', 'DTL', 'DTR', 'DER', ...blitzers] as const) duties.set(slot, { kind: 'rush' });
  if (call.coverage === 'Cover 0' || call.coverage === 'Cover 1') manDuties(call, look, duties);
  else zoneDuties(call, look, duties);
  return duties;
}

function zoneDuties(call: DefenseCall, look: CoverageLook, duties: Map<DefenseSlot, Duty>): void {
  const s = look.strength;
  const w = (s === 1 ? -1 : 1) as SideSign;
  const give = (slot: DefenseSlot, duty: Duty) => {
    if (!duties.has(slot)) duties.set(slot, duty);
  };
  switch (call.coverage) {
    case 'Cover 2':
      give('CL', { kind: 'flat', side: -1 });
      give('CR', { kind: 'flat', side: 1 });
      give('FS', { kind: 'half', side: s });
      give('SS', { kind: 'half', side: w });
      give('M', { kind: 'hook', side: 0 });
      give('N', { kind: 'hook', side: s });
      give('W', { kind: 'hook', side: w });
      return;
    case 'Cover 4':
      give('CL', { kind: 'quarter', side: -1, inside: false });
      give('CR', { kind: 'quarter', side: 1, inside: false });
      give('FS', { kind: 'quarter', side: s, inside: true });
      give('SS', { kind: 'quarter', side: w, inside: true });
      give('N', { kind: 'curl-flat', side: s });
      give('W', { kind: 'curl-flat', side: w });
      give('M', { kind: 'hook', side: 0 });
      return;
    default:
      threeDeep(call, s, w, give, duties);
  }
}

/**
 * Three deep. The strong safety stands to the weak side, away from the nickel, and the coverage rotates to him, unless
 * the nickel blitzes: then the free safety comes down in the nickel's place.
 * Sky: the safety that comes down is the curl-flat (and force) man. Buzz: he comes down inside, as the hook man, and
 * the linebacker goes out to curl-flat. Cloud: the corner is the flat (and force) man, the safety takes the deep third.
 */
function threeDeep(
  call: DefenseCall,
  s: SideSign,
  w: SideSign,
  give: (slot: DefenseSlot, duty: Duty) => void,
  duties: ReadonlyMap<DefenseSlot, Duty>,
): void {
  const nickelComes = duties.has('N');
  const mikeComes = duties.has('M');
  const willComes = duties.has('W');
  const down: DefenseSlot = nickelComes ? 'FS' : 'SS';
  const deep: DefenseSlot = nickelComes ? 'SS' : 'FS';
  const to = nickelComes ? s : w;
  const away = (to === 1 ? -1 : 1) as SideSign;
  if (call.coverage === 'Cover 3 cloud') {
    give(corner(to), { kind: 'flat', side: to });
    give(down, { kind: 'third', side: to });
  } else if (call.coverage === 'Cover 3 buzz') {
    give(corner(to), { kind: 'third', side: to });
    give(down, { kind: 'hook', side: willComes || mikeComes ? 0 : to });
  } else {
    give(corner(to), { kind: 'third', side: to });
    give(down, { kind: 'curl-flat', side: to });
  }
  give(deep, { kind: 'third', side: 0 });
  give(corner(away), { kind: 'third', side: away });
  give('N', { kind: 'curl-flat', side: s });
  if (call.coverage === 'Cover 3 buzz') {
    give('W', { kind: 'curl-flat', side: w });
    give('M', { kind: 'hook', side: nickelComes ? 0 : s });
    return;
  }
  if (nickelComes) {
    give('W', { kind: 'curl-flat', side: w });
    give('M', { kind: 'hook', side: 0 });
    return;
  }
  give('W', { kind: 'hook', side: mikeComes ? 0 : w });
  give('M', { kind: 'hook', side: willComes ? 0 : s });
}

/** Man: corners on the outside men, the rest matched to the nearest, the middle safety free unless it is zero. */
function manDuties(call: DefenseCall, look: CoverageLook, duties: Map<DefenseSlot, Duty>): void {
  const free: DefenseSlot | null = call.coverage === 'Cover 0' ? null : duties.has('N') ? 'SS' : 'FS';
  if (free) duties.set(free, { kind: 'post' });
  const left = [...look.eligible].sort((a, b) => a[1].across - b[1].across);
  const first = left.shift();
  const last = left.pop();
  if (first) duties.set('CL', { kind: 'man', on: first[0] });
  if (last) duties.set('CR', { kind: 'man', on: last[0] });
  // Receivers are matched from the outside in, backs last: a linebacker is left for the back.
  const back = (at: Spot) => (at.downfield < -3 ? 1 : 0);
  const wideFirst = left.sort(
    (a, b) =>
      back(a[1]) - back(b[1]) || Math.abs(b[1].across - look.ball) - Math.abs(a[1].across - look.ball),
  );
  const order: readonly DefenseSlot[] = ['N', 'SS', 'FS', 'W', 'M'];
  for (const [slot, at] of wideFirst) {
    const open = order.filter((d) => !duties.has(d));
    const best = open
      .map((d) => ({
        d,
        far: Math.abs(look.defenders.get(d)!.across - at.across) + (d === 'M' || d === 'W' ? 2.5 : 0),
      }))
      .sort((a, b) => (at.downfield < -3 ? rank(b.d) - rank(a.d) || a.far - b.far : a.far - b.far))[0];
    if (best) duties.set(best.d, { kind: 'man', on: slot });
  }
  for (const slot of order) if (!duties.has(slot)) duties.set(slot, { kind: 'hole' });
}

/** Linebackers are preferred for backs. */
function rank(slot: DefenseSlot): number {
  return slot === 'M' || slot === 'W' ? 1 : 0;
}
