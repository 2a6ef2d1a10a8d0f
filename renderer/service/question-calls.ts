import type { SavedQuestionView } from '../../electron/service/views.ts';
import { ask } from './http.ts';

/** Gestures on saved questions. */
export const questionCalls = {
  save: (name: string, where: string) => ask<SavedQuestionView>('/api/questions', { name, where }),
  remove: (questionId: string) => ask<unknown>(`/api/questions/${encodeURIComponent(questionId)}/remove`, {}),
};
