import type { PlayRecord } from '../play.ts';
import type { Rules } from '../rules/types.ts';
import type { Ending } from './ending.ts';
import { type Gap, gap } from './gap.ts';
import type { Recorded } from './record.ts';

/**
 * The points of a try. `good` is the word for a kick; a pass or a run is good when it is a touchdown, when
 * its gain reaches the goal line, or when `tryKind` says what was good.
 */
export function tryEnding(play: PlayRecord, recorded: Recorded, rules: Rules): Ending | Gap {
  const { result, endedWith } = recorded;
  const ends = (offensePoints: number, defensePoints = 0): Ending => ({
    what: 'try',
    offensePoints,
    defensePoints,
  });
  const turned = result === 'interception' || recorded.fumble === 'lost' || result === 'returned';
  const holder = endedWith ?? (turned ? 'defense' : 'offense');
  if (play.safety) return holder === 'defense' ? ends(1) : ends(0, 1);
  if (holder === 'defense') {
    if (!play.touchdown) return ends(0);
    return rules.defenseScoresOnTry.value
      ? ends(0, 2)
      : gap('score-contradicts', 'At this level the defense cannot score on a try.', 'touchdown');
  }
  switch (result) {
    case 'good':
      return ends(recorded.tryKind === 'pass' || recorded.tryKind === 'run' ? 2 : 1);
    case 'missed':
    case 'failed':
    case 'incomplete':
    case 'throwaway':
    case 'sack':
    case 'blocked':
      return play.touchdown
        ? gap('score-contradicts', `A try that is ${result} does not score.`, 'touchdown')
        : ends(0);
    case 'complete':
    case 'rush':
    case 'scramble': {
      if (play.touchdown) return ends(2);
      if (play.gain !== null && play.yardsToGoal !== null) return ends(play.gain >= play.yardsToGoal ? 2 : 0);
      if (play.touchdown === false) return ends(0);
      return gap('result-missing', 'Whether the try was good is not logged.', 'touchdown');
    }
    case null:
      if (play.touchdown && recorded.tryKind !== null) return ends(recorded.tryKind === 'kick' ? 1 : 2);
      return gap('result-missing', 'What came of the try is not logged.', 'result');
    default:
      return gap('result-missing', 'What came of the try is not logged.', 'result');
  }
}
