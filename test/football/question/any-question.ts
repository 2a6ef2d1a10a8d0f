import fc from 'fast-check';
import {
  FIELD_OPERATORS,
  type GroupQuestion,
  LIST_OPERATORS,
  NO_VALUE_OPERATORS,
  normalise,
  ONE_VALUE_OPERATORS,
  type Question,
  type QuestionValue,
  RANGE_OPERATORS,
  type RuleQuestion,
} from '../../../football/question/ast.ts';
import { areComparable, operatorsOf } from '../../../football/question/kinds.ts';
import { canonicalPattern } from '../../../football/question/like.ts';
import { BUILT_IN_FIELDS, type FieldDefinition } from '../../../football/vocabulary/fields.ts';

/** Values worth asking of a field; overrides make questions over given plays find something. */
export type ValuesOf = (field: FieldDefinition) => fc.Arbitrary<QuestionValue>;

const has = <T extends string>(list: readonly T[], word: string): word is T =>
  (list as readonly string[]).includes(word);

export const anyValue: ValuesOf = (field) => {
  switch (field.kind) {
    case 'flag':
      return fc.boolean();
    case 'spot':
      return fc.integer({ min: 0, max: 100 });
    case 'clock':
      return fc.integer({ min: 0, max: 900 });
    case 'number':
      return fc.oneof(
        fc.integer({ min: -99, max: 999 }),
        fc.double({ noNaN: true, noDefaultInfinity: true }).map((n) => n + 0),
      );
    default:
      return fc.oneof(
        fc.constantFrom(
          "Coach's call",
          '50% off',
          'a_b',
          'back\\slash',
          '"quoted"',
          '--',
          "';",
          'Ünïcode 🏈',
          '',
        ),
        fc.string(),
      );
  }
};

function anyPattern(values: fc.Arbitrary<QuestionValue>): fc.Arbitrary<string> {
  return fc
    .tuple(fc.constantFrom('', '%', '_', '%_'), values, fc.constantFrom('', '%', '_'))
    .map(([before, value, after]) => canonicalPattern(`${before}${value}${after}`, null));
}

export function anyRule(
  fields: readonly FieldDefinition[],
  valuesOf: ValuesOf = anyValue,
): fc.Arbitrary<RuleQuestion> {
  return fc
    .constantFrom(...fields)
    .chain((field) =>
      fc.tuple(
        fc.constant(field),
        fc.constantFrom(...operatorsOf(field)),
        // one in four asks about the play before or after
        field.home === 'game'
          ? fc.constant('')
          : fc.constantFrom('', '', '', '', '', '', 'previous.', 'next.'),
      ),
    )
    .chain(([field, operator, step]): fc.Arbitrary<RuleQuestion> => {
      const base = { kind: 'rule', field: `${step}${field.key}` } as const;
      if (has(FIELD_OPERATORS, operator)) {
        const others = fields.flatMap((other) => {
          if (!areComparable(field, other)) return [];
          return other.home === 'game'
            ? [other.key]
            : [other.key, `previous.${other.key}`, `next.${other.key}`];
        });
        return fc.constantFrom(...others).map((other) => ({ ...base, operator, other }));
      }
      const value = valuesOf(field);
      if (has(NO_VALUE_OPERATORS, operator)) return fc.constant({ ...base, operator });
      if (has(RANGE_OPERATORS, operator)) {
        return fc.tuple(value, value).map((values) => ({ ...base, operator, values }));
      }
      if (has(LIST_OPERATORS, operator)) {
        return fc
          .array(value, { minLength: 1, maxLength: 4 })
          .map((values) => ({ ...base, operator, values }));
      }
      const isLike = operator === 'like' || operator === 'notLike';
      if (!has(ONE_VALUE_OPERATORS, operator)) throw new Error(`no arbitrary for ${operator}`);
      return (isLike ? anyPattern(value) : value).map((v) => ({ ...base, operator, value: v }));
    });
}

/** Questions of up to four levels, in the form that the text can say. */
export function anyQuestion(
  fields: readonly FieldDefinition[] = BUILT_IN_FIELDS,
  valuesOf: ValuesOf = anyValue,
): fc.Arbitrary<Question> {
  const { question } = fc.letrec<{ question: Question; group: GroupQuestion }>((tie) => ({
    question: fc.oneof({ maxDepth: 4, depthSize: 'small' }, anyRule(fields, valuesOf), tie('group')),
    group: fc.record({
      kind: fc.constant('group' as const),
      combinator: fc.constantFrom('and' as const, 'or' as const),
      not: fc.boolean(),
      rules: fc.array(tie('question'), { maxLength: 4 }),
    }),
  }));
  return question.map(normalise);
}
