import type { PlayRecord } from '../play.ts';
import type { Rules } from '../rules/index.ts';
import { settledPlay } from '../situation/play-effect.ts';

/**
 * What a logged play counts as, before any number is made of it. One reading for metrics, drives and the
 * box score, so that they cannot disagree about what an attempt is.
 */
export interface PlayReading {
  /** a play from scrimmage that counts: pass, run, spike or kneel; never a kick, a try or a nullified play */
  readonly call: boolean;
  readonly spike: boolean;
  readonly kneel: boolean;
  /** a run that was called, or a scramble; a kneel is neither */
  readonly run: boolean;
  /** a pass that was called and not run: thrown, sacked, or not known yet; a spike is not one */
  readonly pass: boolean;
  readonly dropback: boolean;
  readonly attempt: boolean;
  readonly complete: boolean;
  readonly interception: boolean;
  readonly sack: boolean;
  readonly scramble: boolean;
  /** yards; 0 by rule on a pass that nobody of the offense caught, else as recorded */
  readonly gain: number | null;
  /** the offense lost the ball */
  readonly lost: boolean;
  /** the play counts, but a foul during it has its down played again: no third-down attempt, no first down */
  readonly replayed: boolean;
  /** a touchdown by the offense: logged, or the gain reached the goal line and nothing says otherwise */
  readonly touchdown: boolean;
}

const THROWN: ReadonlySet<string> = new Set(['complete', 'incomplete', 'interception', 'throwaway']);
const CALL_KINDS: ReadonlySet<string> = new Set(['pass', 'run', 'spike', 'kneel']);

/** The kind of a play from scrimmage, from its result where the kind is not logged; null for all else. */
function callKind(play: PlayRecord): string | null {
  const { playKind, result } = play;
  if (playKind !== null) return CALL_KINDS.has(playKind) ? playKind : null;
  if (result === 'rush') return 'run';
  if (result === 'sack' || result === 'scramble') return 'pass';
  return result !== null && THROWN.has(result) ? 'pass' : null;
}

const NOTHING: PlayReading = {
  call: false,
  spike: false,
  kneel: false,
  run: false,
  pass: false,
  dropback: false,
  attempt: false,
  complete: false,
  interception: false,
  sack: false,
  scramble: false,
  gain: null,
  lost: false,
  replayed: false,
  touchdown: false,
};

/**
 * Reads one play.
 * @param rules by which a penalty may have undone the play; without them only `noPlay` and fouls that offset
 *   each other do
 */
export function readPlay(play: PlayRecord, rules?: Rules): PlayReading {
  const kind = callKind(play);
  if (kind === null) return NOTHING;
  const ruling = penaltyRuling(play, rules);
  if (ruling === 'undone') return NOTHING;
  const { result } = play;
  const spike = kind === 'spike';
  const kneel = kind === 'kneel';
  const ordinary = !spike && !kneel;
  const thrown = ordinary && result !== null && THROWN.has(result);
  const sack = ordinary && result === 'sack';
  const scramble = ordinary && result === 'scramble';
  const run = ordinary && (scramble || result === 'rush' || (kind === 'run' && !thrown && !sack));
  const pass = ordinary && !run;
  const complete = thrown && result === 'complete';
  const gain = play.gain ?? (spike || (thrown && !complete) ? 0 : null);
  const lost = play.turnover ?? (result === 'interception' || play.fumble === 'lost');
  return {
    call: true,
    spike,
    kneel,
    run,
    pass,
    dropback: pass || scramble,
    attempt: thrown || spike,
    complete,
    interception: thrown && result === 'interception',
    sack,
    scramble,
    gain,
    lost,
    replayed: ruling === 'replayed',
    touchdown: !lost && (play.touchdown ?? reachesGoal(gain, play.yardsToGoal)),
  };
}

/** A first down by the play itself: logged, or else the gain reached the distance and the ball was kept. */
export function madeFirstDown(play: PlayRecord, reading: PlayReading): boolean {
  if (play.firstDown !== null) return play.firstDown;
  const { distance } = play;
  return (
    !reading.lost &&
    !reading.replayed &&
    reading.gain !== null &&
    distance !== null &&
    reading.gain >= distance
  );
}

/**
 * A third or fourth down is converted by its own gain or a touchdown; a recorded first down decides only
 * where the gain can't, because it may have come by a foul after the play, which the books don't count.
 */
export function converted(play: PlayRecord, reading: PlayReading): boolean {
  if (reading.touchdown) return true;
  if (reading.lost) return false;
  if (reading.gain === null || play.distance === null) return play.firstDown === true;
  return reading.gain >= play.distance;
}

/** A gain to the goal line is a touchdown by rule, also where nobody logged it as one. */
function reachesGoal(gain: number | null, yardsToGoal: number | null): boolean {
  return gain !== null && yardsToGoal !== null && gain >= yardsToGoal;
}

/** Whether a penalty wiped the play out, so that it has no statistics at any level, or had its down played again. */
function penaltyRuling(play: PlayRecord, rules: Rules | undefined): 'undone' | 'replayed' | null {
  if (play.penalty === null && play.penaltyOutcome === null) return null;
  if (!rules)
    return play.penaltyOutcome === 'offset' && play.tags.penaltyDown !== 'down counts' ? 'undone' : null;
  const effect = settledPlay(play, rules);
  if (!effect.ok) return null;
  if (effect.settled.ending.what === 'replay') return 'undone';
  return effect.settled.down === 'replay' ? 'replayed' : null;
}
