import { v7 as uuidv7 } from 'uuid';
import type { Change } from '../../../db/journal/edit.ts';
import { listCutups, listQuestions } from '../../../db/repositories/cutups.ts';
import { settleQuestion } from '../../../football/question/check.ts';
import { FieldSet } from '../../../football/question/fieldset.ts';
import { parseQuestion } from '../../../football/question/parse.ts';
import { printQuestion } from '../../../football/question/print.ts';
import { namesIn, renameIn, savedKey } from '../../../football/question/saved.ts';
import { ProblemError } from '../../../football/result.ts';
import type { Station } from '../station.ts';
import type { SavedQuestionView } from '../views.ts';
import { readQuestion } from './answers.ts';

export function questions(station: Station): SavedQuestionView[] {
  return listQuestions(station.library).map((q) => ({ questionId: q.id, name: q.name, where: q.where }));
}

/** A saved question by its name. @throws ProblemError `question-unknown` */
export function questionByName(station: Station, name: string): SavedQuestionView {
  const found = questions(station).find((q) => savedKey(q.name) === savedKey(name));
  if (found) return found;
  throw new ProblemError({
    code: 'question-unknown',
    message: `No question is saved as “${name}”.`,
    next: '`tapebook questions list` names them all.',
  });
}

/**
 * Saves a question under a name; a name that is there gets the new question.
 * @throws ProblemError `question-unnamed`, `question-circle`, or why the question cannot be read
 */
export function saveQuestion(station: Station, name: string, where: string): SavedQuestionView {
  const called = nameOrProblem(name);
  readQuestion(station, where);
  const known = questions(station).find((q) => savedKey(q.name) === savedKey(called));
  refuseCircle(station, called, where);
  const questionId = known?.questionId ?? uuidv7();
  const at = { entity: 'question', id: questionId };
  station.library.journal.commit({ label: `save question ${called}` }, [
    { ...at, field: 'removed', value: 0 },
    { ...at, field: 'name', value: called },
    { ...at, field: 'where', value: where },
  ]);
  return { questionId, name: called, where };
}

/**
 * Gives a saved question another name; questions and cut-ups that ask for it follow, in the same gesture.
 * @throws ProblemError `question-unknown`, `question-unnamed`, `question-name-taken`
 */
export function renameQuestion(station: Station, questionId: string, name: string): SavedQuestionView {
  const all = questions(station);
  const known = all.find((q) => q.questionId === questionId);
  if (!known) throw gone();
  const called = nameOrProblem(name);
  if (all.some((q) => q !== known && savedKey(q.name) === savedKey(called))) {
    throw new ProblemError({
      code: 'question-name-taken',
      message: `Another question is saved as “${called}”.`,
      kept: 'Nothing was changed.',
      next: 'Choose another name.',
    });
  }
  const changes: Change[] = [{ entity: 'question', id: questionId, field: 'name', value: called }];
  const follow = (entity: string, id: string, where: string | null) => {
    const renamed = where && renamedText(station, where, known.name, called);
    if (renamed && renamed !== where) changes.push({ entity, id, field: 'where', value: renamed });
  };
  for (const q of all) follow('question', q.questionId, q.where);
  for (const cutup of listCutups(station.library)) follow('cutup', cutup.id, cutup.where);
  station.library.journal.commit({ label: `rename question ${known.name}` }, changes);
  return questions(station).find((q) => q.questionId === questionId)!;
}

/** @throws ProblemError `question-unknown`, `question-used` */
export function removeQuestion(station: Station, questionId: string): SavedQuestionView[] {
  const all = questions(station);
  const known = all.find((q) => q.questionId === questionId);
  if (!known) throw gone();
  const users = all.filter((q) => q !== known && uses(station, q.where, known.name));
  if (users.length > 0) {
    throw new ProblemError({
      code: 'question-used',
      message: `“${known.name}” is asked for by ${users.map((q) => `“${q.name}”`).join(', ')}.`,
      kept: 'Nothing was changed.',
      next: 'Take it out of there first.',
    });
  }
  station.library.journal.commit({ label: 'remove question' }, [
    { entity: 'question', id: questionId, field: 'removed', value: 1 },
  ]);
  return questions(station);
}

function uses(station: Station, where: string, name: string): boolean {
  const read = parseQuestion(where, station.vocabulary().fields);
  return read.ok && namesIn(read.value).some((each) => savedKey(each) === savedKey(name));
}

/** The text with the question called by its new name; as it is where it does not ask for it. */
function renamedText(station: Station, where: string, from: string, to: string): string {
  if (!uses(station, where, from)) return where;
  const read = parseQuestion(where, station.vocabulary().fields);
  return read.ok ? printQuestion(renameIn(read.value, from, to)) : where;
}

/** Whether the question, saved under the name, would ask for itself by way of others. */
function refuseCircle(station: Station, name: string, where: string): void {
  const { fields } = station.vocabulary();
  const others = fields.saved.filter((q) => savedKey(q.name) !== savedKey(name));
  const after = new FieldSet(fields.all, [...others, { name, where }]);
  const asked = settleQuestion({ kind: 'rule', field: 'question', operator: '=', value: name }, after);
  if (!asked.ok) throw new ProblemError({ ...asked.problem, kept: 'Nothing was saved.' });
}

function nameOrProblem(name: string): string {
  if (name.trim() !== '') return name.trim();
  throw new ProblemError({
    code: 'question-unnamed',
    message: 'A question needs a name to be saved under.',
    next: 'Type one.',
  });
}

function gone(): ProblemError {
  return new ProblemError({
    code: 'question-unknown',
    message: 'This question is not in the library any more.',
    kept: 'Nothing was changed.',
    next: 'Undo brings a removed question back.',
  });
}
