import type { Hash, PlayRecord } from '../play.ts';
import type { Rules } from '../rules/index.ts';
import type { Prediction, Situation, Teams } from './situation.ts';

export type { Prediction, Situation, Teams } from './situation.ts';

/**
 * The situation of the play after the last of `previous`, or the reason why it cannot be known.
 * @param previous the plays of one game logged so far, in any order; they are read by play number
 * @param rules the level's rules
 * @param teams the two names as `possession` writes them; where missing they are taken from the plays
 */
export function predictNext(previous: readonly PlayRecord[], rules: Rules, teams: Teams = {}): Prediction {
  const plays = [...previous].sort((a, b) => (a.playNumber ?? Infinity) - (b.playNumber ?? Infinity));
  const play = plays.at(-1);
  if (!play) return missing('no-play', 'There is no play before this one.');
  const { possession, yardsToGoal, playKind, result } = play;
  if (possession === null)
    return missing('possession-missing', 'Who had the ball is not logged.', 'possession');
  if (yardsToGoal === null)
    return missing('spot-missing', 'The spot of the play is not logged.', 'yardsToGoal');
  if (playKind === null)
    return missing('kind-missing', 'What kind of play it was is not logged.', 'playKind');
  if (play.penalty !== null && play.penaltyOutcome !== 'declined')
    return missing(
      'penalty-open',
      'A penalty was called: its enforcement is not worked out.',
      'penaltyOutcome',
    );
  if (play.fumble !== null || result === 'interception')
    return missing(
      'turnover-open',
      'The ball changed hands: where it was dead is not logged.',
      'endYardsToGoal',
    );
  const other = otherTeam(plays, possession, teams);
  if (other === null) return missing('teams-unknown', 'The other team is not known yet.', 'possession');

  const scoreFor = play.scoreFor ?? scoreBefore(plays);
  const scoreAgainst = play.scoreAgainst ?? scoreBefore(plays);
  const next = (team: string, points: number, more: Partial<Situation>, sameDrive: boolean): Prediction => {
    const own = scoreFor === null ? null : scoreFor + points;
    const situation: Situation = {
      quarter: play.quarter,
      clock: null,
      possession: team,
      down: null,
      distance: null,
      yardsToGoal: null,
      hash: null,
      playKind: null,
      scoreFor: team === possession ? own : scoreAgainst,
      scoreAgainst: team === possession ? scoreAgainst : own,
      ...more,
    };
    const asks = (['clock', 'hash'] as const).filter((key) => situation[key] === null);
    return { ok: true, situation, asks, sameDrive };
  };
  const firstAt = (team: string, toGoal: number): Prediction =>
    next(team, 0, { down: 1, distance: Math.min(10, toGoal), yardsToGoal: toGoal }, false);
  const kickoff = (team: string, points: number): Prediction =>
    next(team, points, { playKind: 'kickoff', yardsToGoal: 100 - rules.kickoffOwnYardLine.value }, false);

  if (playKind === 'try') {
    if (result !== 'good' && result !== 'missed' && result !== 'blocked' && result !== 'failed')
      return missing('result-missing', 'What came of the try is not logged.', 'result');
    const points = result !== 'good' ? 0 : yardsToGoal === rules.tryKickYardsToGoal.value ? 1 : 2;
    return kickoff(possession, points);
  }
  if (playKind === 'kickoff' || playKind === 'punt') {
    if (play.touchdown) return missing('return-touchdown', 'The return scored.', 'result');
    if (result === 'touchback') {
      const line = playKind === 'punt' ? rules.touchbackOwnYardLine : rules.kickoffTouchbackOwnYardLine;
      return firstAt(other, 100 - line.value);
    }
    const returned = play.returnYards ?? (result === 'returned' || result === null ? null : 0);
    if (play.kickYards === null || returned === null || result === 'blocked' || result === 'muffed')
      return missing('kick-open', 'Where the kick was dead is not logged.', 'kickYards');
    if (result === 'onsideRecovered') return firstAt(possession, yardsToGoal - play.kickYards - returned);
    const toGoal = 100 - (yardsToGoal - play.kickYards + returned);
    return toGoal >= 1 && toGoal <= 99
      ? firstAt(other, toGoal)
      : missing('spot-beyond-field', 'The kick and the return end beyond the goal line.', 'returnYards');
  }
  if (playKind === 'fieldGoal') {
    if (result === 'good') return kickoff(possession, 3);
    return missing('kick-open', 'Where the ball is put after the miss is not logged.', 'endYardsToGoal');
  }
  if (playKind === 'noPlay')
    return missing('penalty-open', 'A play that did not count, without its penalty.', 'penalty');

  const nothing = result === 'incomplete' || result === 'throwaway' || playKind === 'spike';
  const gain = play.gain ?? (nothing ? 0 : null);
  if (gain === null) return missing('gain-missing', 'The gain is not logged.', 'gain');
  const toGoal = yardsToGoal - gain;
  if (toGoal <= 0 || play.touchdown)
    return next(possession, 6, { playKind: 'try', yardsToGoal: rules.tryKickYardsToGoal.value }, true);
  if (toGoal >= 100 || play.safety)
    return missing('safety-open', 'The play ended behind its own goal line.', 'safety');
  const { down, distance } = play;
  if (down === null) return missing('down-missing', 'The down is not logged.', 'down');
  if (distance === null) return missing('distance-missing', 'The distance is not logged.', 'distance');
  const hash = nothing ? (play.hash as Hash | null) : null;
  if (gain >= distance)
    return next(possession, 0, { down: 1, distance: Math.min(10, toGoal), yardsToGoal: toGoal, hash }, true);
  if (down >= 4) return firstAt(other, 100 - toGoal);
  return next(possession, 0, { down: down + 1, distance: distance - gain, yardsToGoal: toGoal, hash }, true);
}

function missing(code: string, reason: string, field?: string): Prediction {
  return { ok: false, code, reason, ...(field ? { field } : {}) };
}

/** The first play of a game finds the score level at nothing; elsewhere a score not logged is not known. */
function scoreBefore(plays: readonly PlayRecord[]): number | null {
  return plays.length === 1 && plays[0]?.playNumber === 1 ? 0 : null;
}

function otherTeam(plays: readonly PlayRecord[], team: string, teams: Teams): string | null {
  if (teams.home === team && teams.away) return teams.away;
  if (teams.away === team && teams.home) return teams.home;
  return plays.find((p) => p.possession !== null && p.possession !== team)?.possession ?? null;
}
