/**
 * A question as SQL over the library's tables. SQLite is the truth, and the columns (db/columns) give the same answers.
 * Names in the SQL come from the lists in this house alone, and everything typed goes in as a parameter.
 */

import type { Database } from 'better-sqlite3';
import type { MetricSettings } from '../../football/metrics/settings.ts';
import {
  type FieldRule,
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
import { FieldSet } from '../../football/question/fieldset.ts';
import { foldCase } from '../../football/question/like.ts';
import {
  acceptedTerms,
  askedPlayer,
  Families,
  type QuestionTerm,
} from '../../football/question/vocabulary.ts';
import { ProblemError } from '../../football/result.ts';
import type { FieldDefinition } from '../../football/vocabulary/fields.ts';
import {
  DEFAULT_SITUATION_LIMITS,
  type SituationLimits,
} from '../../football/vocabulary/situation-limits.ts';
import { layOutDrives, needsWorked } from './drives.ts';
import { type FieldSql, fieldSql, type SqlParam } from './field-sql.ts';

export interface SqlText {
  readonly sql: string;
  readonly params: readonly SqlParam[];
}

export interface SqlVocabulary {
  readonly fields: readonly FieldDefinition[] | FieldSet;
  readonly terms: readonly QuestionTerm[] | Families;
  readonly limits?: SituationLimits;
  /** the staff's choice of success and explosive yards */
  readonly metrics?: MetricSettings;
}

interface Scope {
  readonly fields: FieldSet;
  readonly limits: SituationLimits;
  readonly families: Families;
}

/**
 * The condition of a question over `plays p JOIN games g`; one about drives needs `layOutDrives` before.
 * @throws ProblemError where the question doesn't fit the fields, see `checkQuestion`
 */
export function toSql(question: Question, vocabulary: SqlVocabulary): SqlText {
  const { terms } = vocabulary;
  const scope: Scope = {
    fields: FieldSet.of(vocabulary.fields),
    limits: vocabulary.limits ?? DEFAULT_SITUATION_LIMITS,
    families: terms instanceof Families ? terms : new Families(terms),
  };
  const fitting = settleQuestion(question, scope.fields);
  if (!fitting.ok) throw new ProblemError(fitting.problem);
  return condition(fitting.value, scope);
}

/** The ids of the plays that a question finds, in the order of play. @throws ProblemError as `toSql` */
export function findPlayIds(db: Database, question: Question, vocabulary: SqlVocabulary): string[] {
  const where = toSql(question, vocabulary);
  if (needsWorked(where.sql)) layOutDrives(db, vocabulary.metrics);
  const select = `SELECT p.id FROM plays p JOIN games g ON g.id = p.game_id AND g.removed = 0
    WHERE p.removed = 0 AND (${where.sql}) ORDER BY g.season, g.date, g.id, p.play_number, p.id`;
  return db
    .prepare(select)
    .pluck()
    .all(...where.params) as string[];
}

function condition(question: Question, scope: Scope): SqlText {
  if (question.kind === 'rule') return ruleSql(question, scope);
  const parts = question.rules.map((rule) => condition(rule, scope));
  const joined = parts.map((part) => `(${part.sql})`).join(question.combinator === 'and' ? ' AND ' : ' OR ');
  const all = parts.length > 0 ? joined : '1';
  return { sql: question.not ? `NOT (${all})` : all, params: parts.flatMap((part) => part.params) };
}

const MISSING: Readonly<Record<NoValueOperator, string>> = {
  isNull: 'IS NULL',
  isNotNull: 'IS NOT NULL',
  isTrue: 'IS 1',
  isNotTrue: 'IS NOT 1',
  isFalse: 'IS 0',
  isNotFalse: 'IS NOT 0',
};

const NEGATED: ReadonlySet<RuleQuestion['operator']> = new Set([
  '<>',
  'notIn',
  'notLike',
  'notExactly',
  'notExactlyIn',
  'notBetween',
]);

function ruleSql(rule: RuleQuestion, scope: Scope): SqlText {
  const field = scope.fields.get(rule.field)!;
  const value = fieldSql(field, scope.limits);
  if (isFieldRule(rule)) {
    return againstField(rule, value, fieldSql(scope.fields.get(rule.other)!, scope.limits), field);
  }
  if (isNoValueRule(rule)) return { sql: `${value.sql} ${MISSING[rule.operator]}`, params: value.params };
  const compared =
    field.kind === 'player'
      ? playerSql(rule, value)
      : field.kind === 'term' || field.kind === 'text'
        ? wordsSql(rule, field, value, scope)
        : numberSql(rule, value);
  return NEGATED.has(rule.operator) ? { sql: `NOT (${compared.sql})`, params: compared.params } : compared;
}

function againstField(rule: FieldRule, value: FieldSql, other: FieldSql, field: FieldDefinition): SqlText {
  const isWords = field.kind === 'term' || field.kind === 'text' || field.kind === 'player';
  return {
    sql: `${value.sql}${isWords ? ' COLLATE NOCASE' : ''} ${rule.operator.replace('field', '')} ${other.sql}`,
    params: [...value.params, ...other.params],
  };
}

const ORDERINGS: Partial<Record<RuleQuestion['operator'], string>> = {
  '<': '<',
  '<=': '<=',
  '>': '>',
  '>=': '>=',
};

function numberSql(rule: RuleQuestion, value: FieldSql): SqlText {
  const values = valuesOf(rule).map(Number);
  const params = [...value.params, ...values];
  if (isRangeRule(rule)) return { sql: `${value.sql} BETWEEN ? AND ?`, params };
  if (isListRule(rule)) return { sql: `${value.sql} IN (${values.map(() => '?').join(', ')})`, params };
  return { sql: `${value.sql} ${ORDERINGS[rule.operator] ?? '='} ?`, params };
}

function wordsSql(rule: RuleQuestion, field: FieldDefinition, value: FieldSql, scope: Scope): SqlText {
  const words = valuesOf(rule).map(String);
  if (rule.operator === 'like' || rule.operator === 'notLike') {
    return { sql: `${value.sql} LIKE ? ESCAPE '\\'`, params: [...value.params, words[0]!] };
  }
  const exact = rule.operator.toLowerCase().includes('exactly');
  const accepted =
    field.kind === 'term' ? acceptedTerms(scope.families, field, words, exact) : new Set(words.map(foldCase));
  // the list is never empty, so that a missing value stays neither in it nor out of it
  return {
    sql: `${value.sql} COLLATE NOCASE IN (SELECT value FROM json_each(?))`,
    params: [...value.params, JSON.stringify([...accepted])],
  };
}

/** The number stands before the first space of a label that has one, the name after it. */
const NUMBER_OF_LABEL = `CASE WHEN l GLOB '#[0-9]*' THEN substr(l, 1, instr(l || ' ', ' ') - 1) END`;
const NAME_OF_LABEL = `nullif(CASE WHEN l GLOB '#[0-9]*' THEN substr(l, instr(l || ' ', ' ') + 1) ELSE l END, '')`;

function playerSql(rule: RuleQuestion, value: FieldSql): SqlText {
  const words = valuesOf(rule).map(String);
  const tests: string[] = [];
  const params: SqlParam[] = [];
  for (const word of words) {
    if (rule.operator === 'like' || rule.operator === 'notLike') {
      tests.push(`l LIKE ? ESCAPE '\\'`, `coalesce(${NAME_OF_LABEL} LIKE ? ESCAPE '\\', 0)`);
      params.push(word, word);
    } else {
      const asked = askedPlayer(word);
      tests.push('l = ? COLLATE NOCASE', `${NAME_OF_LABEL} IS ? COLLATE NOCASE`);
      params.push(asked.label, asked.label);
      if (asked.number !== null) {
        tests.push(`${NUMBER_OF_LABEL} IS ?`);
        params.push(asked.number);
      }
    }
  }
  // a play without the player gives no row of `l`, or one without a label: neither true nor false
  return {
    sql: `(SELECT CASE WHEN l IS NOT NULL THEN ${tests.join(' OR ')} END FROM (SELECT ${value.sql} AS l))`,
    params: [...params, ...value.params],
  };
}
