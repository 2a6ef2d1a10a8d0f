/** Questions that a staff keeps by name, and may use inside others: `question = 'Red zone' AND down = 3`. */

import { fail, ok, type Problem, type Result } from '../result.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';
import { isFieldRule, isListRule, normalise, type Question, type RuleQuestion, valuesOf } from './ast.ts';
import { foldCase } from './like.ts';

export interface SavedQuestion {
  readonly name: string;
  /** its text */
  readonly where: string;
}

/** Stands among the fields of a question, though no play has it. */
export const SAVED_FIELD: FieldDefinition = {
  key: 'question',
  label: 'Saved question',
  kind: 'text',
  home: 'derived',
  group: 'game',
  help: 'Plays that a saved question finds.',
};

export function isSavedField(field: FieldDefinition): boolean {
  return field === SAVED_FIELD;
}

/** Names are the same whatever their case from A to Z. */
export function savedKey(name: string): string {
  return foldCase(name.trim());
}

/** The names of saved questions that a question uses itself. */
export function namesIn(question: Question): string[] {
  if (question.kind === 'group') return question.rules.flatMap(namesIn);
  return question.field === SAVED_FIELD.key ? valuesOf(question).map(String) : [];
}

/** The question with a saved one called by its new name. */
export function renameIn(question: Question, from: string, to: string): Question {
  if (question.kind === 'group')
    return { ...question, rules: question.rules.map((rule) => renameIn(rule, from, to)) };
  if (question.field !== SAVED_FIELD.key || isFieldRule(question)) return question;
  const renamed = (value: unknown) => (savedKey(String(value)) === savedKey(from) ? to : String(value));
  if (isListRule(question)) return { ...question, values: question.values.map(renamed) };
  return 'value' in question ? { ...question, value: renamed(question.value) } : question;
}

/** Questions within questions may come to so many conditions in all. */
const EXPANDED_RULES = 4_000;

interface Expansion {
  rules: number;
  /** names that are being read, the outermost first */
  readonly path: readonly string[];
}

/**
 * The question with every saved one in its place.
 * @param read the saved question of a name, or why it cannot be had
 */
export function expandSaved(
  question: Question,
  read: (name: string) => Result<Question>,
  from: string | null = null,
): Result<Question> {
  const expansion: Expansion = { rules: 0, path: from === null ? [] : [from] };
  return expand(question, read, expansion);
}

function expand(
  question: Question,
  read: (name: string) => Result<Question>,
  expansion: Expansion,
): Result<Question> {
  if (question.kind === 'group') {
    const rules: Question[] = [];
    for (const rule of question.rules) {
      const expanded = expand(rule, read, expansion);
      if (!expanded.ok) return expanded;
      rules.push(expanded.value);
    }
    return ok({ ...question, rules });
  }
  expansion.rules++;
  if (expansion.rules > EXPANDED_RULES) return fail(tooLong());
  return question.field === SAVED_FIELD.key ? expandRule(question, read, expansion) : ok(question);
}

function expandRule(
  rule: RuleQuestion,
  read: (name: string) => Result<Question>,
  expansion: Expansion,
): Result<Question> {
  const rules: Question[] = [];
  for (const name of valuesOf(rule).map(String)) {
    if (expansion.path.some((each) => savedKey(each) === savedKey(name))) {
      return fail(goesRound([...expansion.path, name]));
    }
    const found = read(name);
    if (!found.ok) return found;
    const inner = { ...expansion, path: [...expansion.path, name] };
    const expanded = expand(found.value, read, inner);
    if (!expanded.ok) return expanded;
    expansion.rules = inner.rules;
    rules.push(expanded.value);
  }
  const not = rule.operator === '<>' || rule.operator === 'notIn';
  return ok(normalise({ kind: 'group', combinator: 'or', ...(not ? { not } : {}), rules }));
}

function goesRound(path: readonly string[]): Problem {
  const names = path.map((name) => `“${name}”`);
  return {
    code: 'question-circle',
    message:
      names.length === 2
        ? `The question ${names[0]} asks for itself.`
        : `Saved questions go round in a circle: ${names.join(' asks for ')}.`,
    next: 'Take one of them out of the other.',
  };
}

function tooLong(): Problem {
  return {
    code: 'question-long',
    message: `With the saved questions in it the question has more than ${EXPANDED_RULES} conditions.`,
    next: 'Use fewer saved questions inside each other.',
  };
}
