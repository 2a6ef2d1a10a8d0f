/**
 * A Question as the tree that the query builder on the screen edits, and back. The types below are the part of the
 * builder's own that Tapebook uses, so that this file needs no package. Both ways keep everything: what has no
 * counterpart is refused with its place in the tree, because a rule left out would silently find more plays.
 */

import { fail, ok, type Problem, type Result } from '../result.ts';
import {
  FIELD_OPERATORS,
  isFieldRule,
  isListRule,
  isNoValueRule,
  isOneValueRule,
  isRangeRule,
  LIST_OPERATORS,
  NO_VALUE_OPERATORS,
  ONE_VALUE_OPERATORS,
  type Operator,
  QUESTION_LIMITS,
  type Question,
  type QuestionValue,
  RANGE_OPERATORS,
  type RuleQuestion,
} from './ast.ts';
import { type FieldDefinitions, settleRule } from './check.ts';
import { FieldSet } from './fieldset.ts';
import { type PatternShape, patternFor, readPattern } from './like.ts';

export interface BuilderRule {
  readonly field: string;
  readonly operator: string;
  /** one value, a list of them, or null where the operator takes none */
  // biome-ignore lint/suspicious/noExplicitAny: the builder's own type says so
  readonly value: any;
}

export interface BuilderGroup {
  readonly combinator: string;
  readonly not?: boolean;
  readonly rules: (BuilderRule | BuilderGroup)[];
}

/** Where in the tree the trouble is: the index at each level, as the builder counts. */
export interface BuilderProblem extends Problem {
  readonly path: readonly number[];
}

type Shape = Exclude<PatternShape, 'whole'>;
const SHAPES: Readonly<Record<Shape, readonly [like: string, notLike: string]>> = {
  contains: ['contains', 'doesNotContain'],
  starts: ['beginsWith', 'doesNotBeginWith'],
  ends: ['endsWith', 'doesNotEndWith'],
};

/** Operators that the builder knows by another name. */
const RENAMED = { '<>': '!=', isNull: 'null', isNotNull: 'notNull' } as const satisfies Partial<
  Record<Operator, string>
>;

const OURS: ReadonlyMap<string, Operator> = new Map([
  ...[
    ...ONE_VALUE_OPERATORS,
    ...LIST_OPERATORS,
    ...RANGE_OPERATORS,
    ...NO_VALUE_OPERATORS,
    ...FIELD_OPERATORS,
  ].map((operator): [string, Operator] => [builderName(operator), operator]),
]);

/** The operators to offer for a field, under the names that the builder's tree uses. */
export function builderOperators(operators: readonly Operator[]): string[] {
  return operators.flatMap((operator) => {
    const shape = operator === 'like' ? 0 : operator === 'notLike' ? 1 : null;
    const shaped = shape === null ? [] : Object.values(SHAPES).map((names) => names[shape]);
    return [...shaped, builderName(operator)];
  });
}

function builderName(operator: Operator): string {
  return operator in RENAMED ? RENAMED[operator as keyof typeof RENAMED] : operator;
}

/** A lone rule comes in a group of one, because the builder's root is a group. */
export function toBuilder(question: Question): BuilderGroup {
  if (question.kind === 'rule') return { combinator: 'and', rules: [ruleToBuilder(question)] };
  return {
    combinator: question.combinator,
    ...(question.not ? { not: true } : {}),
    rules: question.rules.map((rule) => (rule.kind === 'rule' ? ruleToBuilder(rule) : toBuilder(rule))),
  };
}

function ruleToBuilder(rule: RuleQuestion): BuilderRule {
  const { field, operator } = rule;
  if (isNoValueRule(rule)) return { field, operator: builderName(operator), value: null };
  if (isFieldRule(rule)) return { field, operator: rule.operator, value: rule.other };
  if (isListRule(rule) || isRangeRule(rule)) {
    return { field, operator: builderName(operator), value: [...rule.values] };
  }
  if (isOneValueRule(rule) && (operator === 'like' || operator === 'notLike')) {
    const read = readPattern(String(rule.value));
    if (read && read.shape !== 'whole') {
      return { field, operator: SHAPES[read.shape][operator === 'like' ? 0 : 1], value: read.text };
    }
  }
  return { field, operator: builderName(operator), value: rule.value };
}

/** Groups come back as they stand, a group of one too, so that the builder's tree keeps its shape. */
export function fromBuilder(group: BuilderGroup, fields: FieldDefinitions): Result<Question, BuilderProblem> {
  return readGroup(group, FieldSet.of(fields), []);
}

function refuse(path: readonly number[], code: string, message: string, next?: string) {
  return fail<BuilderProblem>({ code, message, path, ...(next ? { next } : {}) });
}

function readGroup(
  group: BuilderGroup,
  fields: FieldSet,
  path: readonly number[],
): Result<Question, BuilderProblem> {
  if (path.length >= QUESTION_LIMITS.depth) {
    return refuse(
      path,
      'question-deep',
      `The question is nested deeper than ${QUESTION_LIMITS.depth} levels.`,
    );
  }
  const { combinator } = group;
  if (combinator !== 'and' && combinator !== 'or') {
    return refuse(path, 'question-builder', `Conditions are joined by “and” or “or”, not “${combinator}”.`);
  }
  const off = switchedOff(group, path);
  if (off) return off;
  if (!Array.isArray(group.rules))
    return refuse(path, 'question-builder', 'A list of conditions was expected here.');
  const rules: Question[] = [];
  for (const [index, item] of group.rules.entries()) {
    const here = [...path, index];
    if (typeof item !== 'object' || item === null) {
      return refuse(here, 'question-builder', 'A condition was expected here.');
    }
    const read = 'rules' in item ? readGroup(item, fields, here) : readRule(item, fields, here);
    if (!read.ok) return read;
    rules.push(read.value);
  }
  return ok({ kind: 'group', combinator, ...(group.not ? { not: true } : {}), rules });
}

/** A muted condition counts for nothing in the builder; it is no part of a question, so it can't be kept in one. */
function switchedOff(item: object, path: readonly number[]) {
  if (!('muted' in item) || !item.muted) return null;
  return refuse(path, 'question-builder', 'This condition is switched off.', 'Switch it on, or take it out.');
}

function readRule(
  item: BuilderRule,
  fields: FieldSet,
  path: readonly number[],
): Result<Question, BuilderProblem> {
  const off = switchedOff(item, path);
  if (off) return off;
  const fromValue =
    !('valueSource' in item) || item.valueSource === undefined || item.valueSource === 'value';
  if (!fromValue || ('match' in item && item.match)) {
    return refuse(path, 'question-builder', 'A field is compared with a value here, and with nothing else.');
  }
  const rule = asRule(item);
  if (!rule) {
    return refuse(path, 'question-operator', `There is no comparison “${String(item.operator)}”.`);
  }
  const settled = settleRule(rule, fields);
  return settled.ok ? settled : fail({ ...settled.problem, path });
}

function asRule(item: BuilderRule): RuleQuestion | null {
  const base = { kind: 'rule', field: item.field } as const;
  for (const [shape, names] of Object.entries(SHAPES) as [Shape, readonly [string, string]][]) {
    const at = names.indexOf(item.operator);
    if (at < 0) continue;
    const text = typeof item.value === 'string' || typeof item.value === 'number' ? String(item.value) : '';
    // an empty list is how a rule says that it has no value, and is refused as such
    if (text === '') return { ...base, operator: 'in', values: [] };
    return { ...base, operator: at === 0 ? 'like' : 'notLike', value: patternFor(shape, text) };
  }
  const operator = OURS.get(item.operator);
  if (!operator) return null;
  const rule = { ...base, operator } as RuleQuestion;
  if (isNoValueRule(rule)) return rule;
  if (isFieldRule(rule)) return { ...rule, other: String(item.value) };
  if (isOneValueRule(rule)) return { ...rule, value: item.value as QuestionValue };
  return { ...rule, values: listOf(item.value) } as RuleQuestion;
}

/** Lists come as arrays, or as text with commas between, a `\` before a comma that belongs to a value. */
function listOf(value: unknown): QuestionValue[] {
  if (Array.isArray(value)) return value as QuestionValue[];
  if (typeof value !== 'string' || value.trim() === '') return [];
  return value.split(/(?<!\\),/).map((part) => part.replaceAll('\\,', ',').trim());
}
