import type { OffenseSlot, PassConcept, RouteName } from './calls.ts';

/** Whom the passer reads in each concept. */
export type KeyDefender = 'flat defender' | 'corner' | 'hook defender' | 'deep safety';
export type KeyAction = 'expands' | 'drops' | 'squats' | 'stays inside' | 'widens' | 'carries' | 'blitzes';

export interface ReadRule {
  readonly concept: string;
  readonly keyDefender: KeyDefender;
  readonly when: KeyAction;
  readonly goTo: RouteName;
}

function rules(
  concept: PassConcept,
  keyDefender: KeyDefender,
  reads: Partial<Record<KeyAction, RouteName>>,
): ReadRule[] {
  return Object.entries(reads).map(([when, goTo]) => ({
    concept,
    keyDefender,
    when: when as KeyAction,
    goTo,
  }));
}

/** The sample playbook's read rules. Common practice, no source. */
export const READ_RULES: readonly ReadRule[] = [
  ...rules('stick', 'flat defender', {
    expands: 'stick',
    drops: 'flat',
    squats: 'flat',
    'stays inside': 'flat',
    blitzes: 'stick',
  }),
  ...rules('smash', 'corner', {
    squats: 'corner',
    drops: 'hitch',
    expands: 'corner',
    'stays inside': 'corner',
  }),
  ...rules('mesh', 'hook defender', {
    drops: 'shallow',
    expands: 'shallow',
    squats: 'in',
    'stays inside': 'shallow',
    blitzes: 'shallow',
  }),
  ...rules('four verticals', 'deep safety', {
    widens: 'seam',
    'stays inside': 'seam',
    drops: 'check-down',
    carries: 'check-down',
  }),
  ...rules('snag', 'flat defender', {
    expands: 'snag',
    drops: 'flat',
    squats: 'flat',
    'stays inside': 'flat',
    blitzes: 'snag',
  }),
  ...rules('curl-flat', 'flat defender', {
    expands: 'curl',
    drops: 'flat',
    squats: 'curl',
    'stays inside': 'flat',
    blitzes: 'flat',
  }),
];

export function keyDefenderOf(concept: PassConcept): KeyDefender {
  const rule = READ_RULES.find((r) => r.concept === concept);
  if (!rule) throw new RangeError(`no read rule for ${concept}`);
  return rule.keyDefender;
}

/** When the passer has read his key, in seconds after the snap: quick game first, verticals last. */
export const READ_SECONDS: Readonly<Record<PassConcept, number>> = {
  stick: 0.9,
  snag: 1.0,
  smash: 1.3,
  'curl-flat': 1.3,
  mesh: 1.3,
  'four verticals': 1.6,
};

export interface Distribution {
  /** routes by slot; who is not in it blocks */
  readonly routes: ReadonlyMap<OffenseSlot, RouteName>;
}

/**
 * Which route each eligible receiver runs. `strong` and `weak` list the receivers of each side from the outside in;
 * the back, if any stands behind the line, is `back`.
 */
export function distribute(
  concept: PassConcept,
  strong: readonly OffenseSlot[],
  weak: readonly OffenseSlot[],
  back: OffenseSlot | null,
): Map<OffenseSlot, RouteName> {
  const routes = new Map<OffenseSlot, RouteName>();
  const give = (slots: readonly OffenseSlot[], names: readonly RouteName[]) => {
    slots.forEach((slot, i) => {
      const name = names[i];
      if (name) routes.set(slot, name);
    });
  };
  const trips = strong.length >= 3;
  let backRoute: RouteName = 'check-down';
  switch (concept) {
    case 'stick':
      give(strong, trips ? ['fade', 'flat', 'stick'] : ['fade', 'stick']);
      give(weak, ['hitch', 'seam']);
      if (!trips) backRoute = 'swing';
      break;
    case 'smash':
      give(strong, ['hitch', 'corner', 'seam']);
      give(weak, weak.length > 1 ? ['hitch', 'corner'] : ['slant']);
      break;
    case 'mesh':
      give(strong, trips ? ['post', 'in', 'shallow'] : ['in', 'shallow']);
      give(weak, weak.length > 1 ? ['corner', 'shallow'] : ['shallow']);
      backRoute = 'swing';
      break;
    case 'four verticals':
      give(strong, ['go', 'seam', 'seam']);
      give(weak, weak.length > 1 ? ['go', 'seam'] : ['go']);
      break;
    case 'snag':
      give(strong, trips ? ['snag', 'corner', 'flat'] : ['snag', 'corner']);
      give(weak, ['in', 'seam']);
      if (!trips) backRoute = 'swing';
      break;
    case 'curl-flat':
      give(strong, ['curl', 'flat', 'seam']);
      give(weak, weak.length > 1 ? ['curl', 'flat'] : ['curl']);
      break;
  }
  if (back) routes.set(back, backRoute);
  return routes;
}

/** Routes of a concept that a read rule's word means: the flat may be run by a back out of the backfield. */
export const STANDS_FOR: Readonly<Partial<Record<RouteName, readonly RouteName[]>>> = {
  flat: ['flat', 'swing', 'arrow'],
};
