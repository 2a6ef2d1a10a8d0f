/**
 * The official sentence of a play (`desc` of the open play-by-play dictionary) says what no column does:
 * where penalties were marked off, where a loose ball was recovered, where the play was over.
 */

export interface DescribedPenalty {
  /** abbreviation of the team that fouled */
  readonly team: string;
  readonly foul: string;
  readonly yards: number | null;
  readonly ruling: 'accepted' | 'declined' | 'offset';
  readonly at: DescribedSpot | null;
  /** marked off when the play was over, or on the kick that follows */
  readonly betweenDowns: boolean;
}

/** A side of the field by its team's abbreviation, missing at midfield, and the yard line. */
export interface DescribedSpot {
  readonly team: string | null;
  readonly line: number;
}

export interface Described {
  readonly noPlay: boolean;
  readonly penalties: readonly DescribedPenalty[];
  /** the last spot the sentence names before any penalty: where the play was over */
  readonly lastSpot: DescribedSpot | null;
  /**
   * who had the ball in the end, by the sentence: `start` the team that put it in play, `other` its
   * opponent, or the abbreviation of the team that recovered
   */
  readonly endedWith: 'start' | 'other' | { readonly team: string };
  readonly touchback: boolean;
  /** where the touchback was put, as sentences say since kickoffs may have two spots */
  readonly touchbackAt: DescribedSpot | null;
  /** the kickoff fell short of where it must land, which is ruled as one out of bounds */
  readonly shortKickoff: boolean;
  readonly fumble: boolean;
  readonly muff: boolean;
  readonly lateral: boolean;
  readonly blocked: boolean;
  readonly outOfBounds: boolean;
  readonly nullifiedTouchdown: boolean;
  /** the kick is a kickoff, a punt, or neither */
  readonly kick: 'kickoff' | 'punt' | null;
}

const TEAM = '[A-Z]{2,3}';
const SPOT = `(?:(${TEAM}) (-?\\d{1,2})|(50))\\b`;
const PENALTY = new RegExp(
  `penalty on (${TEAM})(?:-[^,]*?)?, ([^,]+?)(?:, (\\d+) yards?)?,? (enforced at ${SPOT}|enforced between downs|enforced in end zone|enforced|declined|offsetting(?:, enforced at ${SPOT})?|superseded)`,
  'gi',
);
const EVENTS = new RegExp(
  `INTERCEPTED by|recovered by (${TEAM})-|and recovers|kicks (?:onside )?-?\\d+ yards|punts -?\\d+ yards|MUFFS catch`,
  'gi',
);
const TOUCHBACK_SPOT = new RegExp(`Touchback to the ${SPOT}`);
const DEAD_SPOT = new RegExp(`(?<!caught |from |thrown |touched |crossing |, )\\b(?:to|at) ${SPOT}`, 'g');

export function readDescription(desc: string): Described {
  const text = ruledText(desc);
  const penalties = [...text.matchAll(PENALTY)].map(readPenalty).filter((p) => p !== null);
  const first = text.search(/penalty on /i);
  const action = first < 0 ? text : text.slice(0, first);
  return {
    noPlay: /No Play/i.test(text),
    penalties,
    lastSpot: lastSpot(action),
    endedWith: endedWith(action),
    touchback: /Touchback/i.test(action),
    touchbackAt: touchbackSpot(action),
    shortKickoff: /short of (?:the )?landing zone/i.test(text),
    fumble: /FUMBLES/.test(action),
    muff: /MUFFS/.test(action),
    lateral: /Lateral to/.test(action),
    blocked: /BLOCKED/.test(action),
    outOfBounds: /out of bounds/.test(action),
    nullifiedTouchdown: /TOUCHDOWN NULLIFIED/i.test(text),
    kick: /\bkicks (onside )?-?\d+ yards/.test(action) ? 'kickoff' : /\bpunts? /.test(action) ? 'punt' : null,
  };
}

/** When a ruling was reversed, what was ruled in the end follows the word. */
function ruledText(desc: string): string {
  const at = desc.lastIndexOf('REVERSED.');
  return at < 0 ? desc : desc.slice(at + 'REVERSED.'.length);
}

function readPenalty(match: RegExpMatchArray): DescribedPenalty | null {
  const [, team = '', foul = '', yards, how = ''] = match;
  const ruling = /^offsetting/i.test(how) ? 'offset' : /^enforced/i.test(how) ? 'accepted' : 'declined';
  return {
    team: team.toUpperCase(),
    foul,
    yards: yards === undefined ? null : Number(yards),
    ruling,
    at: spotOf(match[5], match[6], match[7]),
    betweenDowns: /between downs/i.test(how),
  };
}

function spotOf(team?: string, line?: string, midfield?: string): DescribedSpot | null {
  if (midfield) return { team: null, line: 50 };
  return team && line ? { team: team.toUpperCase(), line: Number(line) } : null;
}

function lastSpot(action: string): DescribedSpot | null {
  let last: DescribedSpot | null = null;
  for (const match of action.matchAll(DEAD_SPOT)) last = spotOf(match[1], match[2], match[3]) ?? last;
  return last;
}

function touchbackSpot(action: string): DescribedSpot | null {
  const match = TOUCHBACK_SPOT.exec(action);
  return match ? spotOf(match[1], match[2], match[3]) : null;
}

/** Follows the ball from hand to hand through the sentence. */
function endedWith(action: string): Described['endedWith'] {
  let holder: Described['endedWith'] = 'start';
  for (const match of action.matchAll(EVENTS)) {
    const event = match[0];
    if (match[1]) holder = { team: match[1].toUpperCase() };
    else if (/^(INTERCEPTED|kicks|punts)/i.test(event)) holder = 'other';
  }
  // whoever fumbles out of the end zone ahead loses the ball
  if (holder === 'other' && /FUMBLES[^.]*\.?[^.]*out of bounds in End Zone, Touchback/i.test(action))
    return 'start';
  return holder;
}
