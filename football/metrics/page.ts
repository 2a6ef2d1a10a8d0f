import { EXPECTED_POINTS_CALIBRATION, EXPECTED_POINTS_CAUTION } from '../expected-points/model.ts';
import { MAIN_METRICS } from './main-metrics.ts';
import { type MetricDefinition, SMALL_SAMPLE } from './metric.ts';
import { PASSING_METRICS } from './passing-metrics.ts';
import { DRIVE_METRICS, RUNNING_METRICS, SITUATION_METRICS } from './play-metrics.ts';
import {
  DEFAULT_METRIC_SETTINGS,
  type MetricSettings,
  SUCCESS_VARIANTS,
  settingInWords,
  successInWords,
} from './settings.ts';

/** The groups in which metrics are shown, with a heading for each. */
export const METRIC_GROUPS: readonly (readonly [heading: string, metrics: readonly MetricDefinition[]])[] = [
  ['The efficiency table', MAIN_METRICS],
  ['Passing', PASSING_METRICS],
  ['Running', RUNNING_METRICS],
  ['Situations, turnovers and expected points', SITUATION_METRICS],
  ['Drives', DRIVE_METRICS],
];

/** The page of definitions in Markdown: every metric, and what the settings choose. */
export function metricsPage(settings: MetricSettings = DEFAULT_METRIC_SETTINGS): string {
  const parts = [
    '# Metrics',
    'Each number that Tapebook shows is defined once, in `football/metrics`; this page is written from those definitions by `npx tsx scripts/write-metrics-page.ts`.',
    `Rates come with their counts and a 95 % interval after Wilson. Rates and means over fewer than ${SMALL_SAMPLE} plays are marked as small (common practice, no source). What is not logged is left out and never taken for nought; a number that nothing is known about is shown as –.`,
    'A play wiped out by a penalty counts nowhere: one logged as `noPlay`, fouls that offset each other, and a down that the rules of the level have played again.',
  ];
  for (const [heading, metrics] of METRIC_GROUPS) {
    parts.push(`## ${heading}`);
    for (const metric of metrics) parts.push(metricInWords(metric, settings));
  }
  parts.push('## Settings', settingsInWords(settings), '## Expected points', expectedPointsInWords());
  return `${parts.join('\n\n')}\n`;
}

function metricInWords(metric: MetricDefinition, settings: MetricSettings): string {
  const variant = settingInWords(metric.setting, settings);
  const lines = [
    `### ${metric.name}`,
    '',
    `\`${metric.key}\``,
    '',
    `- Formula: ${metric.formula}`,
    ...(metric.per ? [`- Out of: ${metric.per}`] : []),
    `- Unit: ${metric.unit}`,
    ...(variant ? [`- In use: ${variant} (a setting)`] : []),
    `- Source: ${metric.source}`,
    ...(metric.caution ? [`- Caution: ${metric.caution}`] : []),
  ];
  return lines.join('\n');
}

function settingsInWords(settings: MetricSettings): string {
  const variants = SUCCESS_VARIANTS.map(
    (v) => `  - \`${v}\`: ${successInWords(v)}${v === settings.success ? ' (in use)' : ''}`,
  );
  return [
    '- Success:',
    ...variants,
    `- Explosive: ${settingInWords('explosive', settings)}`,
    '- Level: whose rules decide that a penalty undid a play.',
    '- Team: whose takeaways and giveaways the turnover margin counts.',
  ].join('\n');
}

function expectedPointsInWords(): string {
  const c = EXPECTED_POINTS_CALIBRATION;
  const seasons = Object.entries(c.bySeason).map(
    ([season, s]) => `| ${season} | ${s.calibrationError.toFixed(4)} | ${s.biasPoints.toFixed(3)} |`,
  );
  return [
    EXPECTED_POINTS_CAUTION,
    '',
    `Multinomial model of the next score in the half, fitted on ${c.plays.toLocaleString('en-US')} plays; the coefficients lie in \`football/expected-points/coefficients.json\` and \`scripts/fit-expected-points.ts\` makes them again. Checked on seasons that the fit had not seen (${c.method}): calibration error ${c.calibrationError} over all.`,
    '',
    '| season | calibration error | bias in points |',
    '|---|---|---|',
    ...seasons,
    '',
    `Against the league’s own numbers for ${c.league2022.plays.toLocaleString('en-US')} plays of 2022: correlation ${c.league2022.withSeason.correlation}, bias ${c.league2022.withSeason.biasPoints} points when the season is told; without it (as for college and high school) ${c.league2022.withoutSeason.correlation} and ${c.league2022.withoutSeason.biasPoints}, because scoring rose from year to year. Against a published table of 2020: correlation ${c.publishedTable.correlation}.`,
  ].join('\n');
}
