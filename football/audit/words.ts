import type { PlayRecord } from '../play.ts';
import type { Situation } from '../situation/situation.ts';
import { formatSpot } from '../values.ts';

const ORDINALS = ['', '1st', '2nd', '3rd', '4th'];

type Shown = Pick<Situation, 'possession' | 'down' | 'distance' | 'yardsToGoal' | 'playKind'>;

/** `Herons 2nd and 6 on -29`; parts that are missing are left out. */
export function shownSituation(shown: Shown): string {
  const { possession, down, distance, yardsToGoal } = shown;
  const goal = distance !== null && distance === yardsToGoal;
  const series =
    down === null
      ? kindWord(shown.playKind)
      : `${ORDINALS[down] ?? `down ${down}`}${distance === null ? '' : ` and ${goal ? 'goal' : distance}`}`;
  const spot = yardsToGoal === null ? '' : ` on ${formatSpot(yardsToGoal)}`;
  return `${possession ? `${possession} ` : ''}${series}${spot}`;
}

const KIND_WORDS: Readonly<Record<string, string>> = {
  kickoff: 'kickoff',
  try: 'try',
  fieldGoal: 'field goal',
  noPlay: 'play that did not count',
};

export function kindWord(kind: string | null): string {
  return kind === null ? 'play' : (KIND_WORDS[kind] ?? kind);
}

/** `play 12`, or `a play without a number`. */
export function playName(play: Pick<PlayRecord, 'playNumber'>): string {
  return play.playNumber === null ? 'the play without a number' : `play ${play.playNumber}`;
}

/** `run for 4 yards`, `incomplete pass`, `punt`. */
export function shownOutcome(play: PlayRecord): string {
  const { playKind: kind, result, gain } = play;
  if (kind === 'noPlay') return `${play.penalty ?? 'penalty'}, no play`;
  const what = result === null || result === 'rush' ? kindWord(kind) : `${kindWord(kind)}, ${result}`;
  const yards =
    gain === null || result === 'incomplete' ? '' : ` for ${gain} ${Math.abs(gain) === 1 ? 'yard' : 'yards'}`;
  return `${what}${yards}${play.touchdown ? ', touchdown' : ''}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
