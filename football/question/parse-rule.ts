/** One condition of a question's text: a field, a comparison and what it is compared with. */

import type { FieldDefinition } from '../vocabulary/fields.ts';
import {
  type FieldOperator,
  type ListOperator,
  type NoValueOperator,
  type OneValueOperator,
  type Operator,
  QUESTION_LIMITS,
  type QuestionValue,
  type RangeOperator,
  type RuleQuestion,
} from './ast.ts';
import {
  type Cursor,
  expectSymbol,
  isKeyword,
  isLiteral,
  isSymbol,
  peek,
  refuse,
  shown,
  take,
  takeKeyword,
  takeSymbol,
  tooMany,
} from './cursor.ts';
import type { FieldSet } from './fieldset.ts';
import { areComparable, isNumeric, operatorsOf, readValue } from './kinds.ts';
import { canonicalPattern } from './like.ts';
import { isSavedField } from './saved.ts';
import type { Keyword, Span, Token } from './tokens.ts';
import { notComparable, unknownSaved } from './unfit.ts';

const COMPARISONS: Readonly<Record<string, OneValueOperator>> = {
  '=': '=',
  '==': '=',
  '<>': '<>',
  '!=': '<>',
  '<': '<',
  '<=': '<=',
  '>': '>',
  '>=': '>=',
};
const MIRRORED: Partial<Record<OneValueOperator, OneValueOperator>> = {
  '<': '>',
  '<=': '>=',
  '>': '<',
  '>=': '<=',
};

export function comparisonAt(token: Token): OneValueOperator | undefined {
  return token.type === 'symbol' ? COMPARISONS[token.text] : undefined;
}

interface Subject {
  readonly field: FieldDefinition;
  readonly exact: boolean;
  readonly place: Span;
  readonly fields: FieldSet;
}

export function parseRule(cursor: Cursor): RuleQuestion {
  if (cursor.places.size >= QUESTION_LIMITS.rules) {
    refuse(peek(cursor), ...tooMany());
  }
  const start = peek(cursor).start;
  const { made, values } = isLiteral(peek(cursor)) ? valueFirst(cursor) : fieldFirst(cursor);
  const end = cursor.tokens[cursor.at - 1]!.end;
  cursor.places.set(made, { start, end, values });
  return made;
}

interface MadeRule {
  readonly made: RuleQuestion;
  readonly values: readonly Span[];
}

/** `3 = down` */
function valueFirst(cursor: Cursor): MadeRule {
  const literal = take(cursor);
  const sign = take(cursor);
  const operator = comparisonAt(sign);
  if (!operator) {
    refuse(
      literal,
      'question-value-alone',
      `The value ${shown(literal)} is compared with nothing.`,
      "Write a field, a comparison and a value, as in down = 3 or coverage = 'Cover 3'.",
    );
  }
  if (isLiteral(peek(cursor))) {
    refuse(
      peek(cursor),
      'question-value-alone',
      'Two values are compared with each other.',
      'One side is a field.',
    );
  }
  const subject = subjectAt(cursor);
  return oneValue(subject, MIRRORED[operator] ?? operator, sign, literal);
}

function fieldFirst(cursor: Cursor): MadeRule {
  const subject = subjectAt(cursor);
  const sign = take(cursor);
  const operator = comparisonAt(sign);
  if (operator) {
    const other = otherField(cursor);
    return other
      ? fieldRule(cursor, subject, operator, sign, other)
      : oneValue(subject, operator, sign, literalAt(cursor));
  }
  if (isKeyword(sign, 'IS')) return isRule(cursor, subject, sign);
  const negated = isKeyword(sign, 'NOT');
  const word = negated ? take(cursor) : sign;
  if (isKeyword(word, 'IN')) return inRule(cursor, subject, negated, word);
  if (isKeyword(word, 'BETWEEN')) {
    const low = literalAt(cursor);
    if (!takeKeyword(cursor, 'AND')) {
      refuse(peek(cursor), 'question-syntax', 'BETWEEN takes two limits.', 'As in distance BETWEEN 3 AND 6.');
    }
    const high = literalAt(cursor);
    const operatorName: RangeOperator = negated ? 'notBetween' : 'between';
    allow(subject, operatorName, word);
    const values = [valueAt(subject, low), valueAt(subject, high)] as const;
    return {
      made: { kind: 'rule', field: subject.field.key, operator: operatorName, values },
      values: [low, high],
    };
  }
  if (isKeyword(word, 'LIKE')) return likeRule(cursor, subject, negated, word);
  if (negated) {
    refuse(word, 'question-syntax', `${shown(word)} stands where IN, BETWEEN or LIKE should follow NOT.`);
  }
  cursor.at--;
  return loneFlag(subject, sign);
}

/** `touchdown` alone */
function loneFlag(subject: Subject, after: Token): MadeRule {
  const endsHere =
    after.type === 'end' || isSymbol(after, ')') || isKeyword(after, 'AND') || isKeyword(after, 'OR');
  if (!endsHere) refuse(after, ...afterField(after, subject));
  if (subject.field.kind !== 'flag') {
    refuse(
      subject.place,
      'question-field-alone',
      `${subject.field.key} is compared with nothing.`,
      `Write a comparison and a value after it, or ${subject.field.key} IS NOT NULL.`,
    );
  }
  return { made: { kind: 'rule', field: subject.field.key, operator: '=', value: true }, values: [] };
}

function isRule(cursor: Cursor, subject: Subject, sign: Token): MadeRule {
  const negated = takeKeyword(cursor, 'NOT');
  const word = take(cursor);
  let operator: NoValueOperator;
  if (isKeyword(word, 'NULL')) operator = negated ? 'isNotNull' : 'isNull';
  else if (isKeyword(word, 'TRUE')) operator = negated ? 'isNotTrue' : 'isTrue';
  else if (isKeyword(word, 'FALSE')) operator = negated ? 'isNotFalse' : 'isFalse';
  else {
    refuse(
      word,
      'question-syntax',
      `${shown(word)} stands where NULL, TRUE or FALSE should follow IS.`,
      `To compare with a value write ${subject.field.key} ${negated ? '<>' : '='} and the value.`,
    );
  }
  allow(subject, operator, { start: sign.start, end: word.end });
  return { made: { kind: 'rule', field: subject.field.key, operator }, values: [] };
}

function inRule(cursor: Cursor, subject: Subject, negated: boolean, word: Token): MadeRule {
  expectSymbol(cursor, '(', 'should open the list');
  const literals: Token[] = [];
  do {
    if (literals.length >= QUESTION_LIMITS.listLength) {
      refuse(peek(cursor), 'question-long', `A list takes at most ${QUESTION_LIMITS.listLength} values.`);
    }
    literals.push(literalAt(cursor));
  } while (takeSymbol(cursor, ','));
  expectSymbol(cursor, ')', 'should close the list');
  const plain: ListOperator = negated ? 'notIn' : 'in';
  const operator: ListOperator = subject.exact ? (negated ? 'notExactlyIn' : 'exactlyIn') : plain;
  allow(subject, operator, word);
  const values = literals.map((literal) => valueAt(subject, literal));
  return { made: { kind: 'rule', field: subject.field.key, operator, values }, values: literals };
}

function likeRule(cursor: Cursor, subject: Subject, negated: boolean, word: Token): MadeRule {
  if (subject.exact) {
    refuse(
      word,
      'question-operator',
      'EXACTLY goes with =, <>, IN and NOT IN.',
      'LIKE never takes a family.',
    );
  }
  const literal = literalAt(cursor);
  let escapeSign: string | null = null;
  if (takeKeyword(cursor, 'ESCAPE')) {
    const sign = take(cursor);
    if (sign.type !== 'string' || [...sign.text].length !== 1) {
      refuse(
        sign,
        'question-syntax',
        'ESCAPE takes one character in quotes.',
        "As in LIKE '50!%' ESCAPE '!'.",
      );
    }
    escapeSign = sign.text;
  }
  const operator: OneValueOperator = negated ? 'notLike' : 'like';
  allow(subject, operator, word);
  const pattern = canonicalPattern(String(valueAt(subject, literal)), escapeSign);
  return { made: { kind: 'rule', field: subject.field.key, operator, value: pattern }, values: [literal] };
}

function oneValue(subject: Subject, sign: OneValueOperator, place: Span, literal: Token): MadeRule {
  let operator = sign;
  if (subject.exact) {
    if (sign !== '=' && sign !== '<>') {
      refuse(place, 'question-operator', 'EXACTLY goes with =, <>, IN and NOT IN.');
    }
    operator = sign === '=' ? 'exactly' : 'notExactly';
  }
  allow(subject, operator, place);
  const value = valueAt(subject, literal);
  return { made: { kind: 'rule', field: subject.field.key, operator, value }, values: [literal] };
}

const AGAINST_FIELD: Partial<Record<OneValueOperator, FieldOperator>> = {
  '=': '=field',
  '<>': '<>field',
  '<': '<field',
  '<=': '<=field',
  '>': '>field',
  '>=': '>=field',
};

/** A field where a value could stand: `formation = previous.formation`. */
function otherField(cursor: Cursor): FieldDefinition | undefined {
  const token = peek(cursor);
  return token.type === 'word' && !isLiteral(token) ? cursor.fields.find(token.text) : undefined;
}

function fieldRule(
  cursor: Cursor,
  subject: Subject,
  sign: OneValueOperator,
  place: Span,
  other: FieldDefinition,
): MadeRule {
  const token = take(cursor);
  if (subject.exact) {
    refuse(
      { start: subject.place.start, end: subject.place.end },
      'question-operator',
      'Two fields are always compared as they are.',
      `Write ${subject.field.key} without EXACTLY.`,
    );
  }
  const operator = AGAINST_FIELD[sign]!;
  if (!areComparable(subject.field, other)) {
    const { code, message, next } = notComparable(subject.field, other);
    refuse(token, code, message, next);
  }
  allow(subject, operator, place);
  return {
    made: { kind: 'rule', field: subject.field.key, operator, other: other.key },
    values: [token],
  };
}

function allow(subject: Subject, operator: Operator, place: Span): void {
  const { field } = subject;
  if (operatorsOf(field).includes(operator)) return;
  if (isSavedField(field)) {
    refuse(
      place,
      'question-operator',
      'A saved question only holds or does not.',
      'It takes =, <>, IN and NOT IN.',
    );
  }
  const words = field.kind === 'flag' ? '=, <> and IS' : '=, <>, IN, LIKE and IS NULL';
  const numbers = '=, <>, <, <=, >, >=, IN, BETWEEN and IS NULL';
  refuse(
    place,
    'question-operator',
    `${field.label} cannot be compared in this way.`,
    `It takes ${isNumeric(field.kind) ? numbers : words}.`,
  );
}

function literalAt(cursor: Cursor): Token {
  const token = take(cursor);
  if (isKeyword(token, 'NULL')) {
    refuse(
      token,
      'question-null',
      'Nothing is equal to NULL, not even a missing value.',
      'Write IS NULL or IS NOT NULL.',
    );
  }
  if (isLiteral(token)) return token;
  if (token.type === 'word') {
    const next = cursor.fields.find(token.text)
      ? 'A field can only stand alone on the other side of =, <>, <, <=, > and >=.'
      : `Text stands in single quotes: '${token.text.replaceAll("'", "''")}'.`;
    refuse(token, 'question-value', `“${token.text}” stands where a value should.`, next);
  }
  return refuse(token, 'question-value', `${shown(token)} stands where a value should.`);
}

function valueAt(subject: Subject, token: Token): QuestionValue {
  const { field } = subject;
  const takesText = field.kind === 'term' || field.kind === 'text' || field.kind === 'player';
  let literal: QuestionValue = token.text;
  // a bare number asked of a term keeps its digits as written, so that personnel = 00 is not 0
  if (token.type === 'number' && !takesText) literal = token.value;
  if (token.type === 'word') literal = isKeyword(token, 'TRUE');
  const value = readValue(field, literal);
  if (!value.ok)
    refuse(token, 'question-value', `${field.label} ${value.says}, not ${shown(token)}.`, value.next);
  const unknown = isSavedField(field) ? unknownSaved(String(value.value), subject.fields) : null;
  if (unknown) refuse(token, unknown.code, unknown.message, unknown.next);
  return value.value;
}

function subjectAt(cursor: Cursor): Subject {
  const token = take(cursor);
  if (isKeyword(token, 'EXACTLY')) {
    expectSymbol(cursor, '(', 'should follow EXACTLY');
    const word = peek(cursor);
    const field = fieldAt(cursor);
    if (field.kind !== 'term') {
      refuse(
        word,
        'question-operator',
        `${field.label} has no families.`,
        `Write ${field.key} without EXACTLY.`,
      );
    }
    expectSymbol(cursor, ')', 'should close EXACTLY');
    const place = { start: token.start, end: cursor.tokens[cursor.at - 1]!.end };
    return { field, exact: true, place, fields: cursor.fields };
  }
  cursor.at--;
  return { field: fieldAt(cursor), exact: false, place: token, fields: cursor.fields };
}

const KEYWORDS_THAT_JOIN: readonly Keyword[] = ['AND', 'OR', 'IN', 'BETWEEN', 'LIKE', 'ESCAPE', 'IS', 'NOT'];

function fieldAt(cursor: Cursor): FieldDefinition {
  const token = take(cursor);
  const joins = KEYWORDS_THAT_JOIN.some((keyword) => isKeyword(token, keyword));
  if (token.type !== 'word' || joins) {
    refuse(
      token,
      'question-syntax',
      `${shown(token)} stands where a field should.`,
      'A condition is a field, a comparison and a value, as in down = 3.',
    );
  }
  const field = cursor.fields.find(token.text);
  if (field) return field;
  const nearest = cursor.fields.nearest(token.text);
  return refuse(
    token,
    'question-field',
    `There is no field “${token.text}”.`,
    nearest ? `Did you mean ${nearest}?` : 'Choose one of the fields of the playbook.',
  );
}

/** What to say about a word after a field that is no comparison. */
function afterField(token: Token, subject: Subject): [code: string, message: string, next: string] {
  return [
    'question-syntax',
    `${shown(token)} stands where a comparison should follow ${subject.field.key}.`,
    'Comparisons are =, <>, <, <=, >, >=, IN, BETWEEN, LIKE and IS.',
  ];
}
