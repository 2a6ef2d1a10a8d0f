import type { Angle } from '../angle.ts';

/** Level edges beyond this share are an end zone's view, below that a sideline's, where a shot has nothing to be held to. */
const ALONE = { endzone: 0.72, sideline: 0.3 } as const;
/** Two groups of shots are told apart when their means differ by this much, and by more than they vary. */
const APART = 0.12;

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
}

function spread(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - middle) ** 2)));
}

/**
 * From where each shot was taken, by how level its lines lie: shots are put into two groups where there are two, and
 * the more level group is the end zone's. `other` where that cannot be told.
 */
export function anglesOf(levels: readonly number[]): Angle[] {
  const sorted = [...levels].sort((a, b) => a - b);
  let best: { at: number; gain: number } | null = null;
  for (let at = 1; at < sorted.length; at++) {
    const low = sorted.slice(0, at);
    const high = sorted.slice(at);
    const gain = low.length * high.length * (mean(high) - mean(low)) ** 2;
    if (!best || gain > best.gain) best = { at, gain };
  }
  if (best) {
    const low = sorted.slice(0, best.at);
    const high = sorted.slice(best.at);
    const between = (low.at(-1)! + high[0]!) / 2;
    const apart = mean(high) - mean(low);
    if (apart > APART && apart > (2.2 * (spread(low) + spread(high))) / 2) {
      return levels.map((level) => (level < between ? 'sideline' : 'endzone'));
    }
  }
  return levels.map((level) =>
    level > ALONE.endzone ? 'endzone' : level < ALONE.sideline ? 'sideline' : 'other',
  );
}
