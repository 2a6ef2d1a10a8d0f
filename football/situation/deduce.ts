import { readPlay } from '../metrics/reading.ts';
import type { PlayRecord } from '../play.ts';

/** What follows from the rest of a play's outcome, and so needs no typing. */
export interface Deduced {
  readonly firstDown?: boolean;
  readonly turnover?: boolean;
  readonly yardsAfterCatch?: number;
}

/**
 * Works out what the logged outcome leaves no choice about: a gain of the distance is a first down, an interception is a
 * turnover, a catch's yards are in the air or after it. Only what is missing is given; what would be a guess is not.
 */
export function deduceOutcome(play: PlayRecord): Deduced {
  const reading = readPlay(play);
  if (!reading.call || play.penalty !== null) return {};
  const { gain, lost, complete, interception } = reading;
  const sure = gain !== null && play.distance !== null && play.fumble === null && !lost;
  return {
    ...(play.firstDown === null && sure && play.distance !== null && gain !== null
      ? { firstDown: gain >= play.distance }
      : {}),
    ...(play.turnover === null && interception ? { turnover: true } : {}),
    ...(play.yardsAfterCatch === null && complete && gain !== null && play.airYards !== null
      ? { yardsAfterCatch: gain - play.airYards }
      : {}),
  };
}
