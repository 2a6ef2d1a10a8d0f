import { attemptsWithYards } from './main-metrics.ts';
import { count, define, mean, rate, sum } from './make.ts';
import type { MetricDefinition, Sums } from './metric.ts';

/** Completions whose yards are known; those without are left out above and below. */
const completions = (s: Sums): number => s('completionYardsKnown');

const clamp = (value: number): number => Math.min(2.375, Math.max(0, value));

/** The league's passer rating from one passer's or one team's numbers. */
export function passerRating(
  attempts: number,
  completed: number,
  yards: number,
  touchdowns: number,
  interceptions: number,
): number | null {
  if (attempts <= 0) return null;
  const parts = [
    clamp((completed / attempts - 0.3) * 5),
    clamp((yards / attempts - 3) * 0.25),
    clamp((touchdowns / attempts) * 20),
    clamp(2.375 - (interceptions / attempts) * 25),
  ];
  return (parts.reduce((a, b) => a + b, 0) / 6) * 100;
}

const LEFT_OUT = 'Completions without a logged gain are left out.';

export const PASSING_METRICS: readonly MetricDefinition[] = [
  define(
    'passingEfficiency',
    'Passing efficiency (NCAA)',
    'index',
    {
      formula:
        '(8.4 × pass yards + 330 × touchdown passes + 100 × completions - 200 × interceptions) / attempts',
      per: 'attempts',
      decimals: 1,
      source: 'stassen.com/football/pass-eff; Spokesman-Review, 31 October 1997',
      caution: `100 was the average of the years it was made in; college passers are above it today. ${LEFT_OUT}`,
    },
    {
      numerator: (s) =>
        8.4 * s('passYards') + 330 * s('passTouchdowns') + 100 * completions(s) - 200 * s('interceptions'),
      denominator: attemptsWithYards,
    },
  ),
  define(
    'passerRating',
    'Passer rating (NFL)',
    'index',
    {
      formula:
        'a = (completions / attempts - 0.3) × 5, b = (pass yards / attempts - 3) × 0.25, c = touchdown passes / attempts × 20, d = 2.375 - interceptions / attempts × 25, each 0 to 2.375; (a + b + c + d) / 6 × 100',
      per: 'attempts',
      decimals: 1,
      source: 'the league’s published example; Johnson, UMAP Journal 18:145',
      caution: `Runs from 0 to 158.3; sacks and runs are not in it. ${LEFT_OUT}`,
    },
    {
      numerator: (s) => s('passYards'),
      denominator: attemptsWithYards,
      compute: (s) =>
        passerRating(
          attemptsWithYards(s),
          completions(s),
          s('passYards'),
          s('passTouchdowns'),
          s('interceptions'),
        ),
    },
  ),
  mean(
    'adjustedNetYardsPerAttempt',
    'Adjusted net yards per attempt',
    [
      (s) => s('passYards') + 20 * s('passTouchdowns') - 45 * s('interceptions') - s('sackYards'),
      (s) => attemptsWithYards(s) + s('sackYardsKnown'),
    ],
    {
      formula: '(pass yards + 20 × touchdown passes - 45 × interceptions - sack yards) / (attempts + sacks)',
      per: 'attempts and sacks',
      unit: 'yd',
      source: 'thegridfe.com glossary; insidethepylon.com glossary',
    },
  ),
  mean(
    'adjustedYardsPerAttempt',
    'Adjusted yards per attempt',
    [(s) => s('passYards') + 20 * s('passTouchdowns') - 45 * s('interceptions'), attemptsWithYards],
    {
      formula: '(pass yards + 20 × touchdown passes - 45 × interceptions) / attempts',
      per: 'attempts',
      unit: 'yd',
      source: 'thegridfe.com glossary',
    },
  ),
  rate('sackRate', 'Sack rate', ['sacks', 'dropbacks'], {
    formula: 'sacks / dropbacks',
    per: 'dropbacks',
    caution: 'Dropbacks include scrambles; some pages divide by attempts and sacks alone.',
  }),
  rate('pressureRate', 'Pressure rate', ['pressured', 'pressureKnown'], {
    formula: 'dropbacks whose pocket is logged as anything but clean / dropbacks with the pocket logged',
    per: 'dropbacks with the pocket logged',
    caution: 'What counts as pressure is the judgement of whoever logged it.',
  }),
  rate('pressureToSack', 'Pressure to sack', ['pressuredSacks', 'pressured'], {
    formula: 'sacks under pressure / dropbacks under pressure',
    per: 'dropbacks under pressure',
    caution: 'Only dropbacks with the pocket logged count, so that sacks alone don’t make it 100 %.',
  }),
  rate('hitRate', 'Hit rate', ['hits', 'pressureKnown'], {
    formula: 'dropbacks with the pocket logged as hit, or sacked / dropbacks with the pocket logged',
    per: 'dropbacks with the pocket logged',
    caution: 'Terms of the staff’s own under hit are not counted as hit.',
  }),
  rate('freeRusherRate', 'Free rusher rate', ['freeRushers', 'freeRusherKnown'], {
    formula: 'dropbacks on which a rusher came unblocked / dropbacks on which that is logged',
    per: 'dropbacks with free rusher logged',
  }),
  mean('timeToPressure', 'Time to pressure', ['pressureSeconds', 'pressureTimeKnown'], {
    formula: 'sum of the seconds from the snap to the first pressure / dropbacks with them logged',
    per: 'dropbacks with time to pressure logged',
    unit: 's',
    caution: 'Dropbacks without pressure have none: don’t set it against the time to throw of all dropbacks.',
  }),
  count('scrambles', 'Scrambles', 'scrambles', { formula: 'dropbacks on which the passer ran' }),
  count('targets', 'Targets', 'targets', {
    formula: 'attempts with a target logged',
    source: 'GSIS statistic id 115',
  }),
  {
    ...rate('targetShare', 'Target share', ['targets', 'targets'], {
      formula: 'targets here / targets of all plays in the table',
      per: 'targets of the whole table',
      caution: 'A share of the plays asked for: ask for one team’s passes, by target.',
    }),
    ofTotal: true,
  },
  rate('catchRate', 'Catch rate', ['targetCompletions', 'targets'], {
    formula: 'completions / targets',
    per: 'attempts with a target logged',
    caution: 'Throws that could not be caught count against the receiver.',
  }),
  rate('dropRate', 'Drop rate', ['drops', 'targets'], {
    formula: 'targets logged as dropped / targets',
    per: 'attempts with a target logged',
    caution: 'Whether a ball should have been caught is the judgement of whoever logged it.',
  }),
  count('drops', 'Drops', 'drops', { formula: 'targets that were not caught and are logged as dropped' }),
  mean('airYardsPerAttempt', 'Air yards per attempt', ['airYards', 'airYardsKnown'], {
    formula: 'sum of air yards / attempts with air yards logged',
    per: 'attempts with air yards logged',
    unit: 'yd',
  }),
  rate(
    'yardsAfterCatchShare',
    'After-catch share',
    ['yardsAfterCatch', 'afterCatchPassYards'],
    {
      formula: 'yards after the catch / pass yards, of completions with both known',
      per: 'pass yards',
      caution: 'Can pass 100 % where balls are caught behind the line.',
    },
    { interval: false },
  ),
  sum('sackYards', 'Sack yards', 'sackYards', ['sacks', 'sackYardsKnown'], {
    formula: 'yards lost by sacks, as a positive number',
  }),
];
