/**
 * Reads a situation as it is said on a headset: `2nd & 8, left hash, own 35, 11 personnel`. Commas may be left out; any
 * term of the playbook stands for its field; `field: value` says a field outright.
 */

import { fail, ok, type Result } from '../result.ts';
import type { PlainValue } from '../values.ts';
import type { ContextField } from './contexts.ts';

/** A value that was read, and where in the text it stands. */
export interface SaidPart {
  /** key of a field or of a context */
  readonly key: string;
  readonly value: PlainValue;
  readonly start: number;
  readonly end: number;
}

export interface SituationWords {
  /** the contexts that plays can be counted by */
  readonly contexts: readonly ContextField[];
  /** every field that has a term of this spelling, with the term's name */
  readonly termsSpelled: (text: string) => readonly { readonly field: string; readonly name: string }[];
}

type Reader = (
  match: RegExpExecArray,
  said: readonly SaidPart[],
) => readonly (readonly [string, PlainValue])[];

const ORDINALS = '(1st|2nd|3rd|4th|first|second|third|fourth)';
const DOWNS: Readonly<Record<string, number>> = { first: 1, second: 2, third: 3, fourth: 4 };
const downOf = (text: string): number => DOWNS[text] ?? Number(text[0]);

const HASHES: Readonly<Record<string, string>> = { l: 'L', m: 'M', r: 'R' };

const READERS: readonly (readonly [RegExp, Reader])[] = [
  [
    new RegExp(`(?:${ORDINALS}|([1-4]))\\s*(?:&|and)\\s*(\\d{1,2}|goal|short|medium|long)\\b`, 'y'),
    (m, said) => {
      const down = ['down', downOf(m[1] ?? m[2]!)] as const;
      if (m[3] === 'goal') {
        const spot = said.find((part) => part.key === 'yardsToGoal');
        return spot ? [down, ['distance', spot.value]] : [down];
      }
      return [down, /^\d/.test(m[3]!) ? ['distance', Number(m[3])] : ['toGo', m[3]!]];
    },
  ],
  [/([1-5])(?:st|nd|rd|th)\s+quarter\b/y, (m) => [['quarter', Number(m[1])]]],
  [/(?:quarter|q)\s*([1-5])\b/y, (m) => [['quarter', Number(m[1])]]],
  [new RegExp(`${ORDINALS}(?:\\s+down)?\\b`, 'y'), (m) => [['down', downOf(m[1]!)]]],
  [
    /(left|middle|right)(?:\s+hash)?\b|hash\s+(left|middle|right|l|m|r)\b/y,
    (m) => [['hash', HASHES[(m[1] ?? m[2]!)[0]!]!]],
  ],
  [/own\s+territory\b/y, () => [['zone', 'own territory']]],
  [/(?:at\s+|on\s+)?(?:the\s+)?own\s+(\d{1,2})\b/y, (m) => [['yardsToGoal', 100 - Number(m[1])]]],
  [
    /(?:at\s+|on\s+)?(?:the\s+)?(?:opp|opponents?|opponent['’]s|their)\s+(\d{1,2})\b/y,
    (m) => [['yardsToGoal', Number(m[1])]],
  ],
  [/[-\u2212](\d{1,2})\b/y, (m) => [['yardsToGoal', 100 - Number(m[1])]]],
  [/\+(\d{1,2})\b/y, (m) => [['yardsToGoal', Number(m[1])]]],
  [/(?:(?:at|on)\s+)?(?:the\s+)?50\b/y, () => [['yardsToGoal', 50]]],
  [/(goal line|red zone|fringe|midfield|backed up)\b/y, (m) => [['zone', m[1]!]]],
  [/(\d\d)\s*(?:personnel|pers)\b/y, (m) => [['personnel', m[1]!]]],
  [
    /(?:up|ahead|leading)\s+(?:by\s+)?(\d{1,2})\b/y,
    (m) => [
      ['scoreFor', Number(m[1])],
      ['scoreAgainst', 0],
    ],
  ],
  [
    /(?:down by|behind|trailing)\s+(?:by\s+)?(\d{1,2})\b/y,
    (m) => [
      ['scoreFor', 0],
      ['scoreAgainst', Number(m[1])],
    ],
  ],
  [/(?:tied|score even)\b/y, () => [['scoreState', 'tied']]],
  [/(?:two|2)[-\s]minutes?\b/y, () => [['halfEnd', 'two minutes']]],
];

const FILLER = /(?:[\s,;.&]+|(?:and|with|in|on|from|at|the)\b)/y;
const NAMED = /([a-z][a-z0-9]*)\s*[:=]\s*([^,;]+)/iy;
const MOST_WORDS = 4;

/** @returns what was said, in the order in which it was; a problem that points at the first word not understood */
export function readSituation(text: string, words: SituationWords): Result<readonly SaidPart[]> {
  const lower = text.toLowerCase();
  const said: SaidPart[] = [];
  let at = 0;
  while (at < text.length) {
    const filler = matchAt(FILLER, lower, at);
    if (filler) {
      at += filler[0].length;
      continue;
    }
    const found = readNamed(text, at, words) ?? readPattern(lower, at, said) ?? readTerm(text, at, words);
    if (!found) return fail(unread(text, at));
    for (const [key, value] of found.values) {
      // what is said twice is meant as said last
      const before = said.findIndex((part) => part.key === key);
      if (before >= 0) said.splice(before, 1);
      said.push({ key, value, start: at, end: found.end });
    }
    at = found.end;
  }
  return ok(said);
}

/** Which value each context has in a situation; only those that are known. */
export function contextOf(
  said: readonly SaidPart[],
  contexts: readonly ContextField[],
): { readonly context: ContextField; readonly value: string }[] {
  const values = new Map(said.map((part) => [part.key, part.value]));
  const get = (key: string): PlainValue => values.get(key) ?? null;
  return contexts.flatMap((context) => {
    const direct = values.get(context.key);
    const value = direct === undefined || direct === null ? context.valueOf(get) : String(direct);
    return value === null ? [] : [{ context, value }];
  });
}

interface Found {
  readonly values: readonly (readonly [string, PlainValue])[];
  readonly end: number;
}

function matchAt(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at;
  return pattern.exec(text);
}

function readPattern(lower: string, at: number, said: readonly SaidPart[]): Found | null {
  for (const [pattern, read] of READERS) {
    const match = matchAt(pattern, lower, at);
    if (match) return { values: read(match, said), end: at + match[0].length };
  }
  return null;
}

function readNamed(text: string, at: number, { contexts, termsSpelled }: SituationWords): Found | null {
  const match = matchAt(NAMED, text, at);
  const context = match && contexts.find((c) => c.key.toLowerCase() === match[1]!.toLowerCase());
  if (!match || !context) return null;
  const spelled = match[2]!.trim();
  const term = termsSpelled(spelled).find((t) => t.field === context.key);
  const number = Number(spelled);
  const value = term?.name ?? (Number.isFinite(number) ? number : spelled);
  return { values: [[context.key, value]], end: at + match[0].length };
}

function readTerm(text: string, at: number, { contexts, termsSpelled }: SituationWords): Found | null {
  const ahead = [...text.slice(at).matchAll(/[^\s,;]+/g)].slice(0, MOST_WORDS);
  for (let count = ahead.length; count > 0; count--) {
    const last = ahead[count - 1]!;
    const end = last.index + last[0].length;
    const spelled = text.slice(at, at + end);
    if (spelled.includes(',') || spelled.includes(';')) continue;
    const terms = termsSpelled(spelled);
    const context = contexts.find((c) => terms.some((t) => t.field === c.key));
    const term = context && terms.find((t) => t.field === context.key);
    if (term) return { values: [[term.field, term.name]], end: at + end };
  }
  return null;
}

function unread(text: string, at: number) {
  const word = /^[^\s,;]+/.exec(text.slice(at))?.[0] ?? '';
  return {
    code: 'situation-word',
    message: `“${word}” is no part of a situation that is known here.`,
    kept: 'Nothing was changed.',
    next: 'Say it as in: 2nd & 8, left hash, own 35, 11 personnel. A field can be named outright, as in motion: jet.',
    at: { start: at, end: at + word.length },
  };
}
