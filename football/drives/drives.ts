import type { PlayRecord } from '../play.ts';

/**
 * The number of the drive each play belongs to, by `playId`, worked out where it is not recorded.
 * A drive is a team's unbroken possession from scrimmage within a half (in overtime, within a period). A try
 * belongs to the drive that scored; a kickoff to no drive (null), since it is the end of neither team's.
 */
export function drivesOf(previous: readonly PlayRecord[]): ReadonlyMap<string, number | null> {
  const plays = [...previous].sort((a, b) => (a.playNumber ?? Infinity) - (b.playNumber ?? Infinity));
  const drives = new Map<string, number | null>();
  let current = 0;
  let holder: string | null = null;
  let half: number | null = null;
  for (const play of plays) {
    if (play.playKind === 'kickoff') {
      holder = null;
      drives.set(play.playId, play.drive);
      continue;
    }
    const playHalf: number | null = play.quarter === null ? half : halfOf(play.quarter);
    const known: number | null = play.drive;
    if (known !== null) current = known;
    else if (
      play.playKind !== 'try' &&
      (holder === null || (play.possession ?? holder) !== holder || playHalf !== half)
    )
      current += 1;
    holder = play.possession ?? holder;
    half = playHalf;
    drives.set(play.playId, current === 0 ? null : current);
  }
  return drives;
}

/** 1 and 2 are the halves; every overtime period stands for itself. */
export function halfOf(quarter: number): number {
  return quarter <= 2 ? 1 : quarter <= 4 ? 2 : quarter;
}
