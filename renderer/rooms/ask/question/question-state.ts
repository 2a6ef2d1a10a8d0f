/**
 * The question as the room edits it: the builder's tree and the text say the same, whichever was changed last. What is
 * half written keeps the last whole question, which is what the answer on the screen belongs to.
 */

import { EVERY_PLAY, type Question } from '../../../../football/question/ast.ts';
import { FieldSet } from '../../../../football/question/fieldset.ts';
import { parseWithPlaces } from '../../../../football/question/parse.ts';
import { printQuestion } from '../../../../football/question/print.ts';
import { type BuilderGroup, fromBuilder, toBuilder } from '../../../../football/question/querybuilder.ts';
import type { Problem } from '../../../../football/result.ts';
import { arityOf } from './operator-words.ts';
import { type QuestionWords, unknownTerm } from './unknown-term.ts';

export interface QuestionState {
  readonly tree: BuilderGroup;
  readonly text: string;
  /** the last whole question; its answer is on the screen */
  readonly question: Question;
  /** the same in its text form */
  readonly where: string;
  /** why the builder or the text cannot be asked yet */
  readonly problem: Problem | null;
  /** where in the builder the trouble is */
  readonly path: readonly number[] | null;
}

export const EVERY_PLAY_STATE: QuestionState = {
  tree: { combinator: 'and', rules: [] },
  text: '',
  question: EVERY_PLAY,
  where: '',
  problem: null,
  path: null,
};

const fieldsOf = (words: QuestionWords) => new FieldSet(words.fields, words.saved);

export function editTree(state: QuestionState, tree: BuilderGroup, words: QuestionWords): QuestionState {
  const trouble = firstTrouble(tree, [], words);
  if (trouble) return { ...state, tree, ...trouble };
  const read = fromBuilder(tree, fieldsOf(words));
  if (!read.ok) return { ...state, tree, problem: read.problem, path: read.problem.path };
  const where = printQuestion(read.value);
  return { tree, text: where, question: read.value, where, problem: null, path: null };
}

export function editText(state: QuestionState, text: string, words: QuestionWords): QuestionState {
  const read = parseWithPlaces(text, fieldsOf(words));
  if (!read.ok) return { ...state, text, problem: read.problem, path: null };
  const { question, places } = read.value;
  const unknown = unknownTerm(question, words);
  if (unknown) {
    const place = places.get(unknown.rule);
    const at = place?.values[unknown.at] ?? place;
    return { ...state, text, problem: { ...unknown.problem, ...(at ? { at } : {}) }, path: null };
  }
  return { ...askQuestion(question), text };
}

/** The state for a question that came whole: a saved one, or a narrowed one. */
export function askQuestion(question: Question): QuestionState {
  const where = printQuestion(question);
  return { tree: toBuilder(question), text: where, question, where, problem: null, path: null };
}

interface Trouble {
  readonly problem: Problem;
  readonly path: readonly number[];
}

/**
 * The first condition that still waits for its value, or whose value is no term. An empty text is no value here:
 * `is not tagged` asks for it.
 */
function firstTrouble(group: BuilderGroup, path: readonly number[], words: QuestionWords): Trouble | null {
  for (const [index, item] of group.rules.entries()) {
    const here = [...path, index];
    if ('rules' in item) {
      const inside = firstTrouble(item, here, words);
      if (inside) return inside;
      continue;
    }
    if (waitsForValue(item.operator, item.value)) {
      const label = words.fields.find((field) => field.key === item.field)?.label ?? item.field;
      const message = `${label} has no value yet.`;
      const next = 'Choose one, or take the condition out.';
      return { problem: { code: 'question-unfinished', message, next }, path: here };
    }
    const alone = fromBuilder({ combinator: 'and', rules: [item] }, fieldsOf(words));
    const unknown = alone.ok ? unknownTerm(alone.value, words) : null;
    if (unknown) return { problem: unknown.problem, path: here };
  }
  return null;
}

function waitsForValue(operator: string, value: unknown): boolean {
  const blank = (part: unknown) => part === '' || part === null || part === undefined;
  switch (arityOf(operator)) {
    case 'none':
      return false;
    case 'one':
    case 'field':
      return blank(value);
    case 'two':
      return !Array.isArray(value) || value.length !== 2 || value.some(blank);
    case 'list':
      return !Array.isArray(value) || value.length === 0;
  }
}
