import { OUTCOMES } from '../../football/expected-points/form.ts';

/**
 * How far predicted probabilities are from what happened, as published for this kind of model
 * (arXiv 1802.00998): predictions of an outcome are rounded to steps of 0.05, each step's value is compared
 * with the share of plays that had the outcome, the differences are averaged over plays, and the outcomes
 * are averaged by how often they happened.
 * @param probabilities play after play, one number per outcome
 */
export function calibrationError(probabilities: ArrayLike<number>, outcomes: ArrayLike<number>): number {
  const plays = outcomes.length;
  const classes = OUTCOMES.length;
  let error = 0;
  for (let c = 0; c < classes; c++) {
    const predicted = new Array<number>(21).fill(0);
    const happened = new Array<number>(21).fill(0);
    let events = 0;
    for (let i = 0; i < plays; i++) {
      const bin = Math.round(probabilities[i * classes + c]! * 20);
      const was = Number(outcomes[i] === c);
      predicted[bin]!++;
      happened[bin]! += was;
      events += was;
    }
    let off = 0;
    for (let b = 0; b <= 20; b++)
      if (predicted[b]! > 0) off += Math.abs((predicted[b]! * b) / 20 - happened[b]!);
    error += (off / plays) * (events / plays);
  }
  return error;
}

export function correlation(a: readonly number[], b: readonly number[]): number {
  const n = a.length;
  const meanA = a.reduce((s, v) => s + v, 0) / n;
  const meanB = b.reduce((s, v) => s + v, 0) / n;
  let ab = 0;
  let aa = 0;
  let bb = 0;
  for (let i = 0; i < n; i++) {
    const da = a[i]! - meanA;
    const db = b[i]! - meanB;
    ab += da * db;
    aa += da * da;
    bb += db * db;
  }
  return ab / Math.sqrt(aa * bb);
}
