import type { PlayKind, PlayRecord } from '../play.ts';
import type { Side } from '../rules/types.ts';

/** What a play's record says, with tags and terms read into fixed words; null where it says nothing. */
export interface Recorded {
  readonly kind: PlayKind | null;
  readonly result: ResultWord | null;
  readonly fumble: 'kept' | 'lost' | null;
  /** which side had the ball when the play was over, where it is recorded */
  readonly endedWith: Side | null;
  /** yards to goal of the team that put the ball in play, where the ball was dead */
  readonly deadAt: number | null;
  readonly touchbackRuling: boolean;
  readonly tryKind: 'kick' | 'pass' | 'run' | null;
  readonly timeExpired: boolean;
  readonly flags: readonly Flag[];
}

/** One foul as it was called and marked off. */
export interface Flag {
  readonly foul: string | null;
  readonly by: Side | null;
  readonly yards: number | null;
  readonly ruling: 'accepted' | 'declined' | 'offset' | null;
  readonly from: 'snap' | 'foul' | 'end' | 'kickoff' | 'try' | null;
  /** yards to goal of the team that put the ball in play, where the yards were counted from */
  readonly at: number | null;
  readonly down: 'replay' | 'counts' | 'loss' | 'first' | null;
}

const RESULTS = [
  'complete',
  'incomplete',
  'interception',
  'sack',
  'scramble',
  'throwaway',
  'rush',
  'good',
  'missed',
  'blocked',
  'returned',
  'fairCatch',
  'touchback',
  'downed',
  'outOfBounds',
  'onsideRecovered',
  'muffed',
  'failed',
] as const;
export type ResultWord = (typeof RESULTS)[number];

const KINDS = ['pass', 'run', 'punt', 'kickoff', 'fieldGoal', 'try', 'kneel', 'spike', 'noPlay'] as const;

type Words<T extends string> = Readonly<Record<string, T>>;

const words = <T extends string>(list: readonly T[]): Words<T> =>
  Object.fromEntries(list.map((word) => [word.toLowerCase(), word]));

const RESULT_WORDS = words(RESULTS);
const KIND_WORDS = words(KINDS);
const SIDES: Words<Side> = {
  offense: 'offense',
  defense: 'defense',
  'offense ball': 'offense',
  'defense ball': 'defense',
};
const FUMBLES: Words<'kept' | 'lost'> = { kept: 'kept', lost: 'lost' };
const RULINGS: Words<'accepted' | 'declined' | 'offset'> = {
  accepted: 'accepted',
  declined: 'declined',
  offset: 'offset',
};
const TRY_KINDS: Words<'kick' | 'pass' | 'run'> = {
  'kick try': 'kick',
  'pass try': 'pass',
  'run try': 'run',
};
const FROM: Words<NonNullable<Flag['from']>> = {
  'from snap': 'snap',
  'from foul': 'foul',
  'from end': 'end',
  'on kickoff': 'kickoff',
  'on try': 'try',
};
const DOWNS: Words<NonNullable<Flag['down']>> = {
  'replay down': 'replay',
  'down counts': 'counts',
  'loss of down': 'loss',
  'automatic first': 'first',
};

/** The fixed word behind a spelling, whatever its case; null for anything else. */
function word<T extends string>(known: Words<T>, value: unknown): T | null {
  if (typeof value !== 'string') return null;
  const key = value.trim().toLowerCase();
  return Object.hasOwn(known, key) ? (known[key] as T) : null;
}

function number(value: unknown): number | null {
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}

/** A flag among the tags: 1 or a spelling of yes. */
function yes(value: unknown): boolean {
  return value === 1 || value === '1' || value === 'true' || value === 'yes';
}

export function recordedOf(play: PlayRecord): Recorded {
  const { tags } = play;
  const flags: Flag[] = [];
  if (play.penalty !== null || play.penaltyOutcome !== null || play.penaltyYards !== null)
    flags.push({
      foul: play.penalty?.trim().toLowerCase() ?? null,
      by: word(SIDES, play.penaltyOn),
      yards: number(play.penaltyYards),
      ruling: word(RULINGS, play.penaltyOutcome),
      from: word(FROM, tags.penaltyFrom),
      at: number(tags.penaltyAt),
      down: word(DOWNS, tags.penaltyDown),
    });
  if (tags.penalty2 !== undefined || tags.penalty2Outcome !== undefined)
    flags.push({
      foul: typeof tags.penalty2 === 'string' ? tags.penalty2.trim().toLowerCase() : null,
      by: word(SIDES, tags.penalty2On),
      yards: number(tags.penalty2Yards),
      ruling: word(RULINGS, tags.penalty2Outcome),
      from: word(FROM, tags.penalty2From),
      at: number(tags.penalty2At),
      down: word(DOWNS, tags.penalty2Down),
    });
  return {
    kind: word(KIND_WORDS, play.playKind),
    result: word(RESULT_WORDS, play.result),
    fumble: word(FUMBLES, play.fumble),
    endedWith: word(SIDES, tags.endPossession),
    deadAt: number(tags.endYardsToGoal),
    touchbackRuling: yes(tags.touchbackRuling),
    tryKind: word(TRY_KINDS, tags.tryKind),
    timeExpired: yes(tags.timeExpired),
    flags,
  };
}
