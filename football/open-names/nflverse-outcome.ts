import type { PlayColumns, PlayKind } from '../play.ts';
import type { Described } from './description.ts';
import { teamOf } from './names.ts';
import { ballOf } from './nflverse-ball.ts';
import { penaltiesOf } from './nflverse-penalties.ts';
import { flag, number, type OpenRow, text } from './open-row.ts';
import type { OutcomeContext } from './outcome-context.ts';

export interface OpenOutcome {
  readonly columns: Partial<PlayColumns>;
  readonly tags: Record<string, string | number>;
}

/** Kind, result, yards, ball, scores and penalties of a row. */
export function outcomeOf(row: OpenRow, described: Described, context: OutcomeContext): OpenOutcome {
  const kind = kindOf(row, described, context);
  const tags: Record<string, string | number> = {};
  const penalties = penaltiesOf(row, described, context, kind, tags);
  if (kind === null) context.say('playKind', 'The play type is not given.');
  if (kind === 'noPlay' || kind === null)
    return { columns: { playKind: kind, ...penalties, ...firstDownOf(row) }, tags };

  const result = resultOf(row, described, kind, context);
  const turnover = flag(row, 'interception') || flag(row, 'fumble_lost');
  const fumble =
    flag(row, 'fumble') || described.fumble ? (flag(row, 'fumble_lost') ? 'lost' : 'kept') : null;
  const touchdown =
    (flag(row, 'touchdown') || text(row, 'td_team') !== null) && !described.nullifiedTouchdown;
  const isKick = kind === 'punt' || kind === 'kickoff' || kind === 'fieldGoal';
  const columns: Partial<PlayColumns> = {
    playKind: kind,
    result,
    gain: isKick ? null : number(row, 'yards_gained'),
    airYards: kind === 'pass' ? number(row, 'air_yards') : null,
    yardsAfterCatch: result === 'complete' ? number(row, 'yards_after_catch') : null,
    touchdown: kind === 'try' ? tryScored(row, result) : touchdown,
    turnover: isKick ? null : turnover,
    safety: flag(row, 'safety'),
    fumble,
    kickYards: isKick ? number(row, 'kick_distance') : null,
    returnYards:
      (isKick && kind !== 'fieldGoal') || result === 'interception' ? number(row, 'return_yards') : null,
    ...penalties,
    ...(isKick || kind === 'try' ? {} : firstDownOf(row)),
  };
  if (kind === 'try') tags.tryKind = tryKind(row, described);
  if (described.lateral) tags.lateral = 1;
  if (described.touchback && !isKick) tags.touchbackRuling = 1;
  return { columns, tags: { ...tags, ...ballOf(row, described, context, columns) } };
}

const KINDS: Readonly<Record<string, PlayKind>> = {
  pass: 'pass',
  run: 'run',
  punt: 'punt',
  kickoff: 'kickoff',
  field_goal: 'fieldGoal',
  extra_point: 'try',
  qb_kneel: 'kneel',
  qb_spike: 'spike',
};

/**
 * The dictionary calls every play with a foul that moved the ball `no_play`, also where the down counted;
 * the sentence and the attempt columns tell the two apart.
 */
function kindOf(row: OpenRow, described: Described, context: OutcomeContext): PlayKind | null {
  const type = text(row, 'play_type');
  if (described.noPlay) return 'noPlay';
  if (flag(row, 'two_point_attempt') || flag(row, 'extra_point_attempt')) return 'try';
  if (type !== null && type !== 'no_play') {
    if (type === 'run' && flag(row, 'qb_scramble')) return 'pass';
    return KINDS[type] ?? null;
  }
  const desc = text(row, 'desc');
  if (desc === null) return 'noPlay';
  if (flag(row, 'punt_attempt')) return 'punt';
  if (context.kickoff) return 'kickoff';
  if (flag(row, 'field_goal_attempt')) return 'fieldGoal';
  if (flag(row, 'pass_attempt') || flag(row, 'sack') || flag(row, 'qb_scramble')) return 'pass';
  if (flag(row, 'rush_attempt')) return 'run';
  return 'noPlay';
}

function resultOf(
  row: OpenRow,
  described: Described,
  kind: PlayKind,
  context: OutcomeContext,
): string | null {
  switch (kind) {
    case 'pass':
      if (flag(row, 'sack')) return 'sack';
      if (flag(row, 'interception')) return 'interception';
      if (flag(row, 'qb_scramble')) return 'scramble';
      if (flag(row, 'complete_pass')) return 'complete';
      return 'incomplete';
    case 'run':
      return 'rush';
    case 'spike':
      return 'incomplete';
    case 'kneel':
      return 'rush';
    case 'try':
      return tryResult(row);
    case 'fieldGoal': {
      const result = text(row, 'field_goal_result');
      if (result === 'made' || result === 'good') return 'good';
      if (result === null) context.say('result', 'The result of the field goal is not given.');
      return result === null ? null : result === 'blocked' || described.blocked ? 'blocked' : 'missed';
    }
    case 'punt':
    case 'kickoff':
      return kickResult(row, described, kind, context);
    default:
      return null;
  }
}

function kickResult(
  row: OpenRow,
  described: Described,
  kind: 'punt' | 'kickoff',
  context: OutcomeContext,
): string {
  if (kind === 'kickoff' && described.shortKickoff) return 'outOfBounds';
  if (flag(row, 'punt_blocked') || described.blocked) return 'blocked';
  if (flag(row, 'own_kickoff_recovery') || ownRecovery(described, kind, context)) return 'onsideRecovered';
  if (flag(row, 'touchback') || described.touchback) return 'touchback';
  if (described.muff) return 'muffed';
  if (flag(row, 'punt_fair_catch') || flag(row, 'kickoff_fair_catch')) return 'fairCatch';
  const loose = described.fumble || /\bran ob\b|pushed ob/.test(text(row, 'desc') ?? '');
  if (flag(row, 'punt_downed') || flag(row, 'kickoff_downed')) return 'downed';
  if (flag(row, `${kind}_out_of_bounds`) || (described.outOfBounds && !loose)) return 'outOfBounds';
  const desc = text(row, 'desc') ?? '';
  if (/fair catch/i.test(desc)) return 'fairCatch';
  if (/downed by/i.test(desc)) return 'downed';
  return 'returned';
}

/** The kicking team fell on its own kickoff before anyone else had it. */
function ownRecovery(described: Described, kind: 'punt' | 'kickoff', context: OutcomeContext): boolean {
  const { endedWith } = described;
  if (kind !== 'kickoff' || typeof endedWith !== 'object' || described.fumble || described.muff) return false;
  return teamOf(endedWith.team, context.home, context.away) === context.possession;
}

function tryResult(row: OpenRow): string {
  const twoPoint = text(row, 'two_point_conv_result');
  if (twoPoint !== null) return twoPoint === 'success' ? 'good' : 'failed';
  const kick = text(row, 'extra_point_result');
  if (kick === 'good' || kick === 'made') return 'good';
  if (kick === 'blocked') return 'blocked';
  return kick === null ? 'failed' : 'missed';
}

function tryKind(row: OpenRow, described: Described): string {
  if (!flag(row, 'two_point_attempt')) return 'kick try';
  return flag(row, 'pass_attempt') ||
    (!flag(row, 'rush_attempt') && described.kick === null && flag(row, 'qb_dropback'))
    ? 'pass try'
    : 'run try';
}

function tryScored(row: OpenRow, result: string | null): boolean {
  return (
    (result === 'good' && flag(row, 'two_point_attempt')) ||
    flag(row, 'defensive_two_point_conv') ||
    flag(row, 'defensive_extra_point_conv')
  );
}

function firstDownOf(row: OpenRow): Partial<PlayColumns> {
  const columns = ['first_down_rush', 'first_down_pass', 'first_down_penalty'];
  if (columns.every((column) => text(row, column) === null)) return {};
  return { firstDown: columns.some((column) => flag(row, column)) };
}
