import type { PivotPlace, PivotRequest } from '../../electron/service/pivot-views.ts';
import { answer, api } from './api.ts';

const toSend = (table: PivotRequest) => ({
  ...table,
  rows: [...table.rows],
  cols: [...table.cols],
  metrics: [...table.metrics],
});

/** Saved questions, and the plays behind a number. */
export const questionCalls = {
  pivot: (table: PivotRequest) => answer(api.pivot.$post({ json: toSend(table) })),
  save: (name: string, where: string) => answer(api.questions.$post({ json: { name, where } })),
  rename: (id: string, name: string) =>
    answer(api.questions[':id'].rename.$post({ param: { id }, json: { name } })),
  facets: (where: string) => answer(api.facets.$post({ json: { where } })),
  whyNothing: (where: string) => answer(api['why-nothing'].$post({ json: { where } })),
  behind: (playIds: readonly string[], metric: string) =>
    answer(api.behind.$post({ json: { playIds: [...playIds], metric } })),
  pictures: () => answer(api.pictures.$get()),
  picture: (where: string, name: string) => answer(api.pictures.$post({ json: { where, name } })),
  pivotPlays: (table: PivotRequest, place: PivotPlace) =>
    answer(
      api.pivot.plays.$post({
        json: { table: toSend(table), place: { row: [...place.row], col: [...place.col] } },
      }),
    ),
  exportPivot: (table: PivotRequest, to: string) =>
    answer(api.pivot.export.$post({ json: { table: toSend(table), to } })),
  remove: (id: string) => answer(api.questions[':id'].remove.$post({ param: { id } })),
};
