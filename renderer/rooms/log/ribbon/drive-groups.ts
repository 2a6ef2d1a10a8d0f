import type { PlayView } from '../../../../electron/service/views.ts';
import { drivesOf } from '../../../../football/drives/drives.ts';
import { knownPlay } from '../known-play.ts';

/** Plays that belong together on the ribbon: a drive, or kicks between drives. */
export interface DriveGroup {
  /** stable within the game */
  readonly key: string;
  /** number of the drive; null for kicks that belong to none */
  readonly drive: number | null;
  readonly team: string | null;
  readonly plays: readonly PlayView[];
}

/** The game cut into drives, in play order. */
export function driveGroups(plays: readonly PlayView[]): DriveGroup[] {
  const drives = drivesOf(plays.map((play) => play.record));
  const groups: { drive: number | null; plays: PlayView[] }[] = [];
  for (const play of plays) {
    const drive = drives.get(play.playId) ?? null;
    const last = groups.at(-1);
    if (last && last.drive === drive) last.plays.push(play);
    else groups.push({ drive, plays: [play] });
  }
  return groups.map((group, index) => ({
    ...group,
    key: `${index}:${group.drive ?? 'kick'}`,
    team: group.plays.map((play) => knownPlay(play).possession).find((team) => team !== null) ?? null,
  }));
}

export function groupOf(groups: readonly DriveGroup[], playId: string): number {
  return groups.findIndex((group) => group.plays.some((play) => play.playId === playId));
}

/** What the drive came to, in a word or two. */
export function driveEnd(group: DriveGroup): string {
  const scoring = group.plays.find((play) => play.record.touchdown && !play.record.turnover);
  if (scoring) return 'touchdown';
  const last = group.plays.findLast((play) => play.record.playKind !== 'try' && play.logged)?.record;
  if (!last) return '';
  if (last.safety) return 'safety';
  if (last.turnover || last.result === 'interception') return 'turnover';
  if (last.playKind === 'punt') return 'punt';
  if (last.playKind === 'fieldGoal') return last.result === 'good' ? 'field goal' : 'missed';
  if (last.down === 4 && last.gain !== null && last.distance !== null && last.gain < last.distance)
    return 'on downs';
  return '';
}
