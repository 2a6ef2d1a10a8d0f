import type { PlayColumns, PlayKind } from '../play.ts';
import type { Side } from '../rules/types.ts';
import type { Described, DescribedPenalty } from './description.ts';
import { openFoul, teamOf } from './names.ts';
import { flag, number, type OpenRow, text } from './open-row.ts';
import { type OutcomeContext, spotToGoal } from './outcome-context.ts';

/** The first two fouls that count; the sentence tells more than the columns, which know one. */
export function penaltiesOf(
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
