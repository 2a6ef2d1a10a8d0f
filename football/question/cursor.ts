/** The place in the words of a question, and how a parse gives up at one of them. */

import { type Problem, ProblemError } from '../result.ts';
import { QUESTION_LIMITS, type RuleQuestion } from './ast.ts';
import type { FieldSet } from './fieldset.ts';
import type { Keyword, Span, Token } from './tokens.ts';

export interface RulePlaces extends Span {
  readonly values: readonly Span[];
}

export interface Cursor {
  readonly tokens: readonly Token[];
  at: number;
  depth: number;
  readonly fields: FieldSet;
  readonly places: Map<RuleQuestion, RulePlaces>;
}

export function peek(cursor: Cursor, ahead = 0): Token {
  return cursor.tokens[Math.min(cursor.at + ahead, cursor.tokens.length - 1)]!;
}

export function take(cursor: Cursor): Token {
  const token = peek(cursor);
  cursor.at++;
  return token;
}

export function isKeyword(token: Token, keyword: Keyword): boolean {
  return token.type === 'word' && !token.quoted && token.text.toUpperCase() === keyword;
}

export function isLiteral(token: Token): boolean {
  return (
    token.type === 'string' ||
    token.type === 'number' ||
    isKeyword(token, 'TRUE') ||
    isKeyword(token, 'FALSE') ||
    isKeyword(token, 'NULL')
  );
}

export function isSymbol(token: Token, symbol: string): boolean {
  return token.type === 'symbol' && token.text === symbol;
}

export function takeKeyword(cursor: Cursor, keyword: Keyword): boolean {
  if (!isKeyword(peek(cursor), keyword)) return false;
  cursor.at++;
  return true;
}

export function takeSymbol(cursor: Cursor, symbol: string): boolean {
  if (!isSymbol(peek(cursor), symbol)) return false;
  cursor.at++;
  return true;
}

export function refuse(at: Span, code: string, message: string, next?: string): never {
  const problem: Problem = { code, message, at: { start: at.start, end: at.end }, ...(next ? { next } : {}) };
  throw new ProblemError(problem);
}

export function shown(token: Token): string {
  return token.type === 'end' ? 'the end of the question' : `“${token.text}”`;
}

export function expectSymbol(cursor: Cursor, symbol: string, why: string): void {
  const token = peek(cursor);
  if (!takeSymbol(cursor, symbol)) {
    refuse(token, 'question-syntax', `${shown(token)} stands where “${symbol}” ${why}.`);
  }
}

export function tooMany(): [code: string, message: string] {
  return ['question-long', `The question has more than ${QUESTION_LIMITS.rules} conditions.`];
}
