import { answer, api } from './api.ts';

/** Their columns to our field keys, and per field their values to ours. */
export interface SheetMapping {
  readonly columns: Readonly<Record<string, string>>;
  readonly values: Readonly<Record<string, Readonly<Record<string, string>>>>;
}

export type SheetPreview = Awaited<ReturnType<typeof sheetCalls.preview>>;
export type SheetReport = Awaited<ReturnType<typeof sheetCalls.import>>;

const toSend = (map: SheetMapping) => ({
  columns: { ...map.columns },
  values: Object.fromEntries(Object.entries(map.values).map(([field, values]) => [field, { ...values }])),
});

/** Plays in and out as tables. */
export const sheetCalls = {
  preview: (path: string, map: SheetMapping | null) =>
    answer(api.sheets.preview.$post({ json: { path, map: map && toSend(map) } })),
  /** @param gameTitle for rows that name no game themselves */
  import: (path: string, gameTitle: string | null, map: SheetMapping) =>
    answer(api.sheets.import.$post({ json: { path, gameTitle, map: toSend(map) } })),
  export: (where: string, to: string) => answer(api.sheets.export.$post({ json: { where, to } })),
};
