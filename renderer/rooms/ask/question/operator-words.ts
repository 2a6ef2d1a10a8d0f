/** The builder's operators in words, the ones most asked for first. */

import { operatorsFor } from '../../../../football/question/kinds.ts';
import { builderOperators } from '../../../../football/question/querybuilder.ts';
import type { FieldKind } from '../../../../football/vocabulary/fields.ts';

/** A type and not an interface, because the builder wants one that may have more keys. */
export type OperatorChoice = { name: string; label: string };

const WORDS: Readonly<Record<string, string>> = {
  '=': 'is',
  '!=': 'is not',
  in: 'is one of',
  notIn: 'is none of',
  '<': 'under',
  '<=': 'at most',
  '>': 'over',
  '>=': 'at least',
  between: 'from … to',
  notBetween: 'not from … to',
  exactly: 'is exactly',
  notExactly: 'is not exactly',
  exactlyIn: 'is exactly one of',
  notExactlyIn: 'is exactly none of',
  contains: 'has in it',
  doesNotContain: 'has not in it',
  beginsWith: 'begins with',
  doesNotBeginWith: 'does not begin with',
  endsWith: 'ends with',
  doesNotEndWith: 'does not end with',
  like: 'is like the pattern',
  notLike: 'is not like the pattern',
  isTrue: 'yes',
  isNotTrue: 'no, or not tagged',
  isFalse: 'no',
  isNotFalse: 'yes, or not tagged',
  '=field': 'is the same as',
  '<>field': 'is not the same as',
  '<field': 'is under that of',
  '<=field': 'is at most that of',
  '>field': 'is over that of',
  '>=field': 'is at least that of',
  notNull: 'is tagged',
  null: 'is not tagged',
};

/** A clock runs down, so words of more and less would turn it around. */
const CLOCK_WORDS: Readonly<Record<string, string>> = {
  '<': 'less left than',
  '<=': 'left at most',
  '>': 'more left than',
  '>=': 'left at least',
};

const RANK: Readonly<Record<string, number>> = Object.fromEntries(
  Object.keys(WORDS).map((name, i) => [name, i]),
);

export function operatorWord(kind: FieldKind, name: string): string {
  return (kind === 'clock' ? CLOCK_WORDS[name] : undefined) ?? WORDS[name] ?? name;
}

export function operatorChoices(kind: FieldKind, operators = operatorsFor(kind)): OperatorChoice[] {
  const rank = (name: string) =>
    kind === 'flag' && (name === '=' || name === '!=') ? 50 : (RANK[name] ?? 99);
  return builderOperators(operators)
    .sort((a, b) => rank(a) - rank(b))
    .map((name) => ({ name, label: operatorWord(kind, name) }));
}

/** How many values an operator takes. */
export type Arity = 'none' | 'one' | 'two' | 'list' | 'field';

const NONE = new Set(['null', 'notNull', 'isTrue', 'isNotTrue', 'isFalse', 'isNotFalse']);

export function arityOf(operator: string): Arity {
  if (NONE.has(operator)) return 'none';
  if (operator.endsWith('field')) return 'field';
  if (operator === 'between' || operator === 'notBetween') return 'two';
  return /in$/i.test(operator) && operator !== 'contains' ? 'list' : 'one';
}

/** The value as another operator takes it: one becomes a list of one, a list its first. */
export function valueFor(operator: string, value: unknown): unknown {
  const list = (Array.isArray(value) ? value : [value]).filter(
    (part) => part !== null && part !== undefined && part !== '',
  );
  switch (arityOf(operator)) {
    case 'none':
      return null;
    case 'one':
    case 'field':
      return list[0] ?? '';
    case 'two':
      return [list[0] ?? '', list[1] ?? ''];
    case 'list':
      return list;
  }
}
