/**
 * A question over plays, as data: what the builder edits, the text form says, the columns count and SQLite answers.
 *
 * Truth is SQL's, with three values. A comparison with a missing value is neither true nor false, `not` leaves it so,
 * and only plays for which the whole question is true are found. So `coverage <> 'Cover 3'` and
 * `NOT (coverage = 'Cover 3')` both leave out the plays whose coverage nobody has tagged;
 * `coverage IS NULL OR coverage <> 'Cover 3'` brings them in. A group without rules is no condition: true for every play.
 */

export type QuestionValue = string | number | boolean;

export type Combinator = 'and' | 'or';

/**
 * `exactly` and its kin look at a term alone; `=` and its kin take the family's members too.
 * The value of `like` is a pattern in which `\` takes the meaning from `%`, `_` and itself, see like.ts.
 */
export const ONE_VALUE_OPERATORS = [
  '=',
  '<>',
  '<',
  '<=',
  '>',
  '>=',
  'exactly',
  'notExactly',
  'like',
  'notLike',
] as const;
export const LIST_OPERATORS = ['in', 'notIn', 'exactlyIn', 'notExactlyIn'] as const;
export const RANGE_OPERATORS = ['between', 'notBetween'] as const;
/** `isNotTrue` and `isNotFalse` are true for a missing value: they are SQL's IS NOT TRUE and IS NOT FALSE */
export const NO_VALUE_OPERATORS = [
  'isNull',
  'isNotNull',
  'isTrue',
  'isNotTrue',
  'isFalse',
  'isNotFalse',
] as const;
/** Against another field of the play, or of the play before or after. */
export const FIELD_OPERATORS = ['=field', '<>field', '<field', '<=field', '>field', '>=field'] as const;

export type OneValueOperator = (typeof ONE_VALUE_OPERATORS)[number];
export type ListOperator = (typeof LIST_OPERATORS)[number];
export type RangeOperator = (typeof RANGE_OPERATORS)[number];
export type NoValueOperator = (typeof NO_VALUE_OPERATORS)[number];
export type FieldOperator = (typeof FIELD_OPERATORS)[number];
export type Operator = OneValueOperator | ListOperator | RangeOperator | NoValueOperator | FieldOperator;

interface RuleBase {
  readonly kind: 'rule';
  /** key of a field, of a neighbour's (`previous.result`, see neighbour.ts), or `question` for a saved question */
  readonly field: string;
}

export interface OneValueRule extends RuleBase {
  readonly operator: OneValueOperator;
  readonly value: QuestionValue;
}
export interface ListRule extends RuleBase {
  readonly operator: ListOperator;
  readonly values: readonly QuestionValue[];
}
export interface RangeRule extends RuleBase {
  readonly operator: RangeOperator;
  /** both limits belong to the range */
  readonly values: readonly [QuestionValue, QuestionValue];
}
export interface NoValueRule extends RuleBase {
  readonly operator: NoValueOperator;
}
export interface FieldRule extends RuleBase {
  readonly operator: FieldOperator;
  /** key of the field that it is held against */
  readonly other: string;
}

export type RuleQuestion = OneValueRule | ListRule | RangeRule | NoValueRule | FieldRule;

export interface GroupQuestion {
  readonly kind: 'group';
  readonly combinator: Combinator;
  readonly not?: boolean;
  readonly rules: readonly Question[];
}

export type Question = GroupQuestion | RuleQuestion;

/** No condition: every play. */
export const EVERY_PLAY: GroupQuestion = { kind: 'group', combinator: 'and', rules: [] };

/** Bounds that keep any question readable, and inside what SQLite takes as one expression. */
export const QUESTION_LIMITS = { textLength: 20_000, depth: 24, rules: 400, listLength: 1_000 } as const;

export function isListRule(rule: RuleQuestion): rule is ListRule {
  return (LIST_OPERATORS as readonly string[]).includes(rule.operator);
}
export function isRangeRule(rule: RuleQuestion): rule is RangeRule {
  return (RANGE_OPERATORS as readonly string[]).includes(rule.operator);
}
export function isNoValueRule(rule: RuleQuestion): rule is NoValueRule {
  return (NO_VALUE_OPERATORS as readonly string[]).includes(rule.operator);
}
export function isFieldRule(rule: RuleQuestion): rule is FieldRule {
  return (FIELD_OPERATORS as readonly string[]).includes(rule.operator);
}
export function isOneValueRule(rule: RuleQuestion): rule is OneValueRule {
  return (ONE_VALUE_OPERATORS as readonly string[]).includes(rule.operator);
}

/** The values of a rule, however many it has. */
export function valuesOf(rule: RuleQuestion): readonly QuestionValue[] {
  if (isNoValueRule(rule) || isFieldRule(rule)) return [];
  return isOneValueRule(rule) ? [rule.value] : rule.values;
}

/** Every rule, from left to right. */
export function rulesOf(question: Question): RuleQuestion[] {
  return question.kind === 'rule' ? [question] : question.rules.flatMap(rulesOf);
}

/** How many conditions there are, an empty group being one. */
export function sizeOf(question: Question): number {
  if (question.kind === 'rule') return 1;
  return Math.max(
    1,
    question.rules.reduce((sum, rule) => sum + sizeOf(rule), 0),
  );
}

/** Levels of groups, 0 for a lone rule. */
export function depthOf(question: Question): number {
  return question.kind === 'rule' ? 0 : 1 + Math.max(0, ...question.rules.map(depthOf));
}

/**
 * The form that the text can say: a group of one is that one, and a group of none or one joins by `and`.
 * The answer is the same before and after.
 */
export function normalise(question: Question): Question {
  if (question.kind === 'rule') return question;
  const rules = question.rules.map(normalise);
  const only = rules.length === 1 ? rules[0] : undefined;
  if (only && !question.not) return only;
  if (only?.kind === 'group' && !only.not) return { ...only, not: true };
  return {
    kind: 'group',
    combinator: rules.length > 1 ? question.combinator : 'and',
    ...(question.not ? { not: true } : {}),
    rules,
  };
}

/** Both must hold; a side without conditions adds nothing. For narrowing a question by a cell or a facet. */
export function both(a: Question, b: Question): Question {
  const sides = [normalise(a), normalise(b)].flatMap((side) =>
    side.kind === 'group' && side.combinator === 'and' && !side.not ? side.rules : [side],
  );
  return normalise({ kind: 'group', combinator: 'and', rules: sides });
}
