/**
 * A question answered one play at a time, written to be read, not to be fast: what the columns and SQLite are held to.
 * It shares no code with either but the shape of a question.
 */

import type { FieldRule, Question, RuleQuestion } from '../../../football/question/ast.ts';
import type { QuestionTerm } from '../../../football/question/vocabulary.ts';
import type { FieldDefinition } from '../../../football/vocabulary/fields.ts';
import { DERIVED_TERMS } from '../../../football/vocabulary/situation-limits.ts';
import { BUILT_IN_TERMS } from '../../../football/vocabulary/terms.ts';

/** A play's value in a field; null where it is missing. Players by number and name. */
export type PlainPlay = (field: string) => PlainValue;
type PlainValue = string | number | boolean | null;

type Known = boolean | null;

export function answer(
  question: Question,
  play: PlainPlay,
  fields: readonly FieldDefinition[],
  terms: readonly QuestionTerm[] = BUILT_IN_TERMS,
): Known {
  if (question.kind === 'rule') return answerRule(question, play, fields, terms);
  const parts = question.rules.map((rule) => answer(rule, play, fields, terms));
  let all: Known;
  if (parts.length === 0) all = true;
  else if (question.combinator === 'and')
    all = parts.includes(false) ? false : parts.includes(null) ? null : true;
  else all = parts.includes(true) ? true : parts.includes(null) ? null : false;
  return question.not && all !== null ? !all : all;
}

/** Per condition, what it says of each value: a season has few values and many plays. */
const answered = new WeakMap<RuleQuestion, Map<unknown, Known>>();

function answerRule(
  rule: RuleQuestion,
  play: PlainPlay,
  fields: readonly FieldDefinition[],
  terms: readonly QuestionTerm[],
): Known {
  const value = play(rule.field);
  if ('other' in rule) return answerFields(rule, value, play(rule.other));
  const before = answered.get(rule) ?? new Map<unknown, Known>();
  answered.set(rule, before);
  const known = before.get(value);
  if (known !== undefined) return known;
  const plain = rule.field.replace(/^(previous|next)\./, '');
  const now = answerValue(rule, value, fields.find((f) => f.key === plain)!, terms);
  before.set(value, now);
  return now;
}

function answerFields(rule: FieldRule, a: PlainValue, b: PlainValue): Known {
  if (a === null || b === null) return null;
  const [x, y] = typeof a === 'string' ? [fold(a), fold(String(b))] : [Number(a), Number(b)];
  switch (rule.operator) {
    case '=field':
      return x === y;
    case '<>field':
      return x !== y;
    case '<field':
      return x < y;
    case '<=field':
      return x <= y;
    case '>field':
      return x > y;
    case '>=field':
      return x >= y;
  }
}

function answerValue(
  rule: Exclude<RuleQuestion, FieldRule>,
  value: string | number | boolean | null,
  field: FieldDefinition,
  terms: readonly QuestionTerm[],
): Known {
  const flip = (known: Known): Known => (known === null ? null : !known);
  const is = (asked: unknown, exact = false): Known =>
    value === null ? null : equal(field, value, asked, exact, terms);
  const among = (exact = false): Known =>
    value === null
      ? null
      : (rule as { values: readonly unknown[] }).values.some((v) => equal(field, value, v, exact, terms));
  const compare = (test: (a: number, b: number) => boolean): Known =>
    value === null ? null : test(Number(value), Number((rule as { value: unknown }).value));
  switch (rule.operator) {
    case 'isNull':
      return value === null;
    case 'isNotNull':
      return value !== null;
    case 'isTrue':
      return value === true;
    case 'isNotTrue':
      return value !== true;
    case 'isFalse':
      return value === false;
    case 'isNotFalse':
      return value !== false;
    case '=':
      return is(rule.value);
    case '<>':
      return flip(is(rule.value));
    case 'exactly':
      return is(rule.value, true);
    case 'notExactly':
      return flip(is(rule.value, true));
    case 'in':
      return among();
    case 'notIn':
      return flip(among());
    case 'exactlyIn':
      return among(true);
    case 'notExactlyIn':
      return flip(among(true));
    case '<':
      return compare((a, b) => a < b);
    case '<=':
      return compare((a, b) => a <= b);
    case '>':
      return compare((a, b) => a > b);
    case '>=':
      return compare((a, b) => a >= b);
    case 'between':
    case 'notBetween': {
      const [low, high] = rule.values.map(Number);
      const inside = value === null ? null : Number(value) >= low! && Number(value) <= high!;
      return rule.operator === 'between' ? inside : flip(inside);
    }
    case 'like':
      return value === null ? null : like(field, String(value), String(rule.value));
    case 'notLike':
      return value === null ? null : flip(like(field, String(value), String(rule.value)));
  }
}

const fold = (text: string) => text.replace(/[A-Z]/g, (letter) => letter.toLowerCase());

function equal(
  field: FieldDefinition,
  value: string | number | boolean,
  asked: unknown,
  exact: boolean,
  terms: readonly QuestionTerm[],
): boolean {
  if (field.kind === 'term') {
    const known = [...terms, ...DERIVED_TERMS].filter((term) => term.field === field.key);
    return isTerm(known, String(value), String(asked), exact);
  }
  if (field.kind === 'player') return isPlayer(String(value), String(asked));
  return typeof value === 'string' ? fold(value) === fold(String(asked)) : value === asked;
}

function isTerm(terms: readonly QuestionTerm[], value: string, asked: string, exact: boolean): boolean {
  const meant =
    terms.find((term) => fold(term.name) === fold(asked)) ??
    terms.find((term) => term.aliases?.some((alias) => fold(alias) === fold(asked)));
  if (!meant) return fold(value) === fold(asked);
  let term = terms.find((t) => fold(t.name) === fold(value));
  if (exact) return term === meant;
  while (term && term !== meant) term = terms.find((t) => t.name === term?.parent);
  return term === meant;
}

function isPlayer(label: string, asked: string): boolean {
  const [, number, name] = /^(?:#(\d+) ?)?(.*)$/.exec(fold(label))!;
  const word = fold(asked.trim());
  if (word === fold(label) || (name !== '' && name === word)) return true;
  return number !== undefined && /^#?\d{1,3}$/.test(word) && Number(word.replace('#', '')) === Number(number);
}

function like(field: FieldDefinition, value: string, pattern: string): boolean {
  const texts = [value];
  if (field.kind === 'player') texts.push(value.replace(/^#\d+ ?/, ''));
  return texts.some((text, i) =>
    i > 0 && text === '' ? false : matches([...fold(text)], [...fold(pattern)]),
  );
}

/** `%` is tried at every length. */
function matches(text: readonly string[], pattern: readonly string[]): boolean {
  const [here, next] = pattern;
  if (here === undefined) return text.length === 0;
  if (here === '%')
    return matches(text, pattern.slice(1)) || (text.length > 0 && matches(text.slice(1), pattern));
  if (text.length === 0) return false;
  if (here === '\\') return text[0] === next && matches(text.slice(1), pattern.slice(2));
  return (here === '_' || here === text[0]) && matches(text.slice(1), pattern.slice(1));
}
