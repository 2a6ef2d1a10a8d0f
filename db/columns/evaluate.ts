/** A question over the columns: what it says of every row. */

import {
  isListRule,
  isNoValueRule,
  isRangeRule,
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
import type { Column, NumberColumn, WordColumn } from './column.ts';
import { always, andInto, known, not, orInto, settled, type Truth } from './truth.ts';

export interface ColumnsOf {
  readonly fields: FieldSet;
  readonly families: Families;
  readonly columns: ReadonlyMap<string, Column>;
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
  const column = store.columns.get(field.key);
  if (!column) throw new Error(`There is no column of ${field.key}.`);
  if (isNoValueRule(rule)) return noValue(rule.operator, column, store.rows);
  const truth =
    column.kind === 'words' ? words(rule, field, column, store) : numbers(rule, column, store.rows);
  return NEGATED.has(rule.operator) ? not(truth) : truth;
}

function noValue(operator: RuleQuestion['operator'], column: Column, rows: number): Truth {
  const all =
    column.kind === 'words'
      ? column.test(rows, () => true)
      : column.within(rows, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
  if (operator === 'isNotNull') return known(all);
  if (operator === 'isNull') return not(known(all));
  const wanted = operator === 'isTrue' || operator === 'isNotTrue' ? 1 : 0;
  const truth = settled((column as NumberColumn).within(rows, wanted, wanted));
  return operator === 'isNotTrue' || operator === 'isNotFalse' ? not(truth) : truth;
}

/** `>` and `<` are the other side of `<=` and `>=`, so every comparison is a range or its opposite. */
function numbers(rule: RuleQuestion, column: NumberColumn, rows: number): Truth {
  const values = valuesOf(rule).map(Number);
  const first = values[0]!;
  if (isListRule(rule)) return column.among(rows, new Set(values));
  if (isRangeRule(rule)) return column.within(rows, first, values[1]!);
  switch (rule.operator) {
    case '<=':
    case '>':
      return column.within(rows, Number.NEGATIVE_INFINITY, first);
    case '>=':
    case '<':
      return column.within(rows, first, Number.POSITIVE_INFINITY);
    default:
      return column.within(rows, first, first);
  }
}

function words(rule: RuleQuestion, field: FieldDefinition, column: WordColumn, store: ColumnsOf): Truth {
  const values = valuesOf(rule).map(String);
  if (rule.operator === 'like' || rule.operator === 'notLike') {
    const test = field.kind === 'player' ? playerLikeTest(values[0]!) : likeTest(values[0]!);
    return column.test(store.rows, (_folded, word) => test(word));
  }
  if (field.kind === 'player') {
    const asked = values.map(askedPlayer);
    return column.test(store.rows, (_folded, word) => asked.some((player) => isAskedPlayer(word, player)));
  }
  const accepted =
    field.kind === 'term'
      ? acceptedTerms(store.families, field, values, rule.operator.toLowerCase().includes('exactly'))
      : new Set(values.map(foldCase));
  return column.test(store.rows, (folded) => accepted.has(folded));
}
