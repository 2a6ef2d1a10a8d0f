/** The words of a WHERE clause, each with its place in the text. */

import { fail, ok, type Result } from '../result.ts';

export interface Span {
  readonly start: number;
  /** first character after */
  readonly end: number;
}

export type Token = Span &
  (
    | { readonly type: 'word'; readonly text: string; readonly quoted: boolean }
    | { readonly type: 'string'; readonly text: string }
    | { readonly type: 'number'; readonly text: string; readonly value: number }
    | { readonly type: 'symbol'; readonly text: string }
    | { readonly type: 'end'; readonly text: '' }
  );

/** Words that mean something to the clause itself; a field of such a name is written in double quotes. */
export const KEYWORDS = [
  'AND',
  'OR',
  'NOT',
  'IN',
  'BETWEEN',
  'LIKE',
  'ESCAPE',
  'IS',
  'NULL',
  'TRUE',
  'FALSE',
  'EXACTLY',
] as const;
export type Keyword = (typeof KEYWORDS)[number];

const BLANK = /[\s\u00a0]+/y;
const WORD = /[\p{L}_][\p{L}\p{N}_]*/uy;
/** The play before or after, in front of a field. */
const STEP = /(?:previous|next)\./iy;
const NUMBER = /[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?/y;
const SYMBOL = /<=|>=|<>|!=|==|[=<>(),]/y;

/** Whether a name can stand in the text without double quotes. */
export function isPlainWord(name: string): boolean {
  const upper = name.toUpperCase();
  return /^[\p{L}_][\p{L}\p{N}_]*$/u.test(name) && !KEYWORDS.some((keyword) => keyword === upper);
}

function matchAt(expression: RegExp, text: string, at: number): string | null {
  expression.lastIndex = at;
  return expression.exec(text)?.[0] ?? null;
}

/** The end of a quoted piece that opens at `start` (a doubled quote is one quote), and what it says. */
export function readQuoted(text: string, start: number): { text: string; end: number } | null {
  const quote = text[start]!;
  let said = '';
  for (let at = start + 1; at < text.length; at++) {
    if (text[at] !== quote) said += text[at];
    else if (text[at + 1] === quote) {
      said += quote;
      at++;
    } else return { text: said, end: at + 1 };
  }
  return null;
}

/** All tokens and a closing `end`. Fails where a quote is not closed or a character means nothing here. */
export function tokenise(text: string): Result<Token[]> {
  const tokens: Token[] = [];
  let at = 0;
  while (at < text.length) {
    const blank = matchAt(BLANK, text, at);
    if (blank !== null) {
      at += blank.length;
      continue;
    }
    const token = tokenAt(text, at);
    if (!token) return fail(strangeCharacter(text, at));
    tokens.push(token);
    at = token.end;
  }
  tokens.push({ type: 'end', text: '', start: text.length, end: text.length });
  return ok(tokens);
}

function tokenAt(text: string, start: number): Token | null {
  const here = text[start];
  if (here === "'" || here === '"') {
    const quoted = readQuoted(text, start);
    if (!quoted) return null;
    const span = { start, end: quoted.end };
    return here === "'"
      ? { type: 'string', text: quoted.text, ...span }
      : { type: 'word', text: quoted.text, quoted: true, ...span };
  }
  const step = matchAt(STEP, text, start);
  if (step !== null) return neighbourToken(text, start, step);
  const number = matchAt(NUMBER, text, start);
  if (number !== null) {
    return { type: 'number', text: number, value: Number(number), start, end: start + number.length };
  }
  const word = matchAt(WORD, text, start);
  if (word !== null) return { type: 'word', text: word, quoted: false, start, end: start + word.length };
  const symbol = matchAt(SYMBOL, text, start);
  return symbol === null ? null : { type: 'symbol', text: symbol, start, end: start + symbol.length };
}

/** `previous.result` is one word, whose field may stand in double quotes. */
function neighbourToken(text: string, start: number, step: string): Token | null {
  const at = start + step.length;
  if (text[at] === '"') {
    const quoted = readQuoted(text, at);
    return quoted && { type: 'word', text: step + quoted.text, quoted: false, start, end: quoted.end };
  }
  const said = step + (matchAt(WORD, text, at) ?? '');
  return { type: 'word', text: said, quoted: false, start, end: start + said.length };
}

function strangeCharacter(text: string, from: number) {
  const start = from + (matchAt(STEP, text, from)?.length ?? 0);
  const here = text[start]!;
  if (here === "'" || here === '"') {
    return {
      code: 'question-quote-open',
      message: `The quote that opens here is never closed.`,
      next: `Close it with ${here}; write ${here}${here} for a ${here} inside.`,
      at: { start, end: text.length },
    };
  }
  const character = String.fromCodePoint(text.codePointAt(start)!);
  return {
    code: 'question-character',
    message: `“${character}” means nothing in a question.`,
    next: "Text stands in single quotes, as in coverage = 'Cover 3'.",
    at: { start, end: start + character.length },
  };
}
