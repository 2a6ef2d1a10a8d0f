import type { Level } from '../play.ts';

/** What a staff may choose about its numbers. Wherever a number depends on a choice, the choice is shown. */
export interface MetricSettings {
  readonly success: SuccessVariant;
  /** a run of at least so many yards is explosive */
  readonly explosiveRunYards: number;
  /** a pass play of at least so many yards is explosive */
  readonly explosivePassYards: number;
  /** whose rules say that a penalty undid a play; without it only a logged `noPlay` and offsetting fouls do */
  readonly level?: Level;
  /** the team whose takeaways and giveaways are counted */
  readonly team?: string;
}

/**
 * `50/70/100`: percent of the distance that a success gains on first, second, and third or fourth down
 * (the college definition). `40/60/100`: the professional one. `40/60/100 late`: the same, but in the fourth
 * quarter 50/65/100 when behind by more than eight points and 30/50/100 when ahead.
 */
export type SuccessVariant = '50/70/100' | '40/60/100' | '40/60/100 late';

export const SUCCESS_VARIANTS: readonly SuccessVariant[] = ['50/70/100', '40/60/100', '40/60/100 late'];

export const DEFAULT_METRIC_SETTINGS: MetricSettings = {
  success: '50/70/100',
  explosiveRunYards: 12,
  explosivePassYards: 16,
};

const SHARES: Readonly<Record<'college' | 'pro' | 'behind' | 'ahead', readonly [number, number, number]>> = {
  college: [50, 70, 100],
  pro: [40, 60, 100],
  behind: [50, 65, 100],
  ahead: [30, 50, 100],
};

/** The situation that success is measured by. */
export interface SuccessSituation {
  readonly down: number | null;
  readonly distance: number | null;
  readonly quarter: number | null;
  readonly scoreFor: number | null;
  readonly scoreAgainst: number | null;
}

/** Whether the gain was a success; null where something it depends on is not known. */
export function isSuccess(
  at: SuccessSituation,
  gain: number | null,
  variant: SuccessVariant,
): boolean | null {
  const { down, distance } = at;
  if (gain === null || down === null || distance === null || down < 1 || down > 4) return null;
  const shares = sharesFor(at, variant);
  if (shares === null) return null;
  const share = shares[Math.min(down, 3) - 1] as number;
  // whole numbers on both sides, because 0.7 times a distance is not exact
  return gain * 100 >= share * distance;
}

function sharesFor(at: SuccessSituation, variant: SuccessVariant): readonly [number, number, number] | null {
  if (variant === '50/70/100') return SHARES.college;
  if (variant === '40/60/100') return SHARES.pro;
  if (at.quarter === null) return null;
  if (at.quarter !== 4) return SHARES.pro;
  if (at.scoreFor === null || at.scoreAgainst === null) return null;
  const lead = at.scoreFor - at.scoreAgainst;
  return lead < -8 ? SHARES.behind : lead > 0 ? SHARES.ahead : SHARES.pro;
}

/** The success variant in words, for every place that shows a success rate. */
export function successInWords(variant: SuccessVariant): string {
  const base =
    variant === '50/70/100'
      ? '50 % of the distance on first down, 70 % on second, all of it on third and fourth'
      : '40 % of the distance on first down, 60 % on second, all of it on third and fourth';
  return variant === '40/60/100 late'
    ? `${base}; in the fourth quarter 50/65/100 when behind by more than 8, 30/50/100 when ahead`
    : base;
}

/** The explosive thresholds in words. */
export function explosiveInWords(settings: MetricSettings): string {
  return `runs of ${settings.explosiveRunYards} yards or more, passes of ${settings.explosivePassYards} or more`;
}

/** The choice that a metric depends on, in words; empty where it depends on none. */
export function settingInWords(
  setting: 'success' | 'explosive' | undefined,
  settings: MetricSettings = DEFAULT_METRIC_SETTINGS,
): string {
  if (setting === 'success') return successInWords(settings.success);
  return setting === 'explosive' ? explosiveInWords(settings) : '';
}
