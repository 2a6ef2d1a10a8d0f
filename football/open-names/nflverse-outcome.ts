import type { PlayColumns, PlayKind } from '../play.ts';
import type { Described, DescribedPenalty, DescribedSpot } from './description.ts';
import { openFoul, teamOf } from './names.ts';
import { flag, number, type OpenRow, text } from './open-row.ts';

export interface OutcomeContext {
  readonly home: string;
  readonly away: string;
  readonly possession: string | null;
  readonly yardsToGoal: number | null;
  readonly kickoff: boolean;
  /** lists what no column says */
  say(field: string, reason: string): void;
}

export interface OpenOutcome {
  readonly columns: Partial<PlayColumns>;
  readonly tags: Record<string, string | number>;
}

type Side = 'offense' | 'defense';

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
  ballOf(row, described, context, columns, tags);
  return { columns, tags };
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
      return kickResult(row, described, kind);
    default:
      return null;
  }
}

function kickResult(row: OpenRow, described: Described, kind: 'punt' | 'kickoff'): string {
  if (flag(row, 'punt_blocked') || described.blocked) return 'blocked';
  if (flag(row, 'own_kickoff_recovery')) return 'onsideRecovered';
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

/** Where the ball was dead and who had it, wherever the yards alone do not say. */
function ballOf(
  row: OpenRow,
  described: Described,
  context: OutcomeContext,
  columns: Partial<PlayColumns>,
  tags: Record<string, string | number>,
): void {
  const { possession } = context;
  const other = possession === context.home ? context.away : context.home;
  const kind = columns.playKind;
  const isKick = kind === 'punt' || kind === 'kickoff' || kind === 'fieldGoal';
  const incomplete = columns.result === 'incomplete';
  const complex =
    described.fumble || described.muff || described.lateral || columns.result === 'interception';
  const loose = complex || isKick || flag(row, 'fumble');
  if (!loose || incomplete || kind === 'try' || possession === null) {
    if (kind === 'try' && (flag(row, 'defensive_two_point_conv') || flag(row, 'defensive_extra_point_conv')))
      tags.endPossession = 'defense ball';
    return;
  }
  const scorer = text(row, 'td_team');
  const desc = text(row, 'desc');
  let side: Side | null = null;
  if (columns.touchdown && scorer !== null)
    side = teamOf(scorer, context.home, context.away) === possession ? 'offense' : 'defense';
  else if (
    desc !== null &&
    (complex || (columns.result === 'blocked' && typeof described.endedWith === 'object'))
  ) {
    const ended = described.endedWith;
    const team =
      typeof ended === 'object'
        ? teamOf(ended.team, context.home, context.away)
        : ended === 'start'
          ? possession
          : other;
    if (team !== null) side = team === possession ? 'offense' : 'defense';
  }
  if (side !== null) tags.endPossession = `${side} ball`;
  const scored = columns.touchdown || columns.safety || described.touchback || columns.result === 'good';
  if (scored) return;
  const dead = described.nullifiedTouchdown
    ? (described.penalties.find((p) => p.ruling === 'accepted')?.at ?? null)
    : described.lastSpot;
  const recovered = columns.result === 'blocked' && typeof described.endedWith === 'object';
  const needed =
    complex || recovered || described.nullifiedTouchdown || kind === 'punt' || kind === 'kickoff';
  if (!needed) return;
  if (kind === 'kickoff' && columns.result === 'outOfBounds' && !complex) return;
  const at = spotToGoal(dead, context);
  if (at !== null && at > 0 && at < 100) tags.endYardsToGoal = at;
  else if (complex || recovered) context.say('endYardsToGoal', 'No column says where the ball was dead.');
}

/** A spot as the team in possession sees it. */
function spotToGoal(spot: DescribedSpot | null, context: OutcomeContext): number | null {
  if (spot === null || context.possession === null) return null;
  if (spot.team === null) return 50;
  const team = teamOf(spot.team, context.home, context.away);
  if (team === null) return null;
  return team === context.possession ? 100 - spot.line : spot.line;
}

/** The first two fouls that count; the sentence tells more than the columns, which know one. */
function penaltiesOf(
  row: OpenRow,
  described: Described,
  context: OutcomeContext,
  kind: PlayKind | null,
  tags: Record<string, string | number>,
): Partial<PlayColumns> {
  const order = { accepted: 0, offset: 1, declined: 2 };
  const listed = [...described.penalties].sort((a, b) => order[a.ruling] - order[b.ruling]);
  const penalties = listed.length > 0 ? listed : fromColumns(row);
  const [first, second] = penalties;
  if (penalties.filter((p) => p.ruling === 'accepted').length > 2)
    context.say('penalty', 'More than two penalties were marked off; two can be recorded.');
  if (!first) return {};
  const on = (penalty: DescribedPenalty): Side | null => {
    const team = teamOf(penalty.team, context.home, context.away);
    if (team === null || context.possession === null) return null;
    return team === context.possession ? 'offense' : 'defense';
  };
  const where = (penalty: DescribedPenalty, prefix: 'penalty' | 'penalty2'): void => {
    if (penalty.ruling !== 'accepted') return;
    const at = spotToGoal(penalty.at, context);
    if (at !== null) tags[`${prefix}At`] = at;
    else if (kind !== 'noPlay' && !penalty.betweenDowns && penalty.yards !== null)
      context.say('penaltyAt', 'No column says where the penalty was marked off from.');
    const beforeKick =
      followsScore(row) || (kind === 'noPlay' && !context.kickoff && number(row, 'down') === null);
    if (penalty.betweenDowns) tags[`${prefix}From`] = beforeKick ? 'on kickoff' : 'from end';
  };
  where(first, 'penalty');
  // a receiver who had stepped out and touched the pass costs the down instead of yards
  if (first.ruling === 'accepted' && first.yards === 0 && openFoul(first.foul) === 'illegal touching')
    tags.penaltyDown = 'loss of down';
  if (second) {
    tags.penalty2 = openFoul(second.foul);
    const side = on(second);
    if (side !== null) tags.penalty2On = side;
    if (second.yards !== null) tags.penalty2Yards = second.yards;
    tags.penalty2Outcome = second.ruling;
    where(second, 'penalty2');
  }
  return {
    penalty: openFoul(first.foul),
    penaltyOn: on(first),
    penaltyYards: first.yards,
    penaltyOutcome: first.ruling,
  };
}

function followsScore(row: OpenRow): boolean {
  return (
    flag(row, 'touchdown') ||
    flag(row, 'two_point_attempt') ||
    flag(row, 'extra_point_attempt') ||
    text(row, 'extra_point_result') !== null ||
    text(row, 'field_goal_result') === 'made' ||
    flag(row, 'safety')
  );
}

/** Without a sentence: the one penalty the columns know, taken as marked off if it cost yards. */
function fromColumns(row: OpenRow): DescribedPenalty[] {
  const foul = text(row, 'penalty_type');
  const team = text(row, 'penalty_team');
  if (!flag(row, 'penalty') || foul === null || team === null) return [];
  const yards = number(row, 'penalty_yards');
  return [
    {
      team,
      foul,
      yards,
      ruling: yards === null || yards === 0 ? 'declined' : 'accepted',
      at: null,
      betweenDowns: false,
    },
  ];
}
