/**
 * The fields of a play: one definition each, read by the log line, the play card, the question builder,
 * the importer, the command line and the docs. A staff's own fields are stored in the library and have
 * the same shape.
 */

import { DERIVED_FIELDS } from './derived-fields.ts';

export type FieldKind =
  /** one of a vocabulary of terms, which may have families */
  | 'term'
  | 'number'
  /** whole seconds left in the quarter; screens and sheets write m:ss */
  | 'clock'
  /** yards to the goal ahead, 1..99; screens and sheets write -35 or +20 */
  | 'spot'
  | 'text'
  /** a player of either roster */
  | 'player'
  /** true or false; unknown is a missing value */
  | 'flag';

/**
 * Where a field's value lives.
 * `game`: a column of the game. `play`: a typed column of the play. `tag`: a row of tags.
 * `derived`: worked out from the rest and never stored.
 */
export type FieldHome = 'game' | 'play' | 'tag' | 'derived';

export type FieldGroup = 'game' | 'situation' | 'calls' | 'outcome' | 'people' | 'notes';

export interface FieldDefinition {
  /** the name used in questions, sheets and the command line */
  readonly key: string;
  readonly label: string;
  readonly kind: FieldKind;
  readonly home: FieldHome;
  readonly group: FieldGroup;
  /** one sentence for tooltips and docs */
  readonly help: string;
  /** unit of a number, as printed after the value */
  readonly unit?: string;
  /** a closed vocabulary takes no new terms from typing or import */
  readonly closed?: boolean;
}

function field(
  key: string,
  label: string,
  kind: FieldKind,
  home: FieldHome,
  group: FieldGroup,
  help: string,
  more: Partial<Pick<FieldDefinition, 'unit' | 'closed'>> = {},
): FieldDefinition {
  return { key, label, kind, home, group, help, ...more };
}

export const BUILT_IN_FIELDS: readonly FieldDefinition[] = [
  field('game', 'Game', 'text', 'game', 'game', 'The title of the game.'),
  field('season', 'Season', 'number', 'game', 'game', 'The year the season began in.'),
  field(
    'drive',
    'Drive',
    'number',
    'play',
    'situation',
    'Number of the drive within the game; worked out from possession where it is not recorded.',
  ),
  field('playNumber', 'Play', 'number', 'play', 'situation', 'Number of the play within the game.'),

  field(
    'quarter',
    'Quarter',
    'number',
    'play',
    'situation',
    'Quarter 1 to 4; 5 and up are overtime periods.',
  ),
  field('clock', 'Clock', 'clock', 'play', 'situation', 'Time left in the quarter at the snap.'),
  field('possession', 'Possession', 'term', 'play', 'situation', 'The team that puts the ball in play.'),
  field('down', 'Down', 'number', 'play', 'situation', 'Down 1 to 4; missing on kicks and tries.'),
  field(
    'distance',
    'Distance',
    'number',
    'play',
    'situation',
    'Yards to the line to gain, or to the goal line.',
    { unit: 'yd' },
  ),
  field(
    'yardsToGoal',
    'Ball on',
    'spot',
    'play',
    'situation',
    'Yards to the opponent’s goal line, 1 to 99.',
    { unit: 'yd' },
  ),
  field(
    'hash',
    'Hash',
    'term',
    'play',
    'situation',
    'Where the ball is spotted across the field, as the offense sees it: left, middle or right.',
    { closed: true },
  ),
  field(
    'scoreFor',
    'Score for',
    'number',
    'play',
    'situation',
    'Points of the team in possession before the play.',
  ),
  field(
    'scoreAgainst',
    'Score against',
    'number',
    'play',
    'situation',
    'Points of the other team before the play.',
  ),

  field(
    'personnel',
    'Personnel',
    'term',
    'tag',
    'calls',
    'Two digits: backs, then tight ends; receivers are what is left of five.',
  ),
  field('formation', 'Formation', 'term', 'tag', 'calls', 'How the offense lines up.'),
  field(
    'receivers',
    'Receivers',
    'term',
    'tag',
    'calls',
    'Eligible receivers on each side, the larger side first, as in 3x1.',
  ),
  field('motion', 'Motion', 'term', 'tag', 'calls', 'Motion or shift before the snap.'),
  field('concept', 'Concept', 'term', 'tag', 'calls', 'The pass or run concept that was called.'),
  field('protection', 'Protection', 'term', 'tag', 'calls', 'How the offense protects the passer.'),
  field('front', 'Front', 'term', 'tag', 'calls', 'How the defensive line aligns.'),
  field(
    'coverage',
    'Coverage',
    'term',
    'tag',
    'calls',
    'The coverage that was played; a family finds its members.',
  ),
  field(
    'pressure',
    'Pressure',
    'term',
    'tag',
    'calls',
    'Who comes: four-man rush, or the pressure that was called.',
  ),
  field('rushers', 'Rushers', 'number', 'tag', 'calls', 'How many defenders rushed the passer.'),

  field('playKind', 'Kind', 'term', 'play', 'outcome', 'Pass, run, or a kind of kick.', { closed: true }),
  field('result', 'Result', 'term', 'play', 'outcome', 'What came of the play.'),
  field(
    'gain',
    'Gain',
    'number',
    'play',
    'outcome',
    'Yards gained from the spot of the snap; negative for a loss.',
    { unit: 'yd' },
  ),
  field(
    'airYards',
    'Air yards',
    'number',
    'play',
    'outcome',
    'Yards from the line of scrimmage to where the ball was or would have been caught.',
    { unit: 'yd' },
  ),
  field(
    'yardsAfterCatch',
    'After catch',
    'number',
    'play',
    'outcome',
    'Yards from the catch to the end of the play.',
    { unit: 'yd' },
  ),
  field('passer', 'Passer', 'player', 'tag', 'people', 'Who threw, or meant to throw.'),
  field('target', 'Target', 'player', 'tag', 'people', 'The receiver the ball was thrown to.'),
  field(
    'leftOutside',
    'Left outside',
    'player',
    'tag',
    'people',
    'The receiver furthest to the left, as the offense sees it; side changes are counted from it.',
  ),
  field(
    'rightOutside',
    'Right outside',
    'player',
    'tag',
    'people',
    'The receiver furthest to the right, as the offense sees it; side changes are counted from it.',
  ),
  field('carrier', 'Carrier', 'player', 'tag', 'people', 'Who carried the ball on a run.'),
  field('tackler', 'Tackler', 'player', 'tag', 'people', 'Who made the tackle or the sack.'),
  field('assist', 'Assist', 'player', 'tag', 'people', 'Who shared the tackle or the sack.'),
  field('assist2', 'Second assist', 'player', 'tag', 'people', 'Who else shared the tackle or the sack.'),
  field(
    'tackler2',
    'Second tackler',
    'player',
    'tag',
    'people',
    'Who made another tackle, after the ball was loose or had changed hands.',
  ),
  field('interceptor', 'Interceptor', 'player', 'tag', 'people', 'Who intercepted the pass.'),
  field('brokenUpBy', 'Broken up by', 'player', 'tag', 'people', 'Which defender broke up the pass.'),
  field('fumbler', 'Fumbler', 'player', 'tag', 'people', 'Who fumbled, where it was not the last carrier.'),
  field('forcedBy', 'Forced by', 'player', 'tag', 'people', 'Which defender forced the fumble.'),
  field('recoverer', 'Recoverer', 'player', 'tag', 'people', 'Who recovered the fumble.'),
  field('kicker', 'Kicker', 'player', 'tag', 'people', 'Who kicked or punted.'),
  field('returner', 'Returner', 'player', 'tag', 'people', 'Who returned the kick.'),
  field(
    'pocket',
    'Pocket',
    'term',
    'tag',
    'outcome',
    'What the rush did to the passer: clean, or pressured in some way.',
  ),
  field('freeRusher', 'Free rusher', 'flag', 'tag', 'outcome', 'A rusher came at the passer unblocked.'),
  field(
    'timeToPressure',
    'Time to pressure',
    'number',
    'tag',
    'outcome',
    'Seconds from the snap until the rush first troubled the passer.',
    { unit: 's' },
  ),
  field(
    'dropped',
    'Dropped',
    'flag',
    'tag',
    'outcome',
    'The target should have caught the ball and did not.',
  ),
  field('route', 'Route', 'term', 'tag', 'calls', 'The route that the target ran.'),
  field('readKey', 'Read key', 'term', 'tag', 'calls', 'What the defender whom the passer reads did.'),
  field('firstDown', 'First down', 'flag', 'play', 'outcome', 'The play made a first down.'),
  field(
    'touchdown',
    'Touchdown',
    'flag',
    'play',
    'outcome',
    'The play ended in a touchdown, by either team.',
  ),
  field(
    'turnover',
    'Turnover',
    'flag',
    'play',
    'outcome',
    'The offense lost the ball by an interception or a fumble.',
  ),
  field('safety', 'Safety', 'flag', 'play', 'outcome', 'The play ended in a safety.'),
  field(
    'fumble',
    'Fumble',
    'term',
    'play',
    'outcome',
    'A fumble on the play, and whether the team that fumbled kept the ball or lost it.',
    { closed: true },
  ),
  field(
    'kickYards',
    'Kick',
    'number',
    'play',
    'outcome',
    'Length of a punt or kickoff from the spot of the kick, or of a field goal try.',
    { unit: 'yd' },
  ),
  field(
    'returnYards',
    'Return',
    'number',
    'play',
    'outcome',
    'Yards of the return of a kick, an interception or a fumble.',
    { unit: 'yd' },
  ),
  field(
    'endYardsToGoal',
    'Ball dead at',
    'spot',
    'tag',
    'outcome',
    'Where the ball was dead before any penalty, as the team that put it in play sees the field.',
    { unit: 'yd' },
  ),
  field(
    'endPossession',
    'Ball ended with',
    'term',
    'tag',
    'outcome',
    'Which team had the ball when the play was over, where fumble and result do not say.',
    { closed: true },
  ),
  field(
    'touchbackRuling',
    'Ruled touchback',
    'flag',
    'tag',
    'outcome',
    'An interception, fumble or missed field goal that ended as a touchback.',
  ),
  field('lateral', 'Lateral', 'flag', 'tag', 'outcome', 'The ball was passed backward during the play.'),
  field('tryKind', 'Try', 'term', 'tag', 'outcome', 'How the try was played: kicked, passed or run.', {
    closed: true,
  }),
  field(
    'timeExpired',
    'Time expired',
    'flag',
    'tag',
    'outcome',
    'The quarter was over after this play and its penalties.',
  ),
  field('penalty', 'Penalty', 'term', 'play', 'outcome', 'The foul that was called.'),
  field(
    'penaltyOn',
    'Foul by',
    'term',
    'play',
    'outcome',
    'Which side fouled: offense is the team that put the ball in play, on kicks too.',
    { closed: true },
  ),
  field('penaltyYards', 'Penalty yards', 'number', 'play', 'outcome', 'Yards marked off.', { unit: 'yd' }),
  field('penaltyOutcome', 'Penalty ruling', 'term', 'play', 'outcome', 'Accepted, declined or offset.', {
    closed: true,
  }),
  field(
    'penaltyFrom',
    'Marked off from',
    'term',
    'tag',
    'outcome',
    'Where the penalty was marked off from: the snap, the foul, the end of the play, or on the kick or try that follows.',
    { closed: true },
  ),
  field(
    'penaltyAt',
    'Marked off at',
    'spot',
    'tag',
    'outcome',
    'The spot the penalty yards were counted from, as the team that put the ball in play sees the field.',
    { unit: 'yd' },
  ),
  field(
    'penaltyDown',
    'Down after penalty',
    'term',
    'tag',
    'outcome',
    'What the penalty did to the down, where the foul itself does not say.',
    { closed: true },
  ),
  field('penalty2', 'Second penalty', 'text', 'tag', 'outcome', 'A second foul on the same play.'),
  field('penalty2On', 'Second foul by', 'text', 'tag', 'outcome', 'Offense or defense.'),
  field(
    'penalty2Yards',
    'Second yards',
    'number',
    'tag',
    'outcome',
    'Yards marked off for the second foul.',
    {
      unit: 'yd',
    },
  ),
  field('penalty2Outcome', 'Second ruling', 'text', 'tag', 'outcome', 'Accepted, declined or offset.'),
  field(
    'penalty2At',
    'Second marked off at',
    'spot',
    'tag',
    'outcome',
    'The spot its yards were counted from.',
    {
      unit: 'yd',
    },
  ),
  field('penalty2From', 'Second marked off from', 'text', 'tag', 'outcome', 'As Marked off from.'),
  field('penalty2Down', 'Down after second', 'text', 'tag', 'outcome', 'As Down after penalty.'),
  field('note', 'Note', 'text', 'play', 'notes', 'Anything the staff wants to keep with the play.'),

  ...DERIVED_FIELDS,
];

/** Keys of fields that are typed columns of `plays`. */
export const PLAY_COLUMN_KEYS = BUILT_IN_FIELDS.filter((f) => f.home === 'play').map((f) => f.key);
