import type { Angle, CutupDetailView, JobView } from '../../electron/service/views.ts';
import { ask } from './http.ts';

const at = encodeURIComponent;

export interface NewCutup {
  readonly name: string;
  readonly where?: string;
  readonly playIds?: readonly string[];
  readonly angles?: readonly Angle[];
}

export interface CutupChange {
  readonly name?: string;
  readonly note?: string | null;
  readonly folder?: string | null;
  readonly angles?: readonly Angle[];
  readonly removed?: boolean;
}

export interface ItemChange {
  /** null: as the cut-up has them */
  readonly angles?: readonly Angle[] | null;
  /** per angle the first frame shown and the first one not shown */
  readonly trims?: Readonly<Partial<Record<Angle, readonly [number, number]>>>;
  readonly note?: string | null;
  readonly removed?: boolean;
  /** the item it moves behind, null for the top */
  readonly after?: string | null;
}

/** Gestures on cut-ups; each answers with the cut-up as it then is. */
export const cutupCalls = {
  make: (cutup: NewCutup) => ask<CutupDetailView>('/api/cutups', cutup),
  change: (cutupId: string, change: CutupChange) =>
    ask<CutupDetailView | null>(`/api/cutups/${at(cutupId)}`, change),
  add: (cutupId: string, playIds: readonly string[], after: string | null) =>
    ask<CutupDetailView>(`/api/cutups/${at(cutupId)}/items`, { playIds, after }),
  changeItem: (cutupId: string, itemId: string, change: ItemChange) =>
    ask<CutupDetailView>(`/api/cutups/${at(cutupId)}/items/${at(itemId)}`, change),
  /** the ending says what is made: .mp4, .m3u8, .csv, .xlsx */
  export: (cutupId: string, to: string, angles?: readonly Angle[]) =>
    ask<JobView>(`/api/cutups/${at(cutupId)}/export`, { to, ...(angles ? { angles } : {}) }),
};
