/** A question over the columns: what it says of every row. */

import {
  isFieldRule,
  isListRule,
  isNoValueRule,
  isRangeRule,
  type NoValueOperator,
  type Question,
  type RuleQuestion,
  valuesOf,
} from '../../football/question/ast.ts';
import { settleQuestion } from '../../football/question/check.ts';
import type { FieldSet } from '../../football/question/fieldset.ts';
import { foldCase, likeTest } from '../../football/question/like.ts';
import {
  acceptedTerms,
  askedPlayer,
  type Families,
  isAskedPlayer,
  playerLikeTest,
} from '../../football/question/vocabulary.ts';
import { ProblemError } from '../../football/result.ts';
import type { FieldDefinition } from '../../football/vocabulary/fields.ts';
import type { Column, ColumnValue } from './column.ts';
import { compareColumns } from './compare.ts';
import { always, andInto, known, not, orInto, settled, type Truth } from './truth.ts';

export interface ColumnsOf {
  readonly fields: FieldSet;
  readonly families: Families;
  /** the column of a field, or of a field of the play before or after */
  columnOf(key: string): Column;
  /** rows in use and not, a multiple of 32 */
  readonly rows: number;
}

/** @throws ProblemError where the question does not fit the fields, see `checkQuestion` */
export function evaluate(question: Question, store: ColumnsOf): Truth {
  const fitting = settleQuestion(question, store.fields);
  if (!fitting.ok) throw new ProblemError(fitting.problem);
  return truthOf(fitting.value, store);
}

function truthOf(question: Question, store: ColumnsOf): Truth {
  if (question.kind === 'rule') return evaluateRule(question, store);
  let truth: Truth | null = null;
  for (const rule of question.rules) {
    const next = truthOf(rule, store);
    if (truth) truth = question.combinator === 'and' ? andInto(truth, next) : orInto(truth, next);
    else truth = next;
  }
  truth ??= always(store.rows);
  return question.not ? not(truth) : truth;
}

const NEGATED: ReadonlySet<string> = new Set([
  '<>',
  'notIn',
  'notLike',
  'notExactly',
  'notExactlyIn',
  'notBetween',
  '>',
  '<',
]);

function evaluateRule(rule: RuleQuestion, store: ColumnsOf): Truth {
  const field = store.fields.get(rule.field)!;
  const column = store.columnOf(field.key);
  if (isNoValueRule(rule)) return noValue(rule.operator, column, store.rows);
  if (isFieldRule(rule)) return compareColumns(column, store.columnOf(rule.other), rule.operator, store.rows);
  const accepts = column.kind === 'words' ? words(rule, field, store) : numbers(rule);
  const truth = column.test(store.rows, accepts);
  return NEGATED.has(rule.operator) ? not(truth) : truth;
}

function noValue(operator: NoValueOperator, column: Column, rows: number): Truth {
  const isOne = (value: ColumnValue) => value === 1;
  switch (operator) {
    case 'isNotNull':
      return known(column.test(rows, () => true));
    case 'isNull':
      return not(known(column.test(rows, () => true)));
    case 'isTrue':
      return settled(column.test(rows, isOne));
    case 'isNotTrue':
      return not(settled(column.test(rows, isOne)));
    case 'isFalse':
      return settled(not(column.test(rows, isOne)));
    case 'isNotFalse':
      return not(settled(not(column.test(rows, isOne))));
  }
}

type Accepts = (value: ColumnValue, folded: string) => boolean;

/** `>` and `<` are the other side of `<=` and `>=`, so every comparison is a range or its opposite. */
function numbers(rule: RuleQuestion): Accepts {
  const values = valuesOf(rule).map(Number);
  const first = values[0]!;
  if (isListRule(rule)) {
    const accepted = new Set<ColumnValue>(values);
    return (value) => accepted.has(value);
  }
  if (isRangeRule(rule)) return (value) => Number(value) >= first && Number(value) <= values[1]!;
  switch (rule.operator) {
    case '<=':
    case '>':
      return (value) => Number(value) <= first;
    case '>=':
    case '<':
      return (value) => Number(value) >= first;
    default:
      return (value) => value === first;
  }
}

function words(rule: RuleQuestion, field: FieldDefinition, store: ColumnsOf): Accepts {
  const values = valuesOf(rule).map(String);
  if (rule.operator === 'like' || rule.operator === 'notLike') {
    const test = field.kind === 'player' ? playerLikeTest(values[0]!) : likeTest(values[0]!);
    return (value) => test(String(value));
  }
  if (field.kind === 'player') {
    const asked = values.map(askedPlayer);
    return (value) => asked.some((player) => isAskedPlayer(String(value), player));
  }
  const accepted =
    field.kind === 'term'
      ? acceptedTerms(store.families, field, values, rule.operator.toLowerCase().includes('exactly'))
      : new Set(values.map(foldCase));
  return (_value, folded) => accepted.has(folded);
}
