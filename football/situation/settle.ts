import type { PlayRecord } from '../play.ts';
import { foulRule, penaltyYards } from '../rules/fouls.ts';
import type { FoulRule, Rules, Side } from '../rules/types.ts';
import type { Ending } from './ending.ts';
import { type Gap, gap, isGap } from './gap.ts';
import type { Flag, Recorded } from './record.ts';

/** A play with its penalties marked off. Spots are the yards to goal of the team that put the ball in play. */
export interface Settled {
  /** `replay` where an enforced penalty undid the play */
  readonly ending: Ending;
  /** what happens to the down */
  readonly down: 'counts' | 'replay' | 'loss' | 'first';
  /** where the play left the ball for the count of the series: before fouls that came after the play */
  readonly seriesAt: number;
  /** where the ball is put in play next */
  readonly finalAt: number;
  /** a foul of the defense after the play gives a first down, if the ball was not lost on downs */
  readonly firstAfter: boolean;
  /** yards carried over to the kickoff and to the try, positive against the team that had the ball */
  readonly onKickoff: number;
  readonly onTry: number;
}

interface Marked {
  readonly flag: Flag;
  readonly by: Side;
  readonly rule: FoulRule | null;
}

export function settle(play: PlayRecord, recorded: Recorded, ending: Ending, rules: Rules): Settled | Gap {
  const marked = acceptedFlags(recorded, rules);
  if (isGap(marked)) return marked;
  const snap = play.yardsToGoal ?? 0;
  const start: Settled = {
    ending,
    down: ending.what === 'replay' ? 'replay' : 'counts',
    seriesAt: ending.what === 'spot' ? ending.at : snap,
    finalAt: ending.what === 'spot' ? ending.at : snap,
    firstAfter: false,
    onKickoff: 0,
    onTry: 0,
  };
  if (marked.length === 0) {
    const offset = recorded.flags.filter((flag) => flag.ruling === 'offset');
    if (offset.length > 0) return offsetFouls(offset, start, snap, rules);
    if (ending.what === 'replay')
      return gap(
        'penalty-missing',
        'The play did not count, but no penalty is logged as accepted.',
        'penalty',
      );
    return start;
  }
  let settled = start;
  // fouls during the play are marked off before fouls after it
  const order = [...marked].sort((a, b) => Number(isAfter(a, ending)) - Number(isAfter(b, ending)));
  for (const one of order) {
    const next = markOff(play, recorded, one, settled, ending, snap, rules);
    if (isGap(next)) return next;
    settled = next;
  }
  return settled;
}

function acceptedFlags(recorded: Recorded, rules: Rules): Marked[] | Gap {
  const marked: Marked[] = [];
  for (const flag of recorded.flags) {
    if (flag.ruling === 'declined' || flag.ruling === 'offset') continue;
    if (flag.ruling === null && flag.yards === null)
      return gap('ruling-missing', 'Whether the penalty was accepted is not logged.', 'penaltyOutcome');
    // the rule that places an out-of-bounds kickoff is its penalty
    if (flag.foul === 'kickoff out of bounds' && recorded.kind === 'kickoff') continue;
    if (flag.by === null) return gap('side-missing', 'Which side fouled is not logged.', 'penaltyOn');
    marked.push({ flag, by: flag.by, rule: foulRule(rules, flag.foul, flag.by) });
  }
  return marked;
}

/** Fouls of both sides cancel each other and the down is played again, unless they came after the play. */
function offsetFouls(flags: readonly Flag[], start: Settled, snap: number, rules: Rules): Settled {
  const after = flags.every(
    (flag) => flag.down === 'counts' || foulRule(rules, flag.foul, flag.by)?.when === 'after',
  );
  if (after && start.ending.what !== 'replay') return start;
  return { ...start, ending: { what: 'replay' }, down: 'replay', seriesAt: snap, finalAt: snap };
}

/** Whether the foul came when the play was over. */
function isAfter({ flag, rule }: Marked, ending: Ending): boolean {
  if (flag.down === 'replay' || flag.down === 'loss') return false;
  if (ending.what !== 'spot' || rule === null)
    return (
      flag.from === 'end' && (flag.down === 'counts' || rule?.when === 'after' || rule?.when === 'either')
    );
  if (rule.when === 'after') return flag.from !== 'snap';
  if (rule.when === 'before') return flag.from === 'end' || flag.at === ending.at;
  return rule.when === 'either' && (flag.from === 'end' || (flag.from === null && flag.at === ending.at));
}

function markOff(
  play: PlayRecord,
  recorded: Recorded,
  one: Marked,
  before: Settled,
  ending: Ending,
  snap: number,
  rules: Rules,
): Settled | Gap {
  const { flag, by, rule } = one;
  if (ending.what === 'replay' && flag.from === 'kickoff') return carryOver(one, before, ending, rules);
  if (ending.what !== 'spot' && ending.what !== 'replay') return carryOver(one, before, ending, rules);
  const after = isAfter(one, ending);
  const from = ending.what === 'replay' ? 'snap' : markedFrom(recorded, one, ending, snap, rules);
  if (isGap(from)) return from;
  const undone = !after && from === 'snap' && ending.what === 'spot' && before.ending.what === 'spot';
  const base = flag.at ?? (from === 'snap' && !after ? (undone ? snap : before.finalAt) : before.finalAt);
  const yards = yardsOf(one, base);
  if (isGap(yards)) return yards;
  const finalAt = base + (by === 'offense' ? yards : -yards);
  if (finalAt <= 0 || finalAt >= 100)
    return gap('penalty-off-field', 'The penalty would carry the ball over a goal line.', 'penaltyYards');
  const firstDown =
    by === 'defense' && (flag.down === 'first' || (flag.down === null && isFirstDown(play, rule)));
  if (after) return { ...before, finalAt, firstAfter: before.firstAfter || firstDown };

  if (
    rule === null &&
    flag.down === null &&
    ending.what === 'spot' &&
    ending.holder === 'offense' &&
    !ending.changed &&
    !firstDown
  )
    return gap('foul-unknown', 'What this foul does to the down is not known; log it.', 'penaltyDown');
  const loss =
    flag.down === 'loss' || (flag.down === null && by === 'offense' && (rule?.lossOfDown ?? false));
  const effect = firstDown ? 'first' : loss ? 'loss' : flag.down === 'counts' ? 'counts' : 'replay';
  return {
    ...before,
    ending: undone ? { what: 'replay' } : before.ending,
    down: strongest(before, effect),
    seriesAt: finalAt,
    finalAt,
  };
}

/** A first down outweighs a lost down, a lost down a replay. */
function strongest(before: Settled, effect: Settled['down']): Settled['down'] {
  const rank = { counts: 0, replay: 1, loss: 2, first: 3 };
  return rank[before.down] > rank[effect] ? before.down : effect;
}

/** The record may know of a first down that the table of fouls does not. */
function isFirstDown(play: PlayRecord, rule: FoulRule | null): boolean {
  return rule === null ? play.firstDown === true : rule.automaticFirstDown;
}

/** Where the yards are counted from: the spot of the snap, or wherever the record or the play says. */
function markedFrom(
  recorded: Recorded,
  { flag, by, rule }: Marked,
  ending: Extract<Ending, { what: 'spot' }>,
  snap: number,
  rules: Rules,
): 'snap' | 'spot' | Gap {
  if (flag.from === 'snap') return 'snap';
  if (flag.from === 'end' || flag.at !== null) return 'spot';
  const open = gap(
    'penalty-spot-missing',
    'Where the penalty was marked off from is not logged.',
    'penaltyAt',
  );
  if (flag.from !== null || rule === null) return open;
  if (rule.from !== 'depends') return rule.from === 'snap' ? 'snap' : 'spot';
  if (ending.changed || ending.holder !== 'offense') return open;
  const stopped = ending.at >= snap;
  // behind the neutral zone the previous spot is basic; the high school book has its own principle
  if (by === 'offense') return stopped && rules.level !== 'nfhs' ? 'snap' : open;
  if (stopped) return 'snap';
  const ran = recorded.kind === 'run' || recorded.result === 'scramble' || recorded.result === 'rush';
  return ran || rule.yards === 15 ? 'spot' : open;
}

function yardsOf({ flag, by, rule }: Marked, base: number): number | Gap {
  if (flag.yards === null) {
    if (rule === null || rule.yards === 'spot')
      return gap('penalty-yards-missing', 'The yards of the penalty are not logged.', 'penaltyYards');
    return penaltyYards(rule.yards, by, base);
  }
  if (flag.yards < 0) return gap('penalty-yards-negative', 'Penalty yards are not negative.', 'penaltyYards');
  const half = Math.ceil((by === 'offense' ? 100 - base : base) / 2);
  if (!rule?.toSpot && flag.yards > half)
    return gap(
      'penalty-beyond-half',
      'A penalty never takes more than half the distance to the goal.',
      'penaltyYards',
    );
  return flag.yards;
}

/** After a score the yards are marked off on what follows. */
function carryOver(one: Marked, before: Settled, ending: Ending, rules: Rules): Settled | Gap {
  const { flag, by, rule } = one;
  const yards = flag.yards ?? (typeof rule?.yards === 'number' ? rule.yards : null);
  if (yards === null)
    return gap('penalty-yards-missing', 'The yards of the penalty are not logged.', 'penaltyYards');
  const signed = by === 'offense' ? yards : -yards;
  if (flag.from === 'try' && ending.what === 'touchdown') return { ...before, onTry: before.onTry + signed };
  if (
    flag.from === null &&
    ending.what === 'touchdown' &&
    rules.overtime.value.kind === 'series' &&
    by === 'defense'
  )
    return gap('carry-missing', 'Was the penalty marked off on the try or on the kickoff?', 'penaltyFrom');
  return { ...before, onKickoff: before.onKickoff + signed };
}
