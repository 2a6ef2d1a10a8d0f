import type { SampleClip, SampleGame, SamplePlay, SamplePlayerRef } from '../sample-game.ts';
import { isRun, type OffenseSlot, type ScrimmageCall } from './calls.ts';
import type { Angle } from './camera.ts';
import { READ_RULES } from './concepts.ts';
import { FRAMES_PER_SECOND } from './encode.ts';
import { receiversBySide } from './formations.ts';
import { type GamePlay, isKick, QUARTER_SECONDS } from './game.ts';
import type { Slot } from './people.ts';
import { otherTeam, ROSTER } from './rosters.ts';
import { type PlaySimulation, shotAt } from './simulation.ts';

const ANGLES: readonly Angle[] = ['sideline', 'endzone'];
const TAIL_FRAMES = 16;

/** Frames before the snap: the two cameras are never started at the same instant, so that pairing has something to do. */
export function leadFrames(play: GamePlay, angle: Angle): number {
  const moves = !isKick(play.call) && play.call.offense.motion !== undefined;
  const kickoff = isKick(play.call) && play.call.kick === 'kickoff';
  const base = moves ? 62 : kickoff ? 38 : 24;
  const sideline = base + ((play.playNumber * 5) % 9);
  return angle === 'sideline' ? sideline : sideline + 3 + (play.playNumber % 7);
}

export function clipOf(play: GamePlay, angle: Angle): SampleClip {
  const lead = leadFrames(play, angle);
  const { moments } = play.simulation;
  const frames = lead + moments.whistle + TAIL_FRAMES;
  const number = String(play.playNumber).padStart(3, '0');
  return {
    file: `herons-mariners-${number}-${angle}.mp4`,
    angle,
    inFrame: 0,
    outFrame: frames,
    frames,
    moments: {
      snap: lead,
      ...(moments.release === undefined ? {} : { release: lead + moments.release }),
      ...(moments.catch === undefined ? {} : { catch: lead + moments.catch }),
      ...(moments.contact === undefined ? {} : { contact: lead + moments.contact }),
      whistle: lead + moments.whistle,
    },
  };
}

export function sampleGame(plays: readonly GamePlay[]): SampleGame {
  return {
    game: {
      title: 'Herons v Mariners',
      season: 2025,
      week: 4,
      date: '2025-09-27',
      opponent: 'Mariners',
      site: 'home',
      level: 'ncaa',
      conference: 'Lantern Valley Conference',
      quarterSeconds: QUARTER_SECONDS,
    },
    team: 'Herons',
    teams: { Herons: 'Harlow Ridge Herons', Mariners: 'Port Ansel Mariners' },
    framesPerSecond: FRAMES_PER_SECOND,
    roster: ROSTER,
    readRules: READ_RULES,
    plays: plays.map(samplePlay),
  };
}

function samplePlay(play: GamePlay): SamplePlay {
  const { situation, simulation, call } = play;
  const { outcome } = simulation;
  const team = situation.possession;
  const complete = outcome.result === 'complete';
  return {
    playNumber: play.playNumber,
    half: situation.quarter <= 2 ? 1 : 2,
    drive: situation.drive,
    quarter: situation.quarter,
    clock: situation.clockSeconds,
    possession: team,
    down: situation.down,
    distance: situation.distance,
    yardsToGoal: situation.yardsToGoal,
    hash: hashOf(situation.ballAcross),
    scoreFor: situation.score[team],
    scoreAgainst: situation.score[otherTeam(team)],
    ...callTags(play),
    playKind: isKick(call) ? call.kick : isRun(call.offense.concept) ? 'run' : 'pass',
    result: outcome.result,
    gain: outcome.gain === null ? null : outcome.gain + 0,
    airYards: outcome.airYards,
    yardsAfterCatch:
      complete && outcome.gain !== null && outcome.airYards !== null ? outcome.gain - outcome.airYards : null,
    firstDown: play.firstDown,
    touchdown: outcome.touchdown,
    turnover: play.turnover,
    kickYards: outcome.kickYards,
    returnYards: outcome.returnYards,
    passer: !isKick(call) && !isRun(call.offense.concept) ? playerIn(simulation, 'QB') : null,
    target: playerIn(simulation, outcome.target),
    carrier: playerIn(simulation, isKick(call) ? null : outcome.carrier),
    clips: ANGLES.map((angle) => clipOf(play, angle)),
  };
}

/** The text of sample-game.json. */
export function sampleText(game: SampleGame): string {
  return `${JSON.stringify(game, null, 2)}\n`;
}

/** The offense sees the ball on a third of the field between the hash marks; the nearest of the three names it. */
export function hashOf(ballAcross: number): 'L' | 'M' | 'R' {
  return ballAcross < -10 / 3 ? 'L' : ballAcross > 10 / 3 ? 'R' : 'M';
}

function playerIn(simulation: PlaySimulation, slot: Slot | null): SamplePlayerRef | null {
  const member = slot ? simulation.cast.find((m) => m.slot === slot) : undefined;
  return member ? { team: member.team, number: member.number } : null;
}

type CallTags = Pick<
  SamplePlay,
  | 'personnel'
  | 'formation'
  | 'receivers'
  | 'motion'
  | 'concept'
  | 'protection'
  | 'front'
  | 'coverage'
  | 'pressure'
  | 'rushers'
  | 'route'
  | 'readKey'
>;

function callTags(play: GamePlay): CallTags {
  const { call, simulation } = play;
  if (isKick(call)) {
    return {
      personnel: null,
      formation: null,
      receivers: null,
      motion: null,
      concept: null,
      protection: null,
      front: null,
      coverage: null,
      pressure: null,
      rushers: null,
      route: null,
      readKey: null,
    };
  }
  const passes = !isRun(call.offense.concept);
  return {
    personnel: personnelOf(simulation),
    formation: call.offense.formation,
    receivers: receiversOf(simulation),
    motion: call.offense.motion ?? 'none',
    concept: call.offense.concept,
    protection: passes ? protectionOf(call) : null,
    front: call.defense.front,
    coverage: call.defense.coverage,
    pressure: call.defense.pressure,
    rushers: passes ? simulation.outcome.rushers : null,
    route: simulation.outcome.route,
    readKey: simulation.read?.action ?? null,
  };
}

function protectionOf(call: ScrimmageCall): string {
  return call.offense.protection ?? 'half slide';
}

/** Backs and tight ends who are on the field. */
function personnelOf(simulation: PlaySimulation): string {
  const offense = simulation.cast.filter((m) => m.side === 'offense');
  const backs = offense.filter((m) => m.position === 'RB' || m.position === 'FB').length;
  const tightEnds = offense.filter((m) => m.position === 'TE').length;
  return `${backs}${tightEnds}`;
}

/** Receivers on each side as they stand at the snap, the larger side first. */
function receiversOf(simulation: PlaySimulation): string {
  const shot = shotAt(simulation, 0);
  const offense = simulation.cast.filter((m) => m.side === 'offense');
  const spots = offense.map((m) => [m.slot as OffenseSlot, shot.people.get(m.slot)!.at] as const);
  const { left, right } = receiversBySide(spots, simulation.ballAcross);
  const [more, fewer] = [Math.max(left.length, right.length), Math.min(left.length, right.length)];
  return `${more}x${fewer}`;
}
