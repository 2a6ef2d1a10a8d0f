import { blankPlay, type PlayRecord } from '../../football/play.ts';
import { readData } from './open-data.ts';

/** Reads a college game in the official play-by-play text into records; positions as the text writes them. */
export interface CollegeGame {
  readonly name: string;
  /** how the text names a team at the head of a drive, and its code at a spot */
  readonly codes: Readonly<Record<string, string>>;
}

export const COLLEGE_GAMES: readonly CollegeGame[] = [
  { name: 'fsu_duquesne22', codes: { 'Florida St.': 'FSU', Duquesne: 'DUQ' } },
  { name: 'fsu_florida22', codes: { 'Florida St.': 'FSU', Florida: 'FLA' } },
];

const SITUATION = /^(\d)(?:st|nd|rd|th) and (\d+) at ([A-Z]+)(\d+)\s+(.*)$/;
const HEADER = /^(.+?) at (\d\d:\d\d)$/i;

export function collegePlays(game: CollegeGame): PlayRecord[] {
  const codes = Object.values(game.codes);
  const plays: PlayRecord[] = [];
  let quarter = 1;
  let holder = '';
  for (const line of withoutRepeats(joined(readData(`college/${game.name}.txt`)))) {
    const header = HEADER.exec(line);
    if (header) {
      holder = codeOf(game, header[1] ?? '') ?? holder;
      continue;
    }
    const starts = /start of (?:quarter #(\d)|(\d)(?:st|nd|rd|th) quarter)/i.exec(line);
    if (starts) {
      const next = Number(starts[1] ?? starts[2]);
      const last = plays.at(-1);
      if (next > quarter && last)
        plays[plays.length - 1] = { ...last, tags: { ...last.tags, timeExpired: 1 } };
      quarter = next;
    }
    const kick = /kickoff (\d+) yards to the ([A-Z]+)(\d\d)/.exec(line);
    const match = SITUATION.exec(line);
    const body = match?.[5] ?? line;
    if (!kick && (!match || notAPlay(body))) continue;
    const number = plays.length + 1;
    const base = {
      ...blankPlay(`${game.name}/${number}`, game.name),
      playNumber: number,
      quarter,
      note: line,
    };
    if (kick) {
      const kicker = codes.find((code) => code !== kick[2]) ?? '';
      const line0 = match ? Number(match[4]) : 35;
      const yardsToGoal = match && match[3] !== kicker ? line0 : 100 - line0;
      plays.push({
        ...base,
        possession: kicker,
        yardsToGoal,
        playKind: 'kickoff',
        ...kickOutcome(body, kicker, codes),
      });
      continue;
    }
    if (!match) continue;
    const yardsToGoal = toGoal(match[3] ?? '', Number(match[4]), holder);
    const isTry = /(?:kick|pass|rush) attempt (?:good|failed|no good)/i.test(body);
    const situation = isTry
      ? { possession: holder, yardsToGoal: 3 }
      : { possession: holder, down: Number(match[1]), distance: Number(match[2]), yardsToGoal };
    plays.push({ ...base, ...situation, ...outcome(body, holder, codes, isTry) });
  }
  return plays;
}

/** The text is printed with hard line breaks; a play begins with its situation. */
function joined(text: string): string[] {
  const lines: string[] = [];
  for (const raw of text.split('\n')) {
    const line = raw.trim().replace(/\t/g, ' ');
    const begins =
      /^\d(?:st|nd|rd|th) and /.test(line) ||
      HEADER.test(line) ||
      /^(start|play by play|[A-Za-z. ]+ \d+-\d+ )/i.test(line);
    const last = lines.at(-1);
    if (begins || last === undefined || HEADER.test(last) || /^start/i.test(last)) lines.push(line);
    else lines[lines.length - 1] = `${last} ${line}`;
  }
  return lines;
}

/** A page break repeats the last drives of the page before. */
function withoutRepeats(lines: readonly string[]): string[] {
  const seen = new Set<string>();
  const kept: string[] = [];
  let skipping = false;
  lines.forEach((line, i) => {
    // one of the texts heads each drive twice
    const heads = HEADER.test(line) || /^start of quarter/i.test(line);
    if (heads && line.toLowerCase() !== lines[i - 1]?.toLowerCase()) {
      const key = `${line.toLowerCase()} ${lines
        .slice(i + 1, i + 3)
        .filter((l) => !HEADER.test(l))
        .join(' ')
        .slice(0, 150)}`;
      skipping = seen.has(key);
      seen.add(key);
    }
    if (!skipping) kept.push(line);
  });
  return kept;
}

function codeOf(game: CollegeGame, name: string): string | null {
  const found = Object.entries(game.codes).find(([team]) => team.toLowerCase() === name.toLowerCase());
  return found?.[1] ?? null;
}

function notAPlay(body: string): boolean {
  return (
    /^(\(\d\d:\d\d\) )?(timeout|start of|end of (?:game|half|quarter)|[A-Z]{3} ball on|.* drive start)/i.test(
      body,
    ) ||
    (/injured on the play$/.test(body) && !/yards?|incomplete/.test(body))
  );
}

function toGoal(side: string, line: number, holder: string): number {
  return side === holder ? 100 - line : line;
}

function spots(body: string, holder: string): number[] {
  return [...body.matchAll(/\b(?:to the|at|to) ([A-Z]{3})(\d\d)\b/g)].map((m) =>
    toGoal(m[1] ?? '', Number(m[2]), holder),
  );
}

function penaltyOf(
  body: string,
  holder: string,
): Partial<PlayRecord> & { tags: Record<string, string | number> } {
  const match =
    /PENALTY ([A-Z]{3}) ([A-Za-z ]+?)(?: \([^)]*\))? (?:(\d+) yards? from ([A-Z]{3})(\d+) to|(declined|offset))/.exec(
      body,
    );
  if (!match) return { tags: {} };
  const fouls: Record<string, string> = {
    'illegal block in back': 'block in the back',
    'pass interference': 'pass interference',
  };
  const name = (match[2] ?? '').toLowerCase();
  const accepted = match[3] !== undefined;
  return {
    penalty: fouls[name] ?? name,
    penaltyOn: match[1] === holder ? 'offense' : 'defense',
    penaltyYards: accepted ? Number(match[3]) : null,
    penaltyOutcome: accepted ? 'accepted' : match[6] === 'offset' ? 'offset' : 'declined',
    tags: accepted ? { penaltyAt: toGoal(match[4] ?? '', Number(match[5]), holder) } : {},
  };
}

function kickOutcome(body: string, kicker: string, codes: readonly string[]): Partial<PlayRecord> {
  const { tags, ...penalty } = penaltyOf(body, kicker);
  const action = body.split('PENALTY')[0] ?? body;
  const kickYards = Number(/kickoff (\d+) yards/.exec(action)?.[1]);
  const returned = /return (\d+) yards?(?: loss)? to/.exec(action);
  const end = spots(action, kicker).at(-1);
  const recovered = /.*recovered by ([A-Z]{3})/.exec(action)?.[1];
  const result = /Touchback/i.test(action)
    ? 'touchback'
    : /muffed/.test(action)
      ? 'muffed'
      : /fair catch/i.test(action)
        ? 'fairCatch'
        : /out of bounds/.test(action) && !returned
          ? 'outOfBounds'
          : returned
            ? 'returned'
            : 'downed';
  const side =
    recovered && codes.includes(recovered) ? (recovered === kicker ? 'offense ball' : 'defense ball') : null;
  const ends = result !== 'touchback' && result !== 'outOfBounds' && end !== undefined;
  return {
    result,
    kickYards,
    returnYards: returned ? Number(returned[1]) : null,
    touchdown: /TOUCHDOWN(?! nullified)/.test(action),
    ...penalty,
    tags: { ...tags, ...(ends ? { endYardsToGoal: end } : {}), ...(side ? { endPossession: side } : {}) },
  };
}

function outcome(
  body: string,
  holder: string,
  codes: readonly string[],
  isTry: boolean,
): Partial<PlayRecord> {
  const { tags, ...penalty } = penaltyOf(body, holder);
  const action = body.split('PENALTY')[0] ?? body;
  if (/NO PLAY/.test(body)) return { playKind: 'noPlay', ...penalty, tags };
  const touchdown = /TOUCHDOWN(?! nullified)/.test(action);
  const firstDown = /1ST DOWN/.test(body) || touchdown;
  if (isTry) {
    const tryKind = /kick attempt/.test(body)
      ? 'kick try'
      : /pass attempt/.test(body)
        ? 'pass try'
        : 'run try';
    const result = /attempt good/i.test(body) ? 'good' : 'failed';
    return { playKind: 'try', result, ...penalty, tags: { ...tags, tryKind } };
  }
  const fieldGoal = /field goal attempt from (\d+) yards (GOOD|NO GOOD|BLOCKED)/i.exec(action);
  if (fieldGoal)
    return {
      playKind: 'fieldGoal',
      kickYards: Number(fieldGoal[1]),
      result: /^good/i.test(fieldGoal[2] ?? '')
        ? 'good'
        : /block/i.test(fieldGoal[2] ?? '')
          ? 'blocked'
          : 'missed',
      ...penalty,
      tags,
    };
  const end = spots(action, holder).at(-1);
  const punt = /punt (\d+) yards/.exec(action);
  const recovered = /.*recovered by ([A-Z]{3})/.exec(action)?.[1];
  const loose = recovered !== undefined && codes.includes(recovered);
  const side = loose ? (recovered === holder ? 'offense ball' : 'defense ball') : null;
  const ball = {
    ...(side ? { endPossession: side } : {}),
    ...((loose || /intercepted/.test(action) || punt) && end !== undefined && !/Touchback/i.test(action)
      ? { endYardsToGoal: end }
      : {}),
  };
  if (punt) {
    const returned = /return (-?\d+) yards?/.exec(action);
    return {
      playKind: 'punt',
      kickYards: Number(punt[1]),
      returnYards: returned ? Number(returned[1]) : null,
      result: /Touchback/i.test(action)
        ? 'touchback'
        : /muffed/.test(action)
          ? 'muffed'
          : /fair catch/i.test(action)
            ? 'fairCatch'
            : returned
              ? 'returned'
              : 'downed',
      touchdown,
      ...penalty,
      tags: { ...tags, ...ball },
    };
  }
  const gained = /for (?:a )?(?:loss of )?(\d+) yards?( loss)?/.exec(action);
  const lost = /yards? loss|for loss of/.test(
    gained?.[0] ? action.slice(gained.index, gained.index + 40) : '',
  );
  const gain = gained ? (lost ? -Number(gained[1]) : Number(gained[1])) : null;
  const fumble = /fumble/.test(action) ? (side === 'defense ball' ? 'lost' : 'kept') : null;
  const kind = /kneel/i.test(action)
    ? 'kneel'
    : /spike/i.test(action)
      ? 'spike'
      : /pass |sacked/.test(action)
        ? 'pass'
        : 'run';
  const result = /intercepted/.test(action)
    ? 'interception'
    : /incomplete/.test(action)
      ? 'incomplete'
      : /sacked/.test(action)
        ? 'sack'
        : /complete/.test(action)
          ? 'complete'
          : 'rush';
  return {
    playKind: kind,
    result,
    gain: result === 'incomplete' ? 0 : gain,
    firstDown,
    touchdown,
    fumble,
    ...penalty,
    tags: { ...tags, ...ball },
  };
}
