/** Words in a question that the playbook does not know: told while it is written, instead of answered with nothing. */

import {
  isListRule,
  isOneValueRule,
  type Question,
  type RuleQuestion,
  rulesOf,
  valuesOf,
} from '../../../../football/question/ast.ts';
import { nearestWord } from '../../../../football/question/fieldset.ts';
import { splitStep } from '../../../../football/question/neighbour.ts';
import type { SavedQuestion } from '../../../../football/question/saved.ts';
import { Families, type QuestionTerm } from '../../../../football/question/vocabulary.ts';
import type { Problem } from '../../../../football/result.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { DERIVED_TERMS } from '../../../../football/vocabulary/situation-limits.ts';

/** What a question is written in: the staff's fields and terms. */
export interface QuestionWords {
  readonly fields: readonly FieldDefinition[];
  readonly terms: readonly QuestionTerm[];
  /** saved questions, which a question may name */
  readonly saved?: readonly SavedQuestion[];
}

export interface UnknownTerm {
  readonly rule: RuleQuestion;
  /** which of the rule's values */
  readonly at: number;
  readonly problem: Problem;
}

/** The first value that is no term of its field. Patterns match anything, and teams are no terms. */
export function unknownTerm(question: Question, words: QuestionWords): UnknownTerm | null {
  const families = new Families(words.terms);
  for (const rule of rulesOf(question)) {
    const plain = splitStep(rule.field).key;
    const field = words.fields.find((each) => each.key === plain);
    if (field?.kind !== 'term' || field.key === 'possession' || !namesTerms(rule)) continue;
    const at = valuesOf(rule).findIndex((value) => !families.knows(field.key, String(value)));
    if (at < 0) continue;
    const value = String(valuesOf(rule)[at]);
    const names = [...words.terms, ...DERIVED_TERMS]
      .filter((term) => term.field === field.key)
      .map((term) => term.name);
    const nearest = nearestWord(value, names);
    return {
      rule,
      at,
      problem: {
        code: 'question-term',
        message: `${field.label} has no term “${value}”.`,
        next: nearest ? `Did you mean ${nearest}?` : 'Choose one of the playbook.',
      },
    };
  }
  return null;
}

function namesTerms(rule: RuleQuestion): boolean {
  return (
    isListRule(rule) || (isOneValueRule(rule) && rule.operator !== 'like' && rule.operator !== 'notLike')
  );
}
