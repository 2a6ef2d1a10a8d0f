/** A trial in words: what it shows, and no more. */

import type { Margin, Trial } from './trial.ts';

const bits = (value: number) => value.toFixed(3);

/** One sentence for a coach. @param trial null where there was no other game to try it on */
export function trialInWords(trial: Trial | null): string {
  if (!trial)
    return 'All plays are of one game, so the shares could not be tried on another: take them as counts, no more.';
  const over = `over ${trial.plays} plays of ${trial.games} ${trial.games === 1 ? 'game' : 'games'} not used`;
  const verdict = beats(trial);
  if (verdict === 'better')
    return `Knowing the situation foretold the call better than the plain frequency, ${over}: log loss lower by ${margin(trial.logLossMargin)} bits a play, Brier score by ${margin(trial.brierMargin)}.`;
  if (verdict === 'worse')
    return `Knowing the situation foretold the call worse than the plain frequency, ${over}. Go by the plain frequency, or ask with fewer fields.`;
  return `Knowing the situation did not clearly beat the plain frequency, ${over}: log loss lower by ${margin(trial.logLossMargin)} bits a play, Brier score by ${margin(trial.brierMargin)}. Don’t lean on the difference.`;
}

/** `better` only where both scores are lower and neither interval reaches 0. */
export function beats(trial: Trial): 'better' | 'worse' | 'unclear' {
  const { logLossMargin: a, brierMargin: b } = trial;
  if (a.low > 0 && b.low > 0) return 'better';
  return a.high < 0 && b.high < 0 ? 'worse' : 'unclear';
}

function margin({ mean, low, high }: Margin): string {
  return `${bits(mean)} (95 % ${bits(low)} to ${bits(high)})`;
}
