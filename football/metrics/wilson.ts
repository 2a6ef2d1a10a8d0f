/** The 97.5 % point of the normal distribution: a 95 % interval. */
export const Z95 = 1.959963984540054;

/**
 * Wilson's score interval of a proportion, as fractions 0..1 (Wilson 1927; formula as in VassarStats and scipy).
 * @returns null where there was no trial
 */
export function wilson(successes: number, trials: number, z = Z95): readonly [number, number] | null {
  if (!(trials > 0)) return null;
  const p = successes / trials;
  const z2 = z * z;
  const middle = p + z2 / (2 * trials);
  const half = z * Math.sqrt((p * (1 - p)) / trials + z2 / (4 * trials * trials));
  const whole = 1 + z2 / trials;
  return [Math.max(0, (middle - half) / whole), Math.min(1, (middle + half) / whole)];
}
