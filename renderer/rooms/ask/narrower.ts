/** Which condition empties an answer: what would be found without each one. */

import { normalise, type Question } from '../../../football/question/ast.ts';
import { printQuestion } from '../../../football/question/print.ts';

export interface Wider {
  /** the condition that is left out, as text */
  readonly without: string;
  readonly question: Question;
}

/** The question without each of its conditions in turn; none where only one way of widening is left: asking for all. */
export function widerQuestions(question: Question): Wider[] {
  const plain = normalise(question);
  if (plain.kind === 'rule' || plain.not || plain.combinator !== 'and' || plain.rules.length < 2) return [];
  return plain.rules.map((left, at) => ({
    without: printQuestion(left),
    question: normalise({ ...plain, rules: plain.rules.filter((_, i) => i !== at) }),
  }));
}
