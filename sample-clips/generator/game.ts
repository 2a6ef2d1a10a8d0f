import type { KickCall, ScrimmageCall } from './calls.ts';
import { isRun } from './calls.ts';
import { HASH_OFFSET_YARDS } from './field.ts';
import { playKick } from './kicks.ts';
import { otherTeam, type TeamName } from './rosters.ts';
import { playDown } from './scrimmage.ts';
import { callAt, type ScriptLine } from './script.ts';
import type { PlaySimulation } from './simulation.ts';
import { clamp } from './space.ts';
import { TICKS_PER_SECOND } from './world.ts';

/** A quarter shortened by agreement of the two staffs, as the rules allow for a scrimmage-length game. */
export const QUARTER_SECONDS = 360;
const TRY_SPOT_YARDS = 3;
const KICKOFF_TO_GOAL_YARDS = 65;

export interface GameSituation {
  readonly quarter: number;
  readonly clockSeconds: number;
  readonly possession: TeamName;
  readonly drive: number | null;
  readonly down: number | null;
  readonly distance: number | null;
  readonly yardsToGoal: number;
  readonly ballAcross: number;
  readonly score: Readonly<Record<TeamName, number>>;
}

export interface GamePlay {
  readonly playNumber: number;
  readonly situation: GameSituation;
  readonly call: ScrimmageCall | KickCall;
  readonly simulation: PlaySimulation;
  readonly firstDown: boolean;
  readonly turnover: boolean;
}

type Next = 'kickoff' | 'scrimmage' | 'try';

interface GameState {
  next: Next;
  possession: TeamName;
  drive: number;
  down: number;
  distance: number;
  yardsToGoal: number;
  ballAcross: number;
  score: Record<TeamName, number>;
  /** the clock runs from the last whistle to the next snap */
  running: boolean;
}

export function isKick<Down extends object>(call: Down | KickCall): call is KickCall {
  return 'kick' in call;
}

/** Plays the script through. Each situation follows from what the simulation of the play before came to. */
export function playGame(script: readonly ScriptLine[]): GamePlay[] {
  const state: GameState = {
    next: 'kickoff',
    possession: 'Mariners',
    drive: 0,
    down: 1,
    distance: 10,
    yardsToGoal: KICKOFF_TO_GOAL_YARDS,
    ballAcross: 0,
    score: { Herons: 0, Mariners: 0 },
    running: false,
  };
  const plays: {
    play: Omit<GamePlay, 'situation'> & { situation: Omit<GameSituation, 'clockSeconds'> };
    running: boolean;
  }[] = [];
  let quarter = 1;
  script.forEach((line, index) => {
    const playNumber = index + 1;
    if (line.quarter && line.quarter !== quarter) {
      quarter = line.quarter;
      if (quarter === 3)
        Object.assign(state, { next: 'kickoff', possession: 'Herons' satisfies TeamName, running: false });
    }
    const call = isKick(line.call) ? line.call : callAt(line.call, state.ballAcross);
    const situation = situationOf(state, call, quarter, playNumber);
    const simulation = simulate(call, situation, playNumber);
    const before = { ...state, score: { ...state.score } };
    const after = isKick(call) ? afterKick(state, call, simulation) : afterDown(state, call, simulation);
    plays.push({
      play: {
        playNumber,
        situation: { ...situation, score: before.score },
        call,
        simulation,
        ...after,
      },
      running: before.running,
    });
  });
  return withClock(plays);
}

function situationOf(
  state: GameState,
  call: ScrimmageCall | KickCall,
  quarter: number,
  playNumber: number,
): Omit<GameSituation, 'clockSeconds'> {
  const kind: Next = isKick(call)
    ? call.kick === 'kickoff'
      ? 'kickoff'
      : call.kick === 'try'
        ? 'try'
        : 'scrimmage'
    : 'scrimmage';
  if (kind !== state.next)
    throw new RangeError(`play ${playNumber} is a ${kind} where a ${state.next} is due`);
  const base = { quarter, possession: state.possession, score: state.score };
  if (state.next === 'kickoff')
    return {
      ...base,
      drive: null,
      down: null,
      distance: null,
      yardsToGoal: KICKOFF_TO_GOAL_YARDS,
      ballAcross: 0,
    };
  if (state.next === 'try')
    return {
      ...base,
      drive: state.drive,
      down: null,
      distance: null,
      yardsToGoal: TRY_SPOT_YARDS,
      ballAcross: 0,
    };
  const { drive, down, distance, yardsToGoal, ballAcross } = state;
  return { ...base, drive, down, distance, yardsToGoal, ballAcross };
}

/** Herons drive east in the first and fourth quarters. */
function directionOf(team: TeamName, quarter: number): 1 | -1 {
  const heronsEast = quarter === 1 || quarter === 4;
  return heronsEast === (team === 'Herons') ? 1 : -1;
}

function simulate(
  call: ScrimmageCall | KickCall,
  situation: Omit<GameSituation, 'clockSeconds'>,
  playNumber: number,
): PlaySimulation {
  const { yardsToGoal, ballAcross, possession, quarter } = situation;
  const where = {
    place: { yardsToGoal, direction: directionOf(possession, quarter) },
    ballAcross,
    offense: possession,
    seed: 2025 * 1000 + playNumber,
  };
  return isKick(call) ? playKick(call, where) : playDown(call, where);
}

interface After {
  readonly firstDown: boolean;
  readonly turnover: boolean;
}

function inbounds(across: number): number {
  return clamp(across, -HASH_OFFSET_YARDS, HASH_OFFSET_YARDS);
}

function newSeries(state: GameState, team: TeamName, yardsToGoal: number, ballAcross: number): void {
  Object.assign(state, {
    next: 'scrimmage' satisfies Next,
    possession: team,
    drive: state.drive + 1,
    down: 1,
    distance: Math.min(10, yardsToGoal),
    yardsToGoal,
    ballAcross: inbounds(ballAcross),
    running: false,
  });
}

function afterDown(state: GameState, call: ScrimmageCall, play: PlaySimulation): After {
  const { outcome } = play;
  const team = state.possession;
  if (outcome.interceptedBy) {
    const fromGoal = state.yardsToGoal - Math.round(outcome.deadAt.downfield);
    newSeries(state, otherTeam(team), 100 - fromGoal, -outcome.deadAt.across);
    return { firstDown: false, turnover: true };
  }
  if (outcome.touchdown) {
    state.score[team] += 6;
    state.next = 'try';
    state.running = false;
    return { firstDown: true, turnover: false };
  }
  const gain = outcome.gain ?? 0;
  const stopped = outcome.result === 'incomplete' || outcome.result === 'throwaway';
  state.running = !stopped && Math.abs(outcome.deadAt.across) < 26;
  state.yardsToGoal -= gain;
  if (!stopped) state.ballAcross = inbounds(outcome.deadAt.across);
  if (gain >= state.distance) {
    Object.assign(state, { down: 1, distance: Math.min(10, state.yardsToGoal) });
    return { firstDown: true, turnover: false };
  }
  if (state.down === 4) {
    newSeries(state, otherTeam(team), 100 - state.yardsToGoal, -state.ballAcross);
    return { firstDown: false, turnover: false };
  }
  state.down += 1;
  state.distance -= gain;
  if (isRun(call.offense.concept) && gain < -9) throw new RangeError('a run lost more than a snap is worth');
  return { firstDown: false, turnover: false };
}

function afterKick(state: GameState, call: KickCall, play: PlaySimulation): After {
  const { outcome, place } = play;
  const team = state.possession;
  const none = { firstDown: false, turnover: false };
  const receiver = otherTeam(team);
  if (call.kick === 'try' || (call.kick === 'fieldGoal' && call.outcome === 'good')) {
    if (call.outcome === 'good') state.score[team] += call.kick === 'try' ? 1 : 3;
    Object.assign(state, { next: 'kickoff' satisfies Next, running: false });
    return none;
  }
  if (call.kick === 'fieldGoal') {
    newSeries(state, receiver, Math.min(80, 100 - state.yardsToGoal), -state.ballAcross);
    return none;
  }
  if (call.outcome === 'touchback') {
    newSeries(state, receiver, call.kick === 'kickoff' ? 75 : 80, 0);
    return none;
  }
  const fromGoal = place.yardsToGoal - Math.round(outcome.deadAt.downfield);
  newSeries(state, receiver, 100 - fromGoal, -outcome.deadAt.across);
  return none;
}

/**
 * Puts the clock on: a play takes as long as its film shows, and the running clock between plays is shared out so that
 * each quarter runs its length.
 */
function withClock(
  plays: readonly {
    play: Omit<GamePlay, 'situation'> & { situation: Omit<GameSituation, 'clockSeconds'> };
    running: boolean;
  }[],
): GamePlay[] {
  const timed: GamePlay[] = [];
  for (let quarter = 1; quarter <= 4; quarter++) {
    const these = plays.filter((p) => p.play.situation.quarter === quarter);
    const seconds = these.map(({ play }) => secondsTaken(play));
    const gaps = these.map((p, i) => i > 0 && p.running);
    const share =
      (QUARTER_SECONDS - seconds.reduce((a, b) => a + b, 0) - 4) / Math.max(1, gaps.filter(Boolean).length);
    let clock = QUARTER_SECONDS;
    these.forEach(({ play }, i) => {
      if (gaps[i]) clock -= share + ((play.playNumber * 7) % 5) - 2;
      timed.push({ ...play, situation: { ...play.situation, clockSeconds: Math.max(1, Math.round(clock)) } });
      clock -= seconds[i]!;
    });
  }
  return timed;
}

function secondsTaken(play: { call: ScrimmageCall | KickCall; simulation: PlaySimulation }): number {
  const whole = play.simulation.moments.whistle / TICKS_PER_SECOND;
  if (!isKick(play.call)) return whole;
  if (play.call.kick === 'try' || play.call.outcome === 'touchback') return 0;
  return play.call.kick === 'kickoff'
    ? whole - (play.simulation.moments.catch ?? 0) / TICKS_PER_SECOND
    : whole;
}
