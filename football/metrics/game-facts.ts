import { inOrder } from '../drives/drives.ts';
import { addedBetween, situationPoints } from '../expected-points/added.ts';
import type { PlayRecord } from '../play.ts';
import { rulesFor } from '../rules/index.ts';
import { type DriveLine, driveLines } from './drive-facts.ts';
import { COUNTER_INDEX, type Counter, playFacts } from './facts.ts';
import { DEFAULT_METRIC_SETTINGS, type MetricSettings } from './settings.ts';

/**
 * The counters of every play of one game, by `playId`, with those that need the plays around: expected points
 * added, and each drive's numbers on the drive's first play from scrimmage.
 * @param plays all plays of one game, in any order
 * @param season of a professional game, for the drift of expected points over the years
 */
export function gameFacts(
  plays: readonly PlayRecord[],
  settings: MetricSettings = DEFAULT_METRIC_SETTINGS,
  season?: number,
): Map<string, Float64Array> {
  const rules = rulesFor(settings.level ?? 'ncaa');
  const professional = settings.level === 'nfl' && season !== undefined ? { season } : {};
  const points = { quarterSeconds: rules.quarterSeconds.value, ...professional };
  const ordered = inOrder(plays);
  const { team, ...others } = settings;
  const teamPlays = team !== undefined && ordered.some((p) => p.possession === team);
  const inUse = teamPlays ? settings : others;
  const facts = new Map<string, Float64Array>();
  const values = ordered.map((play) => situationPoints(play, points));
  ordered.forEach((play, i) => {
    const next = ordered[i + 1] ?? (play.tags.timeExpired !== undefined ? 'endOfHalf' : null);
    const epa = addedBetween(play, values[i] ?? null, next, values[i + 1] ?? null);
    facts.set(play.playId, playFacts(play, inUse, epa));
  });
  for (const line of driveLines(ordered, rules)) {
    const first = line.plays.find((p) => p.possession === line.team && p.playKind !== 'noPlay');
    const row = first && facts.get(first.playId);
    if (row && !line.kneelsOnly) putDrive(row, line);
  }
  return facts;
}

function putDrive(row: Float64Array, line: DriveLine): void {
  const put = (counter: Counter, value: number | boolean): void => {
    row[COUNTER_INDEX[counter]] = Number(value);
  };
  put('drives', 1);
  put('driveYards', line.yards);
  put('drivePoints', line.points);
  put('redZoneTrips', line.reachedRedZone);
  put('redZoneTouchdowns', line.reachedRedZone && line.end === 'touchdown');
  put('redZoneScores', line.reachedRedZone && (line.end === 'touchdown' || line.end === 'fieldGoal'));
  put('threeAndOuts', line.threeAndOut);
}
