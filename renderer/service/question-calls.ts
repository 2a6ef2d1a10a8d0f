import { answer, api } from './api.ts';

/** Gestures on saved questions. */
export const questionCalls = {
  save: (name: string, where: string) => answer(api.questions.$post({ json: { name, where } })),
  remove: (id: string) => answer(api.questions[':id'].remove.$post({ param: { id } })),
};
