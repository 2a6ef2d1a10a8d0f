import { type DefenseSlot, LINE_SLOTS, type OffenseSlot, type Protection } from './calls.ts';
import type { SideSign, Spot } from './space.ts';

export interface ProtectionPlan {
  /** who blocks whom; linemen without a man help the nearest */
  readonly jobs: ReadonlyMap<OffenseSlot, DefenseSlot>;
  /** the way the line slides, 0 where it sets straight back */
  readonly slide: SideSign | 0;
  /** linemen who slide */
  readonly sliders: readonly OffenseSlot[];
}

interface ProtectionLook {
  readonly protection: Protection;
  readonly strength: SideSign;
  readonly offense: ReadonlyMap<OffenseSlot, Spot>;
  /** where each rusher will cross the line, yards across */
  readonly rushers: ReadonlyMap<DefenseSlot, number>;
  /** backs and tight ends who may stay in, nearest to the passer first */
  readonly helpers: readonly OffenseSlot[];
}

/**
 * Slides turn the line towards the strength and leave the last man of the other edge to the back. Man protections put
 * the five on the linemen they face and the Mike, and the back on the Will or the nickel, whoever of them comes.
 */
export function protect(look: ProtectionLook): ProtectionPlan {
  const { protection, rushers, offense, helpers, strength } = look;
  const jobs = new Map<OffenseSlot, DefenseSlot>();
  const order = [...rushers].sort((a, b) => a[1] - b[1]);
  const sliding = protection === 'half slide' || protection === 'full slide';
  let rest = order;

  if (protection === 'max') {
    const edge = helpers.find((h) => h === 'Y' || h === 'U');
    const outer = edge && (offense.get(edge)!.across > 0 ? order.at(-1) : order[0]);
    if (edge && outer && order.length > 4) {
      jobs.set(edge, outer[0]);
      rest = rest.filter((r) => r !== outer);
    }
  }
  const back = helpers.find((h) => h === 'F' || h === 'B');
  const second = ['W', 'N'] as const;
  const backTakes = sliding
    ? rest.length > 5
      ? strength === 1
        ? rest[0]
        : rest.at(-1)
      : undefined
    : protection === 'quick'
      ? undefined
      : rest.find(([slot]) => (second as readonly string[]).includes(slot));
  if (back && backTakes) {
    jobs.set(back, backTakes[0]);
    rest = rest.filter((r) => r !== backTakes);
  }
  for (const [lineman, rusher] of inOrder(offense, rest)) jobs.set(lineman, rusher);
  const sliders: readonly OffenseSlot[] =
    protection === 'full slide'
      ? LINE_SLOTS
      : protection === 'half slide'
        ? strength === 1
          ? ['C', 'RG', 'RT']
          : ['LT', 'LG', 'C']
        : [];
  return { jobs, slide: sliding ? strength : 0, sliders };
}

/** dearer than any block that a lineman can reach */
const FREE_RUSHER_COST = 1000;

/** The cheapest matching of rushers to linemen that crosses nobody; the widest of too many is left free. */
function inOrder(
  offense: ReadonlyMap<OffenseSlot, Spot>,
  rushers: readonly (readonly [DefenseSlot, number])[],
): [OffenseSlot, DefenseSlot][] {
  let best: { cost: number; pairs: [OffenseSlot, DefenseSlot][] } = { cost: Infinity, pairs: [] };
  const choose = (lineman: number, rusher: number, cost: number, pairs: [OffenseSlot, DefenseSlot][]) => {
    if (rusher === rushers.length || lineman === LINE_SLOTS.length) {
      const total = cost + (rushers.length - rusher) * FREE_RUSHER_COST;
      if (total < best.cost) best = { cost: total, pairs };
      return;
    }
    const slot = LINE_SLOTS[lineman]!;
    const [who, across] = rushers[rusher]!;
    const off = Math.abs(offense.get(slot)!.across - across);
    choose(lineman + 1, rusher + 1, cost + off * off, [...pairs, [slot, who]]);
    choose(lineman + 1, rusher, cost, pairs);
    if (rushers.length > LINE_SLOTS.length) choose(lineman, rusher + 1, cost + FREE_RUSHER_COST, pairs);
  };
  choose(0, 0, 0, []);
  return best.pairs;
}
