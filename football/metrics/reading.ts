import type { PlayRecord } from '../play.ts';

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
  /** a touchdown by the offense */
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
  touchdown: false,
};

/** Reads one play. Fouls that offset each other wipe the play out, as a logged `noPlay` does. */
export function readPlay(play: PlayRecord): PlayReading {
  const kind = callKind(play);
  if (kind === null || play.penaltyOutcome === 'offset') return NOTHING;
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
    gain: play.gain ?? (spike || (thrown && !complete) ? 0 : null),
    lost,
    touchdown: play.touchdown === true && !lost,
  };
}
