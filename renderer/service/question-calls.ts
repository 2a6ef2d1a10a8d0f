import { answer, api } from './api.ts';

/** Saved questions, and the plays behind a number. */
export const questionCalls = {
  save: (name: string, where: string) => answer(api.questions.$post({ json: { name, where } })),
  behind: (playIds: readonly string[], metric: string) =>
    answer(api.behind.$post({ json: { playIds: [...playIds], metric } })),
  remove: (id: string) => answer(api.questions[':id'].remove.$post({ param: { id } })),
};
