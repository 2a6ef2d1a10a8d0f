import { v7 as uuidv7 } from 'uuid';
import { listQuestions } from '../../../db/repositories/cutups.ts';
import { ProblemError } from '../../../football/result.ts';
import type { Station } from '../station.ts';
import type { SavedQuestionView } from '../views.ts';
import { readQuestion } from './answers.ts';

export function questions(station: Station): SavedQuestionView[] {
  return listQuestions(station.library).map((q) => ({ questionId: q.id, name: q.name, where: q.where }));
}

/**
 * Saves a question under a name; a name that is there gets the new question.
 * @throws ProblemError `question-unnamed`, or why the question cannot be read
 */
export function saveQuestion(station: Station, name: string, where: string): SavedQuestionView {
  readQuestion(station, where);
  if (name.trim() === '') {
    throw new ProblemError({
      code: 'question-unnamed',
      message: 'A question needs a name to be saved under.',
      next: 'Type one.',
    });
  }
  const known = listQuestions(station.library).find(
    (q) => q.name.toLowerCase() === name.trim().toLowerCase(),
  );
  const questionId = known?.id ?? uuidv7();
  const at = { entity: 'question', id: questionId };
  station.library.journal.commit({ label: `save question ${name.trim()}` }, [
    { ...at, field: 'removed', value: 0 },
    { ...at, field: 'name', value: name.trim() },
    { ...at, field: 'where', value: where },
  ]);
  return { questionId, name: name.trim(), where };
}

/** @throws ProblemError `question-unknown` */
export function removeQuestion(station: Station, questionId: string): SavedQuestionView[] {
  if (!listQuestions(station.library).some((q) => q.id === questionId)) {
    throw new ProblemError({
      code: 'question-unknown',
      message: 'This question is not in the library any more.',
      kept: 'Nothing was changed.',
      next: 'Undo brings a removed question back.',
    });
  }
  station.library.journal.commit({ label: 'remove question' }, [
    { entity: 'question', id: questionId, field: 'removed', value: 1 },
  ]);
  return questions(station);
}
