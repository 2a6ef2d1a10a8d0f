import type { DefenseSlot, PassConcept, RouteName } from './calls.ts';
import { type KeyAction, type KeyDefender, keyDefenderOf, READ_RULES, STANDS_FOR } from './concepts.ts';
import type { Duty } from './coverages.ts';
import type { Route } from './routes.ts';
import type { Read } from './simulation.ts';
import type { SideSign, Spot } from './space.ts';
import { personAt, type World } from './world.ts';

interface KeyLook {
  readonly concept: PassConcept;
  readonly strength: SideSign;
  readonly duties: ReadonlyMap<DefenseSlot, Duty>;
  readonly routes: ReadonlyMap<string, Route>;
}

/** Who the passer's key is against this coverage. A nickel or Mike who blitzes is the key all the same. */
export function keySlotOf(look: KeyLook): DefenseSlot {
  const { duties, strength } = look;
  const find = (test: (duty: Duty, slot: DefenseSlot) => boolean) =>
    [...duties].find(([slot, duty]) => test(duty, slot))?.[0];
  switch (keyDefenderOf(look.concept)) {
    case 'flat defender': {
      if (duties.get('N')?.kind === 'rush') return 'N';
      const flat = [...look.routes].find(([, r]) => STANDS_FOR.flat!.includes(r.name))?.[0];
      return (
        find((d) => (d.kind === 'flat' || d.kind === 'curl-flat') && d.side === strength) ??
        find((d) => d.kind === 'man' && d.on === flat) ??
        'N'
      );
    }
    case 'corner':
      return strength === 1 ? 'CR' : 'CL';
    case 'hook defender':
      if (duties.get('M')?.kind === 'rush') return 'M';
      return (
        find((d) => d.kind === 'hook' && d.side === 0) ??
        find((d) => d.kind === 'hook' && d.side === strength) ??
        find((d) => d.kind === 'hole') ??
        'M'
      );
    case 'deep safety':
      return (
        find((d) => d.kind === 'post' || (d.kind === 'third' && d.side === 0)) ??
        find((d) => (d.kind === 'half' || (d.kind === 'quarter' && d.inside)) && d.side === strength) ??
        'FS'
      );
  }
}

/** What the key did between the snap and the read, from where he was and where he is. */
export function actionOf(key: KeyDefender, from: Spot, now: Spot, duty: Duty, side: SideSign): KeyAction {
  if (duty.kind === 'rush') return 'blitzes';
  const out = (now.across - from.across) * side;
  const back = now.downfield - from.downfield;
  if (key === 'deep safety') {
    if (duty.kind === 'quarter') return 'carries';
    return out > 1.2 ? 'widens' : back > 6 ? 'drops' : 'stays inside';
  }
  if (key === 'hook defender')
    return Math.abs(out) > Math.max(2.5, back * 0.8) ? 'expands' : back > 2.2 ? 'drops' : 'squats';
  if (out > 1.4 && out > back * 0.8) return 'expands';
  if (back > 2.2) return 'drops';
  return out < -1.4 ? 'stays inside' : 'squats';
}

export function readKey(world: World, look: KeyLook, keySlot: DefenseSlot, from: Spot): Read {
  const keyDefender = keyDefenderOf(look.concept);
  const duty = look.duties.get(keySlot)!;
  const now = personAt(world, keySlot).at;
  const side =
    keyDefender === 'hook defender' ? ((now.across < from.across ? -1 : 1) as SideSign) : look.strength;
  const action = actionOf(keyDefender, from, now, duty, side);
  const rule = READ_RULES.find((r) => r.concept === look.concept && r.when === action);
  const goTo: RouteName = rule?.goTo ?? 'check-down';
  return { keySlot, keyDefender, action, tick: world.tick, goTo };
}
