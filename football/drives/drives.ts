import type { PlayRecord } from '../play.ts';

/**
 * The number of the drive each play belongs to, by `playId`, worked out where it is not recorded.
 * A drive is a team's unbroken possession from scrimmage within a half (in overtime, within a period); it
 * ends with a score, too. A try belongs to the drive that scored; a kickoff to no drive (null), as it is the
 * end of neither team's.
 */
export function drivesOf(previous: readonly PlayRecord[]): ReadonlyMap<string, number | null> {
  const drives = new Map<string, number | null>();
  let current = 0;
  let holder: string | null = null;
  let half: number | null = null;
  for (const play of inOrder(previous)) {
    if (play.playKind === 'kickoff' || isFreeKickAgain(play)) {
      holder = null;
      drives.set(play.playId, play.drive);
      continue;
    }
    const playHalf: number | null = play.quarter === null ? half : halfOf(play.quarter);
    const isTry = play.playKind === 'try';
    if (play.drive !== null) current = play.drive;
    else if (!isTry && (holder === null || (play.possession ?? holder) !== holder || playHalf !== half))
      current += 1;
    // a return for a touchdown leaves the try with the other team; what follows is a new drive either way
    holder = isTry ? null : (play.possession ?? holder);
    half = playHalf;
    drives.set(play.playId, current === 0 ? null : current);
  }
  return drives;
}

/** A kickoff that did not count has no down and lies in the kicking team's half. */
function isFreeKickAgain(play: PlayRecord): boolean {
  return play.playKind === 'noPlay' && play.down === null && (play.yardsToGoal ?? 0) >= 40;
}

/** Plays by number; those without one stay last, in the order given. */
export function inOrder(plays: readonly PlayRecord[]): readonly PlayRecord[] {
  for (let i = 1; i < plays.length; i += 1)
    if (numberOf(plays[i]) < numberOf(plays[i - 1]))
      return [...plays].sort((a, b) => numberOf(a) - numberOf(b) || 0);
  return plays;
}

function numberOf(play: PlayRecord | undefined): number {
  return play?.playNumber ?? Number.MAX_SAFE_INTEGER;
}

/** 1 and 2 are the halves; every overtime period stands for itself. */
export function halfOf(quarter: number): number {
  return quarter <= 2 ? 1 : quarter <= 4 ? 2 : quarter;
}
