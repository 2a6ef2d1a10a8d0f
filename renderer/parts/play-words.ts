import type { PlayRecord } from '../../football/play.ts';
import { formatClock, formatSpot } from '../../football/values.ts';

/** `2nd & 7`, or the kind of a play that has no down. */
export function downAndDistance(
  play: Pick<PlayRecord, 'down' | 'distance' | 'yardsToGoal' | 'playKind'>,
): string {
  if (play.down === null) return play.playKind ?? 'situation unknown';
  const ordinal = ['1st', '2nd', '3rd', '4th'][play.down - 1] ?? `${play.down}th`;
  if (play.distance === null) return ordinal;
  const toGoal = play.yardsToGoal !== null && play.distance >= play.yardsToGoal;
  return `${ordinal} & ${toGoal ? 'goal' : play.distance}`;
}

/** `Q2 7:42`, as far as it is known. */
export function quarterAndClock(play: Pick<PlayRecord, 'quarter' | 'clock'>): string {
  const quarter =
    play.quarter === null ? '' : play.quarter > 4 ? `OT${play.quarter - 4}` : `Q${play.quarter}`;
  return [quarter, play.clock === null ? '' : formatClock(play.clock)].filter(Boolean).join(' ');
}

/** `complete +12`, as far as it is known. */
export function outcomeWords(play: Pick<PlayRecord, 'result' | 'gain' | 'playKind' | 'touchdown'>): string {
  const gain =
    play.gain === null ? '' : play.gain > 0 ? `+${play.gain}` : play.gain < 0 ? `\u2212${-play.gain}` : '0';
  return [play.result ?? play.playKind ?? '', gain, play.touchdown ? 'touchdown' : '']
    .filter(Boolean)
    .join(' ');
}

/** One line that tells a play apart: `2nd & 7 · -35 · smash · complete +12`. */
export function playInALine(play: PlayRecord): string {
  const calls = ['concept', 'coverage'].map((key) => play.tags[key]).filter((value) => value !== undefined);
  return [
    downAndDistance(play),
    play.yardsToGoal === null ? '' : formatSpot(play.yardsToGoal),
    ...calls,
    outcomeWords(play),
  ]
    .filter(Boolean)
    .join(' · ');
}
