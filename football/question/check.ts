/** Whether a question that did not come from the text can be asked of these fields. */

import { fail, ok, type Problem, ProblemError, type Result } from '../result.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';
import {
  depthOf,
  isFieldRule,
  isListRule,
  isNoValueRule,
  isRangeRule,
  normalise,
  QUESTION_LIMITS,
  type Question,
  type RuleQuestion,
  rulesOf,
  sizeOf,
} from './ast.ts';
import { FieldSet } from './fieldset.ts';
import { areComparable, operatorsOf, readValue } from './kinds.ts';
import { canonicalPattern } from './like.ts';
import { parseQuestion } from './parse.ts';
import { printQuestion } from './print.ts';
import { expandSaved, isSavedField, namesIn } from './saved.ts';
import { notComparable, unknownSaved } from './unfit.ts';

export type FieldDefinitions = readonly FieldDefinition[] | FieldSet;

/** Every reason why the question cannot be asked; none when it can. */
export function checkQuestion(question: Question, fields: FieldDefinitions): Problem[] {
  const set = FieldSet.of(fields);
  const rules = rulesOf(question);
  const problems: Problem[] = [];
  if (sizeOf(question) > QUESTION_LIMITS.rules) {
    problems.push({
      code: 'question-long',
      message: `The question has more than ${QUESTION_LIMITS.rules} conditions.`,
    });
  }
  if (depthOf(normalise(question)) > QUESTION_LIMITS.depth) {
    problems.push({
      code: 'question-deep',
      message: `The question is nested deeper than ${QUESTION_LIMITS.depth} levels.`,
    });
  }
  if (problems.length > 0) return problems;
  for (const rule of rules) {
    const settled = settleRule(rule, set);
    if (!settled.ok) problems.push(settled.problem);
  }
  if (problems.length === 0 && printQuestion(question).length > QUESTION_LIMITS.textLength) {
    problems.push({
      code: 'question-long',
      message: `The question is longer than ${QUESTION_LIMITS.textLength} characters of text.`,
    });
  }
  return problems;
}

/**
 * The question with its values as the fields keep them and saved questions in their place, or the first reason why it
 * cannot be asked.
 */
export function settleQuestion(question: Question, fields: FieldDefinitions): Result<Question> {
  const [problem] = checkQuestion(question, fields);
  if (problem) return fail(problem);
  const set = FieldSet.of(fields);
  const settle = (q: Question): Question => {
    if (q.kind === 'group') return { ...q, rules: q.rules.map(settle) };
    const settled = settleRule(q, set);
    if (!settled.ok) throw new ProblemError(settled.problem);
    return settled.value;
  };
  const settled = normalise(settle(question));
  return namesIn(settled).length === 0 ? ok(settled) : expandSaved(settled, (name) => readSaved(name, set));
}

/** A saved question by its name, not expanded. */
function readSaved(name: string, fields: FieldSet): Result<Question> {
  const saved = fields.savedQuestion(name);
  if (!saved) return fail(unknownSaved(name, fields)!);
  const read = parseQuestion(saved.where, fields);
  if (read.ok) return read;
  const { at: _, ...problem } = read.problem;
  return fail({
    ...problem,
    message: `The saved question “${saved.name}” cannot be read: ${problem.message}`,
  });
}

/** One rule with its field known, its operator fit for the field and its values read. */
export function settleRule(rule: RuleQuestion, fields: FieldSet): Result<RuleQuestion> {
  const field = fields.get(rule.field);
  if (!field) return fail(unknownField(rule.field, fields));
  if (!operatorsOf(field).includes(rule.operator)) {
    return fail({
      code: 'question-operator',
      message: `${field.label} cannot be compared by “${rule.operator}”.`,
      next: `It takes ${operatorsOf(field).join(', ')}.`,
    });
  }
  if (isFieldRule(rule)) {
    const other = fields.get(rule.other);
    if (!other) return fail(unknownField(rule.other, fields));
    if (!areComparable(field, other)) return fail(notComparable(field, other));
    return ok({ kind: 'rule', field: rule.field, operator: rule.operator, other: rule.other });
  }
  if (isNoValueRule(rule)) return ok({ kind: 'rule', field: rule.field, operator: rule.operator });
  const given: readonly unknown[] = 'values' in rule ? rule.values : [rule.value];
  const wanted = isRangeRule(rule) ? 2 : isListRule(rule) ? null : 1;
  const fits = Array.isArray(given) && (wanted === null ? given.length > 0 : given.length === wanted);
  if (!fits) {
    return fail({
      code: 'question-value',
      message: `${field.label} is compared with ${wanted === 2 ? 'a range without two limits' : 'nothing'}.`,
      next: wanted === 2 ? 'Give both limits.' : 'Give a value, or take the condition out.',
    });
  }
  if (given.length > QUESTION_LIMITS.listLength) {
    return fail({
      code: 'question-long',
      message: `A list takes at most ${QUESTION_LIMITS.listLength} values.`,
    });
  }
  const values: (string | number | boolean)[] = [];
  for (const value of given) {
    const known = typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean';
    const settled = known ? readValue(field, value) : null;
    if (!settled?.ok) {
      return fail({
        code: 'question-value',
        message: `${field.label} ${settled?.says ?? 'takes a value'}, not “${String(value)}”.`,
        next: settled?.next ?? 'Give a value, or take the condition out.',
      });
    }
    const unknown = isSavedField(field) ? unknownSaved(String(settled.value), fields) : null;
    if (unknown) return fail(unknown);
    values.push(settled.value);
  }
  if (isRangeRule(rule)) return ok({ ...rule, values: [values[0]!, values[1]!] });
  if (isListRule(rule)) return ok({ ...rule, values });
  const isPattern = rule.operator === 'like' || rule.operator === 'notLike';
  const value = isPattern ? canonicalPattern(String(values[0]), '\\') : values[0]!;
  return ok({ ...rule, value });
}

function unknownField(key: unknown, fields: FieldSet): Problem {
  const nearest = fields.nearest(String(key));
  return {
    code: 'question-field',
    message: `There is no field “${key}”.`,
    next: nearest ? `Did you mean ${nearest}?` : 'Choose one of the fields of the playbook.',
  };
}
