import fc from 'fast-check';
import type { RuleGroupType } from 'react-querybuilder';
import { describe, expect, it } from 'vitest';
import { normalise, type Question } from '../../../football/question/ast.ts';
import { operatorsFor } from '../../../football/question/kinds.ts';
import { parseQuestion } from '../../../football/question/parse.ts';
import { printQuestion } from '../../../football/question/print.ts';
import {
  type BuilderGroup,
  type BuilderRule,
  builderOperators,
  fromBuilder,
  toBuilder,
} from '../../../football/question/querybuilder.ts';
import { BUILT_IN_FIELDS } from '../../../football/vocabulary/fields.ts';
import { anyQuestion } from './any-question.ts';

function asked(text: string): Question {
  const parsed = parseQuestion(text, BUILT_IN_FIELDS);
  if (!parsed.ok) throw new Error(parsed.problem.message);
  return parsed.value;
}

function understood(group: BuilderGroup): string {
  const read = fromBuilder(group, BUILT_IN_FIELDS);
  if (!read.ok) throw new Error(read.problem.message);
  return printQuestion(read.value);
}

const one = (field: string, operator: string, value: unknown): BuilderGroup => ({
  combinator: 'and',
  rules: [{ field, operator, value }],
});

describe('a question in the query builder', () => {
  it('has the shape that the builder takes and gives', () => {
    const tree: RuleGroupType = toBuilder(asked("down = 3 AND (coverage = 'Cover 3' OR NOT (touchdown))"));
    const back: BuilderGroup = tree;
    expect(back).toEqual({
      combinator: 'and',
      rules: [
        { field: 'down', operator: '=', value: 3 },
        {
          combinator: 'or',
          rules: [
            { field: 'coverage', operator: '=', value: 'Cover 3' },
            { combinator: 'and', not: true, rules: [{ field: 'touchdown', operator: '=', value: true }] },
          ],
        },
      ],
    });
  });

  it('comes back as the same question, whatever the question', () => {
    fc.assert(
      fc.property(anyQuestion(), (question) => {
        const tree = toBuilder(question);
        const read = fromBuilder(tree, BUILT_IN_FIELDS);
        if (!read.ok) throw new Error(read.problem.message);
        expect(normalise(read.value)).toEqual(question);
        expect(toBuilder(read.value)).toEqual(tree);
      }),
      { seed: 20250908, numRuns: 2_000 },
    );
  });

  it.each([
    ['contains', "note LIKE '%50\\%%' ESCAPE '\\'"],
    ['beginsWith', "note LIKE '50\\%%' ESCAPE '\\'"],
    ['endsWith', "note LIKE '%50\\%' ESCAPE '\\'"],
    ['doesNotContain', "note NOT LIKE '%50\\%%' ESCAPE '\\'"],
  ])('takes the wildcards out of a text that %s one', (operator, text) => {
    expect(understood(one('note', operator, '50%'))).toBe(text);
    expect(toBuilder(asked(text))).toEqual(one('note', operator, '50%'));
  });

  it.each([
    [one('down', '=', '3'), 'down = 3'],
    [one('yardsToGoal', '<=', '+20'), 'yardsToGoal <= 20'],
    [one('clock', '<', '2:00'), 'clock < 120'],
    [one('touchdown', '=', 'true'), 'touchdown = TRUE'],
    [one('coverage', 'exactly', 'Cover 3'), "EXACTLY(coverage) = 'Cover 3'"],
    [one('coverage', 'null', ''), 'coverage IS NULL'],
    [one('down', 'between', '1,2'), 'down BETWEEN 1 AND 2'],
    [one('concept', 'in', 'stick, slant\\, flat'), "concept IN ('stick', 'slant, flat')"],
    [{ combinator: 'or', not: true, rules: [] }, 'FALSE'],
  ] satisfies [BuilderGroup, string][])('reads what was typed into its inputs, case %#', (group, text) => {
    expect(understood(group)).toBe(text);
  });

  const good: BuilderRule = { field: 'down', operator: '=', value: 3 };
  it.each([
    ['an unknown field', { field: 'weather', operator: '=', value: 'rain' }, 'question-field'],
    ['a name of every object', { field: 'toString', operator: '=', value: '1' }, 'question-field'],
    ['no field yet', { field: '~', operator: '=', value: '' }, 'question-field'],
    ['an unknown comparison', { field: 'down', operator: 'soundsLike', value: 3 }, 'question-operator'],
    [
      'a name of every object as comparison',
      { field: 'down', operator: 'constructor', value: 3 },
      'question-operator',
    ],
    ['a comparison that does not fit', { field: 'coverage', operator: '<', value: 'x' }, 'question-operator'],
    ['no number where one is needed', { field: 'down', operator: '=', value: '' }, 'question-value'],
    ['no text to look for', { field: 'note', operator: 'contains', value: '' }, 'question-value'],
    ['half a range', { field: 'down', operator: 'between', value: [1] }, 'question-value'],
    ['half a range of inputs', { field: 'down', operator: 'between', value: '1,' }, 'question-value'],
    ['an empty list', { field: 'down', operator: 'in', value: [] }, 'question-value'],
    ['an object as value', { field: 'note', operator: '=', value: {} }, 'question-value'],
    ['another field as value', { ...good, valueSource: 'field', value: 'distance' }, 'question-builder'],
    ['a muted condition', { ...good, muted: true }, 'question-builder'],
    ['a muted group', { combinator: 'and', muted: true, rules: [good] }, 'question-builder'],
    ['another combinator', { combinator: 'xor', rules: [good] }, 'question-builder'],
    ['a combinator between the rules', 'and', 'question-builder'],
  ] as [string, BuilderRule, string][])('refuses %s, with its place', (_what, item, code) => {
    const read = fromBuilder({ combinator: 'and', rules: [good, item] }, BUILT_IN_FIELDS);
    if (read.ok) throw new Error(`understood as ${printQuestion(read.value)}`);
    expect(read.problem.code).toBe(code);
    expect(read.problem.path).toEqual([1]);
  });

  it('offers for each kind of field comparisons that it understands', () => {
    const coverage = builderOperators(operatorsFor('term'));
    expect(coverage).toContain('contains');
    expect(coverage).toContain('exactly');
    for (const operator of coverage) {
      if (operator.endsWith('field')) continue;
      const value = ['in', 'notIn', 'exactlyIn', 'notExactlyIn'].includes(operator) ? ['Cover 3'] : 'Cover 3';
      expect(() => understood(one('coverage', operator, value))).not.toThrow();
    }
    expect(builderOperators(operatorsFor('number'))).toEqual([
      ...['=', '!=', 'in', 'notIn', '<', '<=', '>', '>=', 'between', 'notBetween', 'null', 'notNull'],
      ...['=field', '<>field', '<field', '<=field', '>field', '>=field'],
    ]);
  });
});
