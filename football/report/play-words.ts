import type { PlayRecord } from '../play.ts';
import { formatClock, formatSpot } from '../values.ts';

/** `3rd & 7`, or the kind of a play that has no down. */
export function situationWords(play: PlayRecord): string {
  if (play.down === null) return play.playKind ?? 'situation unknown';
  const down = ['1st', '2nd', '3rd', '4th'][play.down - 1] ?? `${play.down}th`;
  const goal = play.yardsToGoal !== null && play.distance !== null && play.distance >= play.yardsToGoal;
  const distance = play.distance === null ? '' : ` & ${goal ? 'goal' : play.distance}`;
  return [
    `${down}${distance}`,
    play.yardsToGoal === null ? '' : formatSpot(play.yardsToGoal),
    play.hash === null ? '' : `${play.hash} hash`,
    play.quarter === null ? '' : `Q${play.quarter}`,
    play.clock === null ? '' : formatClock(play.clock),
  ]
    .filter(Boolean)
    .join(', ');
}

/** The calls of one side, as far as they are tagged. */
export function tagWords(play: PlayRecord, fields: readonly string[]): string {
  return fields
    .map((key) => play.tags[key])
    .filter((value) => value !== undefined)
    .join(', ');
}
