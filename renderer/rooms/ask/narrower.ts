/** Why an answer is empty: what would be found without each condition, and which of them finds nothing alone. */

import { normalise, type Question } from '../../../football/question/ast.ts';
import { printQuestion } from '../../../football/question/print.ts';

export interface Condition {
  /** as text */
  readonly words: string;
  readonly alone: Question;
  /** the question without it */
  readonly without: Question;
}

/** The conditions that must all hold; none where there is but one, or where any of several may. */
export function conditionsOf(question: Question): Condition[] {
  const plain = normalise(question);
  if (plain.kind === 'rule' || plain.not || plain.combinator !== 'and' || plain.rules.length < 2) return [];
  return plain.rules.map((alone, at) => ({
    words: printQuestion(alone),
    alone,
    without: normalise({ ...plain, rules: plain.rules.filter((_, i) => i !== at) }),
  }));
}
