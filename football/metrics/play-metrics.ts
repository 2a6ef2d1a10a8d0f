import { count, define, mean, rate, sum } from './make.ts';
import type { MetricDefinition } from './metric.ts';

const EP_SOURCE = 'Tapebook’s own model of the next score; see the page of definitions';
const EP_CAUTION =
  'The model was fitted on professional games: for college and high school a yardstick, not a promise. Kneels, spikes and overtime are left out.';

export const RUNNING_METRICS: readonly MetricDefinition[] = [
  count('runs', 'Runs', 'runs', {
    formula: 'run calls + scrambles',
    caution: 'Kneels are not in it, though the box score counts them.',
  }),
  sum('runYards', 'Run yards', 'runYards', ['runs', 'runYardsKnown'], {
    formula: 'sum of the gains of runs and scrambles',
    caution: 'Sacks are not in it at any level; the college box score charges them to rushing.',
  }),
  mean('yardsPerRun', 'Yards per run', ['runYards', 'runYardsKnown'], {
    formula: 'run yards / runs',
    per: 'runs with a gain',
    unit: 'yd',
  }),
  rate('stuffRate', 'Stuff rate', ['stuffs', 'runYardsKnown'], {
    formula: 'runs that gained nothing or lost yards / runs',
    per: 'runs with a gain',
    source: 'collegeathleteinsider.com',
  }),
  mean('lineYardsPerRun', 'Line yards per run', ['lineYards', 'runYardsKnown'], {
    formula: 'losses × 1.2 + yards 0 to 4 + half of yards 5 to 10, per run',
    per: 'runs with a gain',
    unit: 'yd',
    decimals: 2,
    source: 'Football Study Hall, 26 April 2011; ESPN stats explainer',
    caution:
      'The source leaves the passer’s runs out; scrambles and designed runs of the passer are in it here, so ask without them for the line alone.',
  }),
];

export const SITUATION_METRICS: readonly MetricDefinition[] = [
  rate('thirdDownPct', 'Third-down %', ['thirdDownConversions', 'thirdDowns'], {
    formula: 'third-down calls that gained the distance or scored and kept the ball / third-down calls',
    per: 'third-down calls',
    source: 'GSIS statistic ids 6, 7; confirmed on complete open games',
    caution:
      'A first down by a foul on a play that did not count is no attempt; nor is a down that a foul had played again.',
  }),
  rate('fourthDownPct', 'Fourth-down %', ['fourthDownConversions', 'fourthDowns'], {
    formula: 'fourth-down calls that gained the distance or scored and kept the ball / fourth-down calls',
    per: 'fourth-down calls',
    source: 'GSIS statistic ids 8, 9',
    caution: 'Punts and field goals are no attempts.',
  }),
  rate(
    'havocRate',
    'Havoc rate',
    [(s) => s('losses') + s('forcedFumbles') + s('interceptions') + s('passBreakups'), 'lossKnown'],
    {
      formula:
        '(plays for a loss, sacks included + forced fumbles + interceptions + passes broken up) / calls',
      per: 'pass and run calls with a gain',
      source: 'Connelly, 2014',
      caution:
        'One play can count twice. Forced fumbles and passes broken up count where the defender is named; without names the rate is too low.',
    },
    { interval: false },
  ),
  count('turnovers', 'Turnovers', 'turnovers', {
    formula: 'calls on which the offense lost the ball by an interception or a fumble',
    caution: 'Turnovers on downs and on kicks are not in it.',
  }),
  define(
    'turnoverMargin',
    'Turnover margin',
    'sum',
    {
      formula: 'takeaways - giveaways of the team set, kicks included',
      unit: 'turnovers',
      caution: 'Needs the team in the settings and the plays of both teams.',
    },
    {
      numerator: (s) => s('takeaways') - s('giveaways'),
      known: (s) => [1, s('sidesKnown')],
    },
  ),
  sum('epa', 'Expected points added', 'epa', ['calls', 'epaKnown'], {
    formula: 'sum over calls of (expected points after - expected points before); a touchdown counts 7',
    unit: 'points',
    decimals: 1,
    source: EP_SOURCE,
    caution: EP_CAUTION,
  }),
  mean('epaPerPlay', 'Expected points added per play', ['epa', 'epaKnown'], {
    formula: 'expected points added / calls',
    per: 'pass and run calls whose next situation is known',
    unit: 'points',
    decimals: 3,
    source: EP_SOURCE,
    caution: EP_CAUTION,
  }),
  rate('epaSuccessRate', 'Success rate by expected points', ['epaSuccesses', 'epaKnown'], {
    formula: 'calls that added expected points / calls',
    per: 'pass and run calls whose next situation is known',
    source: 'nflverse dictionary of play-by-play columns, field success',
    caution: EP_CAUTION,
  }),
];

const WITH_FIRST_PLAY = 'A drive is counted with its first play: rows and filters sort drives by that play.';

export const DRIVE_METRICS: readonly MetricDefinition[] = [
  count('drives', 'Drives', 'drives', {
    formula: 'possessions from scrimmage, those of nothing but kneels left out',
    unit: 'drives',
    caution: WITH_FIRST_PLAY,
  }),
  mean('yardsPerDrive', 'Yards per drive', ['driveYards', 'drives'], {
    formula: 'gains of the drive’s calls / drives',
    per: 'drives',
    unit: 'yd',
    decimals: 1,
    caution: `Penalty yards are not in it. ${WITH_FIRST_PLAY}`,
  }),
  mean('pointsPerDrive', 'Points per drive', ['drivePoints', 'drives'], {
    formula: 'points of the offense, tries included / drives',
    per: 'drives',
    unit: 'points',
    caution: WITH_FIRST_PLAY,
  }),
  count('redZoneTrips', 'Red-zone trips', 'redZoneTrips', {
    formula: 'drives with a snap at or inside the other team’s 20',
    unit: 'drives',
    source: 'nflverse dictionary, field drive_inside20',
    caution: WITH_FIRST_PLAY,
  }),
  rate('redZoneTouchdownPct', 'Red-zone touchdown %', ['redZoneTouchdowns', 'redZoneTrips'], {
    formula: 'red-zone trips that ended in a touchdown / red-zone trips',
    per: 'red-zone trips',
    caution: WITH_FIRST_PLAY,
  }),
  rate('redZoneScorePct', 'Red-zone score %', ['redZoneScores', 'redZoneTrips'], {
    formula: 'red-zone trips that ended in a touchdown or a field goal / red-zone trips',
    per: 'red-zone trips',
    caution: WITH_FIRST_PLAY,
  }),
  rate('threeAndOutPct', 'Three-and-out %', ['threeAndOuts', 'drives'], {
    formula: 'drives that punted after at most three calls without a first down / drives',
    per: 'drives',
    caution: WITH_FIRST_PLAY,
  }),
];
