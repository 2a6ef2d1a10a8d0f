import { ask } from './http.ts';

export interface SheetColumn {
  readonly name: string;
  readonly samples: readonly string[];
  /** our field, null where the column is left out */
  readonly field: string | null;
}

export interface SheetValue {
  readonly field: string;
  readonly theirs: string;
  /** null: not known yet, comes in as a new term */
  readonly ours: string | null;
  readonly count: number;
}

export interface SheetMapping {
  readonly columns: Readonly<Record<string, string>>;
  readonly values: Readonly<Record<string, Readonly<Record<string, string>>>>;
}

export interface SheetPreview {
  readonly columns: readonly SheetColumn[];
  readonly values: readonly SheetValue[];
  readonly rows: number;
  readonly firstRows: readonly (readonly string[])[];
  readonly map: SheetMapping;
}

export interface SheetReport {
  readonly imported: number;
  readonly updated: number;
  readonly unchanged?: number;
  readonly newTerms: readonly { readonly field: string; readonly name: string }[];
  readonly refused: readonly { readonly row: number; readonly column: string; readonly reason: string }[];
  readonly unread?: readonly string[];
}

/** Plays in and out as tables. */
export const sheetCalls = {
  preview: (path: string, map?: SheetMapping) =>
    ask<SheetPreview>('/api/sheets/preview', { path, ...(map ? { map } : {}) }),
  import: (path: string, gameId: string | null, map: SheetMapping) =>
    ask<SheetReport>('/api/sheets/import', { path, ...(gameId ? { gameId } : {}), map }),
  export: (where: string, to: string, fields?: readonly string[]) =>
    ask<{ rows: number; path: string }>('/api/sheets/export', { where, to, ...(fields ? { fields } : {}) }),
};
