/** A Question as the WHERE clause that parses back to it. */

import {
  isFieldRule,
  isListRule,
  isNoValueRule,
  isRangeRule,
  type NoValueOperator,
  normalise,
  type Question,
  type QuestionValue,
  type RuleQuestion,
} from './ast.ts';
import { splitStep } from './neighbour.ts';
import { isPlainWord } from './tokens.ts';

/** Canonical text; blank for a question without conditions. `parseQuestion` of it gives `normalise(question)`. */
export function printQuestion(question: Question): string {
  const plain = normalise(question);
  if (plain.kind === 'group' && plain.rules.length === 0 && !plain.not) return '';
  return print(plain, false);
}

function print(question: Question, inside: boolean): string {
  if (question.kind === 'rule') return printRule(question);
  if (question.rules.length === 0) return question.not ? 'FALSE' : 'TRUE';
  const joined = question.rules
    .map((rule) => print(rule, true))
    .join(question.combinator === 'and' ? ' AND ' : ' OR ');
  if (question.not) return `NOT (${joined})`;
  return inside ? `(${joined})` : joined;
}

export function printName(key: string): string {
  const { step, key: plain } = splitStep(key);
  return step ? `${step}.${printPlainName(plain)}` : printPlainName(key);
}

function printPlainName(key: string): string {
  return isPlainWord(key) ? key : `"${key.replaceAll('"', '""')}"`;
}

export function printValue(value: QuestionValue): string {
  if (typeof value === 'string') return `'${value.replaceAll("'", "''")}'`;
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  return String(value);
}

const NO_VALUE: Readonly<Record<NoValueOperator, string>> = {
  isNull: 'IS NULL',
  isNotNull: 'IS NOT NULL',
  isTrue: 'IS TRUE',
  isNotTrue: 'IS NOT TRUE',
  isFalse: 'IS FALSE',
  isNotFalse: 'IS NOT FALSE',
};

function printRule(rule: RuleQuestion): string {
  const name = printName(rule.field);
  if (isFieldRule(rule)) return `${name} ${rule.operator.replace('field', '')} ${printName(rule.other)}`;
  if (isNoValueRule(rule)) return `${name} ${NO_VALUE[rule.operator]}`;
  if (isRangeRule(rule)) {
    const [low, high] = rule.values;
    const word = rule.operator === 'between' ? 'BETWEEN' : 'NOT BETWEEN';
    return `${name} ${word} ${printValue(low)} AND ${printValue(high)}`;
  }
  if (isListRule(rule)) {
    const list = `(${rule.values.map(printValue).join(', ')})`;
    switch (rule.operator) {
      case 'in':
        return `${name} IN ${list}`;
      case 'notIn':
        return `${name} NOT IN ${list}`;
      case 'exactlyIn':
        return `EXACTLY(${name}) IN ${list}`;
      case 'notExactlyIn':
        return `EXACTLY(${name}) NOT IN ${list}`;
    }
  }
  const value = printValue(rule.value);
  switch (rule.operator) {
    case 'exactly':
      return `EXACTLY(${name}) = ${value}`;
    case 'notExactly':
      return `EXACTLY(${name}) <> ${value}`;
    case 'like':
    case 'notLike': {
      const sign = value.includes('\\') ? " ESCAPE '\\'" : '';
      return `${name} ${rule.operator === 'like' ? 'LIKE' : 'NOT LIKE'} ${value}${sign}`;
    }
    default:
      return `${name} ${rule.operator} ${value}`;
  }
}
