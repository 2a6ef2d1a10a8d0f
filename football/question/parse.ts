/**
 * The text of a question, the WHERE clause of standard SQL, into a Question.
 * Besides SQL's own it knows EXACTLY(field) for a term without its family, and a lone flag (`touchdown`, `NOT touchdown`).
 * Values come out as the field keeps them: `yardsToGoal = '-35'` asks for 65, `clock < '2:00'` for 120.
 */

import { fail, ok, ProblemError, type Result } from '../result.ts';
import {
  type Combinator,
  depthOf,
  EVERY_PLAY,
  normalise,
  QUESTION_LIMITS,
  type Question,
  type RuleQuestion,
  sizeOf,
} from './ast.ts';
import type { FieldDefinitions } from './check.ts';
import {
  type Cursor,
  expectSymbol,
  isKeyword,
  isSymbol,
  peek,
  type RulePlaces,
  refuse,
  shown,
  takeKeyword,
  takeSymbol,
  tooMany,
} from './cursor.ts';
import { FieldSet } from './fieldset.ts';
import { comparisonAt, parseRule } from './parse-rule.ts';
import { type Span, type Token, tokenise } from './tokens.ts';

export interface ParsedQuestion {
  readonly question: Question;
  /** where each rule stands in the text, and each of its values */
  readonly places: ReadonlyMap<RuleQuestion, RulePlaces>;
}

/** A problem points at the word in the text that it is about. Blank text asks for every play. */
export function parseQuestion(text: string, fields: FieldDefinitions): Result<Question> {
  const parsed = parseWithPlaces(text, fields);
  return parsed.ok ? ok(parsed.value.question) : parsed;
}

/** As parseQuestion, and where each rule stands in the text. */
export function parseWithPlaces(text: string, fields: FieldDefinitions): Result<ParsedQuestion> {
  if (text.length > QUESTION_LIMITS.textLength) {
    return fail({
      code: 'question-long',
      message: `The question is longer than ${QUESTION_LIMITS.textLength} characters.`,
      next: 'Save a part of it as a question of its own.',
      at: { start: QUESTION_LIMITS.textLength, end: text.length },
    });
  }
  const tokens = tokenise(text);
  if (!tokens.ok) return tokens;
  const cursor: Cursor = {
    tokens: tokens.value,
    at: 0,
    depth: 0,
    fields: FieldSet.of(fields),
    places: new Map(),
  };
  try {
    if (peek(cursor).type === 'end') return ok({ question: EVERY_PLAY, places: cursor.places });
    const question = normalise(chain(cursor, 'or'));
    const rest = peek(cursor);
    if (rest.type !== 'end') refuse(rest, ...afterCondition(rest, cursor));
    if (sizeOf(question) > QUESTION_LIMITS.rules) refuse({ start: 0, end: text.length }, ...tooMany());
    if (depthOf(question) > QUESTION_LIMITS.depth) tooDeep({ start: 0, end: text.length });
    return ok({ question, places: cursor.places });
  } catch (error) {
    if (error instanceof ProblemError) return fail(error.problem);
    throw error;
  }
}

/** `a OR b OR c`, whose parts are `a AND b AND c`. */
function chain(cursor: Cursor, combinator: Combinator): Question {
  const part = () => (combinator === 'or' ? chain(cursor, 'and') : factor(cursor));
  const rules = [part()];
  while (takeKeyword(cursor, combinator === 'or' ? 'OR' : 'AND')) rules.push(part());
  return rules.length === 1 ? rules[0]! : { kind: 'group', combinator, rules };
}

function factor(cursor: Cursor): Question {
  const token = peek(cursor);
  if (takeKeyword(cursor, 'NOT')) {
    const inner = deeper(cursor, token, () => factor(cursor));
    return normalise({ kind: 'group', combinator: 'and', not: true, rules: [inner] });
  }
  if (takeSymbol(cursor, '(')) {
    const inner = deeper(cursor, token, () => chain(cursor, 'or'));
    expectSymbol(cursor, ')', `should close the bracket`);
    if (isKeyword(peek(cursor), 'IS')) {
      refuse(
        peek(cursor),
        'question-syntax',
        'IS follows a field, not a bracket.',
        'Name the field before IS.',
      );
    }
    return inner;
  }
  const opens = peek(cursor, 1);
  if ((isKeyword(token, 'TRUE') || isKeyword(token, 'FALSE')) && !comparisonAt(opens)) {
    cursor.at++;
    return isKeyword(token, 'TRUE') ? EVERY_PLAY : { ...EVERY_PLAY, not: true };
  }
  return parseRule(cursor);
}

function deeper<T>(cursor: Cursor, at: Span, inside: () => T): T {
  cursor.depth++;
  // NOT and its bracket are one level of the question, and two of the text
  if (cursor.depth > 2 * QUESTION_LIMITS.depth) {
    tooDeep(at);
  }
  const result = inside();
  cursor.depth--;
  return result;
}

function tooDeep(at: Span): never {
  refuse(at, 'question-deep', `The question is nested deeper than ${QUESTION_LIMITS.depth} levels.`);
}

/** What to say about a word after a whole condition. */
function afterCondition(token: Token, cursor: Cursor): [code: string, message: string, next: string] {
  if (isSymbol(token, ')')) {
    return ['question-syntax', 'This bracket closes nothing.', 'Take it out, or open one before it.'];
  }
  const before = cursor.tokens[cursor.at - 1];
  if (before?.type === 'word' && token.type === 'word') {
    return ['question-syntax', `“${token.text}” follows a condition.`, 'Join conditions by AND or OR.'];
  }
  return ['question-syntax', `${shown(token)} follows a condition.`, 'Join conditions by AND or OR.'];
}
