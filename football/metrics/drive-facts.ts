import { drivesOf, inOrder } from '../drives/drives.ts';
import type { PlayRecord } from '../play.ts';
import type { Rules } from '../rules/index.ts';
import { settledPlay } from '../situation/play-effect.ts';
import { readPlay } from './reading.ts';

/** One drive as counted from its plays. */
export interface DriveLine {
  /** number of the drive within the game */
  readonly drive: number;
  readonly team: string;
  /** plays of the drive in order, its try and its kicks included */
  readonly plays: readonly PlayRecord[];
  /** calls from scrimmage */
  readonly calls: number;
  /** gains of its calls; penalty yards are not in it */
  readonly yards: number;
  /** points of the team that had the ball, its try included */
  readonly points: number;
  readonly end: DriveEnd;
  readonly reachedRedZone: boolean;
  /** a punt after no more than three calls without a first down */
  readonly threeAndOut: boolean;
  /** nothing but kneels: no drive in the sense of averages */
  readonly kneelsOnly: boolean;
}

/** How a drive ended; `open` where the plays don't say. */
export type DriveEnd =
  | 'touchdown'
  | 'fieldGoal'
  | 'missedFieldGoal'
  | 'punt'
  | 'interception'
  | 'fumble'
  | 'downs'
  | 'safety'
  | 'endOfHalf'
  | 'open';

const RED_ZONE_YARDS = 20;

/**
 * The drives of one game, in order. Plays that belong to no drive (kickoffs) are left out.
 * @param plays all plays of one game, in any order
 */
export function driveLines(plays: readonly PlayRecord[], rules: Rules): DriveLine[] {
  const ordered = inOrder(plays);
  const numbers = drivesOf(ordered);
  const groups = new Map<number, PlayRecord[]>();
  for (const play of ordered) {
    const drive = numbers.get(play.playId) ?? null;
    if (drive === null || play.playKind === 'kickoff') continue;
    const group = groups.get(drive);
    if (group) group.push(play);
    else groups.set(drive, [play]);
  }
  const lines: DriveLine[] = [];
  const all = [...groups];
  all.forEach(([drive, group], index) => {
    const line = driveLine(drive, group, all[index + 1]?.[1][0], rules);
    if (line) lines.push(line);
  });
  return lines;
}

function driveLine(
  drive: number,
  plays: readonly PlayRecord[],
  next: PlayRecord | undefined,
  rules: Rules,
): DriveLine | null {
  const first = plays.find((p) => p.possession !== null && p.playKind !== 'try');
  const team = first?.possession;
  if (!team) return null;
  let calls = 0;
  let kneels = 0;
  let yards = 0;
  let points = 0;
  let firstDowns = 0;
  let reachedRedZone = false;
  let last: PlayRecord | null = null;
  for (const play of plays) {
    if (play.possession !== null && play.possession !== team) continue;
    if (play.playKind === 'noPlay') {
      if (play.firstDown === true) firstDowns += 1;
      continue;
    }
    points += pointsFor(play, rules);
    if (play.playKind === 'try') continue;
    const reading = readPlay(play, rules);
    const kick = play.playKind === 'punt' || play.playKind === 'fieldGoal';
    if (!reading.call && !kick) continue;
    last = play;
    if (play.yardsToGoal !== null && play.yardsToGoal <= RED_ZONE_YARDS) reachedRedZone = true;
    if (!reading.call) continue;
    calls += 1;
    if (reading.kneel) kneels += 1;
    yards += reading.gain ?? 0;
    const made = reading.gain !== null && play.distance !== null && reading.gain >= play.distance;
    if (play.firstDown ?? (made && !reading.lost)) firstDowns += 1;
  }
  if (last === null) return null;
  const end = driveEnd(last, next, rules);
  return {
    drive,
    team,
    plays,
    calls,
    yards,
    points,
    end,
    reachedRedZone,
    threeAndOut: end === 'punt' && calls <= 3 && firstDowns === 0,
    kneelsOnly: calls > 0 && kneels === calls && end !== 'punt' && end !== 'fieldGoal',
  };
}

/** Points that a play brought the team that put the ball in play; 0 where its record does not tell. */
export function pointsFor(play: PlayRecord, rules: Rules): number {
  const may = play.touchdown || play.playKind === 'fieldGoal' || play.playKind === 'try';
  const reaches = play.gain !== null && play.yardsToGoal !== null && play.gain >= play.yardsToGoal;
  if (!may && !reaches) return 0;
  const effect = settledPlay(play, rules);
  if (effect.ok) return effect.points.offense;
  return readPlay(play, rules).touchdown ? 6 : 0;
}

function driveEnd(last: PlayRecord, next: PlayRecord | undefined, rules: Rules): DriveEnd {
  const reading = readPlay(last, rules);
  if (last.playKind === 'fieldGoal') return last.result === 'good' ? 'fieldGoal' : 'missedFieldGoal';
  if (last.playKind === 'punt') return 'punt';
  if (reading.touchdown || (!last.touchdown && pointsFor(last, rules) === 6)) return 'touchdown';
  if (last.safety) return 'safety';
  if (reading.lost) return reading.interception ? 'interception' : 'fumble';
  const made = reading.gain !== null && last.distance !== null && reading.gain >= last.distance;
  if (last.down === 4 && !made && last.firstDown !== true) return 'downs';
  const over = next === undefined || next.quarter !== last.quarter;
  return over && (last.quarter ?? 0) % 2 === 0 ? 'endOfHalf' : 'open';
}
