/**
 * The question as the room edits it: the builder's tree and the text say the same, whichever was changed last. What is
 * half written keeps the last whole question, which is what the answer on the screen belongs to.
 */

import { EVERY_PLAY, type Question } from '../../../../football/question/ast.ts';
import { parseQuestion } from '../../../../football/question/parse.ts';
import { printQuestion } from '../../../../football/question/print.ts';
import { type BuilderGroup, fromBuilder, toBuilder } from '../../../../football/question/querybuilder.ts';
import type { Problem } from '../../../../football/result.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { arityOf } from './operator-words.ts';

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

export function editTree(
  state: QuestionState,
  tree: BuilderGroup,
  fields: readonly FieldDefinition[],
): QuestionState {
  const unfinished = firstUnfinished(tree, []);
  if (unfinished) {
    const label = fields.find((field) => field.key === unfinished.field)?.label ?? unfinished.field;
    const problem = {
      code: 'question-unfinished',
      message: `${label} has no value yet.`,
      next: 'Choose one, or take the condition out.',
    };
    return { ...state, tree, problem, path: unfinished.path };
  }
  const read = fromBuilder(tree, fields);
  if (!read.ok) return { ...state, tree, problem: read.problem, path: read.problem.path };
  const where = printQuestion(read.value);
  return { tree, text: where, question: read.value, where, problem: null, path: null };
}

interface Unfinished {
  readonly field: string;
  readonly path: readonly number[];
}

/** The first condition that still waits for its value. An empty text is no value here: `is not tagged` asks for it. */
function firstUnfinished(group: BuilderGroup, path: readonly number[]): Unfinished | null {
  for (const [index, item] of group.rules.entries()) {
    const here = [...path, index];
    if ('rules' in item) {
      const inside = firstUnfinished(item, here);
      if (inside) return inside;
    } else if (waitsForValue(item.operator, item.value)) return { field: item.field, path: here };
  }
  return null;
}

function waitsForValue(operator: string, value: unknown): boolean {
  const blank = (part: unknown) => part === '' || part === null || part === undefined;
  switch (arityOf(operator)) {
    case 'none':
      return false;
    case 'one':
      return blank(value);
    case 'two':
      return !Array.isArray(value) || value.length !== 2 || value.some(blank);
    case 'list':
      return !Array.isArray(value) || value.length === 0;
  }
}

export function editText(
  state: QuestionState,
  text: string,
  fields: readonly FieldDefinition[],
): QuestionState {
  const read = parseQuestion(text, fields);
  if (!read.ok) return { ...state, text, problem: read.problem, path: null };
  return { ...askQuestion(read.value), text };
}

/** The state for a question that came whole: a saved one, or a narrowed one. */
export function askQuestion(question: Question): QuestionState {
  const where = printQuestion(question);
  return { tree: toBuilder(question), text: where, question, where, problem: null, path: null };
}
