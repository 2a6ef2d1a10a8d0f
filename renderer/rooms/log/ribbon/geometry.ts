import type { PlayView } from '../../../../electron/service/views.ts';
import { knownPlay } from '../known-play.ts';

/** Depth of an end zone, and length of the strip with both, in yards. */
export const END_ZONE = 10;
export const STRIP = 100 + 2 * END_ZONE;

export type BarKind = 'gain' | 'loss' | 'none' | 'kick' | 'open';

/**
 * A play on the strip. Places are yards from the back of the end zone that the team in possession defends, so that
 * every drive runs from left to right: its own goal line at 10, the other at 110.
 */
export interface RibbonBar {
  readonly playId: string;
  readonly from: number;
  readonly to: number;
  readonly lane: number;
  readonly kind: BarKind;
  /** the spot is predicted, not entered */
  readonly predicted: boolean;
  readonly scored: boolean;
  readonly lost: boolean;
}

export interface Ribbon {
  readonly bars: readonly RibbonBar[];
  readonly lanes: number;
  /** plays whose spot is not known */
  readonly unplaced: readonly string[];
}

const KICKS: ReadonlySet<string> = new Set(['punt', 'kickoff', 'fieldGoal', 'try']);

const onStrip = (place: number) => Math.max(0, Math.min(STRIP, place));

/** Place of a spot on the strip. */
export function placeOf(yardsToGoal: number): number {
  return onStrip(END_ZONE + 100 - yardsToGoal);
}

/** Where the line to gain is crossed; null on kicks, and where the goal line comes first. */
export function lineToGain(play: PlayView): number | null {
  const { yardsToGoal, distance } = knownPlay(play);
  if (yardsToGoal === null || distance === null || distance >= yardsToGoal) return null;
  return placeOf(yardsToGoal - distance);
}

/** Lays the plays of a drive on the strip, each one lane below the play before. */
export function layRibbon(plays: readonly PlayView[]): Ribbon {
  const bars: RibbonBar[] = [];
  const unplaced: string[] = [];
  for (const play of plays) {
    const { yardsToGoal, gain, playKind, kickYards, result, touchdown, turnover } = knownPlay(play);
    if (yardsToGoal === null) {
      unplaced.push(play.playId);
      continue;
    }
    const from = placeOf(yardsToGoal);
    const kick = playKind !== null && KICKS.has(playKind);
    const moved = kick ? (playKind === 'punt' || playKind === 'kickoff' ? (kickYards ?? 0) : 0) : (gain ?? 0);
    bars.push({
      playId: play.playId,
      from,
      to: onStrip(from + moved),
      lane: bars.length,
      kind: !play.logged ? 'open' : kick ? 'kick' : moved > 0 ? 'gain' : moved < 0 ? 'loss' : 'none',
      predicted: play.record.yardsToGoal === null || play.predicted.includes('yardsToGoal'),
      scored: touchdown === true && turnover !== true,
      lost: turnover === true || result === 'interception',
    });
  }
  return { bars, lanes: Math.max(1, bars.length), unplaced };
}

/** Yard lines every ten yards, with the number as painted: 10 to 50 and down again. */
export function yardNumbers(): { place: number; label: string }[] {
  return [10, 20, 30, 40, 50, 60, 70, 80, 90].map((yards) => ({
    place: END_ZONE + yards,
    label: String(yards <= 50 ? yards : 100 - yards),
  }));
}
