import { count, mean, rate, sum } from './make.ts';
import type { MetricDefinition, Sums } from './metric.ts';

/** Attempts whose yards are known: all of them but completions without a gain. */
export const attemptsWithYards = (s: Sums): number =>
  s('attempts') - s('completions') + s('completionYardsKnown');

const COUNTING = 'GSIS statistic ids 14, 15, 16, 19 (attempts), 20 (sacks)';

/** The metrics of the efficiency table, in its order. */
export const MAIN_METRICS: readonly MetricDefinition[] = [
  count('calls', 'Calls', 'calls', {
    formula: 'plays from scrimmage that count: pass, run, spike, kneel',
    caution:
      'Kicks, tries and nullified plays are no calls. Where the kind is not logged it is read from the result.',
  }),
  count('dropbacks', 'Dropbacks', 'dropbacks', {
    formula: 'attempts without spikes + sacks + scrambles + pass calls whose result is not logged yet',
  }),
  count('attempts', 'Attempts', 'attempts', {
    formula: 'complete + incomplete + throwaway + interception + spike',
    source: COUNTING,
    caution: 'A sack or a scramble is a call and not an attempt.',
  }),
  count('completions', 'Completions', 'completions', { formula: 'passes caught', source: COUNTING }),
  rate('completionPct', 'Completion %', ['completions', 'attempts'], {
    formula: 'completions / attempts',
    per: 'attempts',
    caution: 'Throwaways and spikes count against the passer.',
  }),
  sum('yards', 'Yards', 'yards', ['calls', 'gainKnown'], {
    formula: 'sum of the gains of calls, sacks included',
    caution: 'Penalty yards are not in it.',
  }),
  sum('passYards', 'Pass yards', 'passYards', ['completions', 'completionYardsKnown'], {
    formula: 'sum of the gains of completions',
    caution: 'Sack yards are not taken off.',
  }),
  mean('yardsPerAttempt', 'Yards per attempt', ['passYards', attemptsWithYards], {
    formula: 'pass yards / attempts',
    per: 'attempts',
    unit: 'yd',
    caution: 'Completions without a logged gain are left out above and below.',
  }),
  mean('yardsPerCompletion', 'Yards per completion', ['passYards', 'completionYardsKnown'], {
    formula: 'pass yards / completions',
    per: 'completions with a gain',
    unit: 'yd',
  }),
  sum('yardsAfterCatch', 'Yards after catch', 'yardsAfterCatch', ['completions', 'afterCatchKnown'], {
    formula: 'sum over completions of the yards after the catch; where not logged, gain - air yards',
    source: 'GSIS statistic id 113',
    caution: 'Completions with neither are left out.',
  }),
  rate('successRate', 'Success rate', ['successes', 'successKnown'], {
    formula: 'calls that gained the share of the distance which their down asks for / calls',
    per: 'pass and run calls with down, distance and gain',
    source:
      '50/70/100: college definition (Connelly; Football Study Hall, 16 February 2012). 40/60/100: Stampede Blue, 23 March 2009; Music City Miracles, 9 September 2013',
    caution:
      'Judged by the gain alone: a gain that ends in a lost fumble can be a success. Kneels and spikes are left out.',
    setting: 'success',
  }),
  rate('explosiveRate', 'Explosive rate', ['explosives', 'explosiveKnown'], {
    formula: 'runs and passes of at least the yards set for each / calls',
    per: 'pass and run calls with a gain',
    source: 'no single standard; runs of 12 and passes of 16 as in ESPN’s use; a setting',
    caution: 'A scramble is measured as a run. Kneels and spikes are left out.',
    setting: 'explosive',
  }),
  count('firstDowns', 'First downs', 'firstDowns', {
    formula: 'calls logged as a first down; where not logged, gain >= distance and the ball kept',
  }),
  count('touchdowns', 'Touchdowns', 'touchdowns', {
    formula:
      'calls logged as a touchdown on which the offense kept the ball; where not logged, gain >= yards to goal',
    caution: 'Touchdowns by the defense or on kicks are not in it.',
  }),
  count('interceptions', 'Interceptions', 'interceptions', { formula: 'passes intercepted' }),
  count('sacks', 'Sacks', 'sacks', { formula: 'dropbacks that ended in a sack', source: COUNTING }),
  mean('timeToThrow', 'Time to throw', ['throwSeconds', 'throwTimeKnown'], {
    formula: 'sum of (release - snap) / dropbacks with both moments stamped',
    per: 'dropbacks with snap and release stamped',
    unit: 's',
    caution: 'Sacks and scrambles have no release and are not in it.',
  }),
];
