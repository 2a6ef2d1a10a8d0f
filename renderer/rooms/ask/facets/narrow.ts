/** A question narrowed, widened or freed of what it says about one field. */

import {
  both,
  EVERY_PLAY,
  isFieldRule,
  normalise,
  type Question,
} from '../../../../football/question/ast.ts';

interface Split {
  /** what must hold of the field */
  readonly own: readonly Question[];
  readonly rest: Question;
}

function split(question: Question, field: string): Split {
  const plain = normalise(question);
  const parts = plain.kind === 'group' && plain.combinator === 'and' && !plain.not ? plain.rules : [plain];
  const isOwn = (part: Question) => part.kind === 'rule' && part.field === field && !isFieldRule(part);
  return {
    own: parts.filter(isOwn),
    rest: normalise({ kind: 'group', combinator: 'and', rules: parts.filter((part) => !isOwn(part)) }),
  };
}

/** Where the field is not asked about yet, only the value; where it is, the value as well. */
export function withValue(question: Question, field: string, value: Question): Question {
  const { own, rest } = split(question, field);
  if (own.length === 0) return both(question, value);
  const before = normalise({ kind: 'group', combinator: 'and', rules: own });
  // several conditions join into one list only when they are plain equalities
  const first = before.kind === 'rule' ? before : null;
  if (first && value.kind === 'rule' && value.operator === '=' && 'value' in value) {
    const values = first.operator === '=' ? [first.value] : first.operator === 'in' ? first.values : null;
    if (values?.includes(value.value)) return both(rest, first);
    if (values) return both(rest, { kind: 'rule', field, operator: 'in', values: [...values, value.value] });
  }
  return both(rest, normalise({ kind: 'group', combinator: 'or', rules: [before, value] }));
}

/** Everything but the value; plays without any stay out, as they do for `<>`. */
export function withoutValue(question: Question, value: Question): Question {
  if (value.kind === 'rule' && value.operator === '=') return both(question, { ...value, operator: '<>' });
  return both(question, normalise({ kind: 'group', combinator: 'and', not: true, rules: [value] }));
}

/** No condition on the field any more. */
export function freed(question: Question, field: string): Question {
  const { rest } = split(question, field);
  return rest.kind === 'group' && rest.rules.length === 0 ? EVERY_PLAY : rest;
}
