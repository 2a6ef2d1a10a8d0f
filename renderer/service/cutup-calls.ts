import type { Angle, ReelChoices } from '../../electron/service/views.ts';
import { answer, api } from './api.ts';

export interface NewCutup {
  readonly name: string;
  readonly where?: string;
  readonly playIds?: readonly string[];
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
  make: ({ playIds, ...cutup }: NewCutup) =>
    answer(api.cutups.$post({ json: { ...cutup, ...(playIds ? { playIds: [...playIds] } : {}) } })),
  change: (id: string, { angles, ...change }: CutupChange) =>
    answer(
      api.cutups[':id'].$post({
        param: { id },
        json: { ...change, ...(angles ? { angles: [...angles] } : {}) },
      }),
    ),
  /** plays join at the end */
  add: (id: string, playIds: readonly string[]) =>
    answer(api.cutups[':id'].items.$post({ param: { id }, json: { playIds: [...playIds] } })),
  changeItem: (id: string, itemId: string, { angles, trims, ...change }: ItemChange) =>
    answer(
      api.cutups[':id'].items[':itemId'].$post({
        param: { id, itemId },
        json: {
          ...change,
          ...(angles === undefined ? {} : { angles: angles && [...angles] }),
          ...(trims ? { trims: trimsToSend(trims) } : {}),
        },
      }),
    ),
  /** the ending says what is made: .mp4, .m3u8, .csv, .xlsx */
  export: (id: string, to: string, choices: ReelChoices = {}) =>
    answer(api.cutups[':id'].export.$post({ param: { id }, json: { to, ...choicesToSend(choices) } })),
  /** what writing it as a reel will cost, about */
  estimate: (id: string, choices: ReelChoices) =>
    answer(api.cutups[':id'].estimate.$post({ param: { id }, json: choicesToSend(choices) })),
};

function choicesToSend({ burn, fields, ...choices }: ReelChoices) {
  return { ...choices, ...(burn ? { burn: [...burn] } : {}), ...(fields ? { fields: [...fields] } : {}) };
}

function trimsToSend(trims: NonNullable<ItemChange['trims']>): Partial<Record<Angle, [number, number]>> {
  return Object.fromEntries(Object.entries(trims).map(([angle, trim]) => [angle, [trim[0], trim[1]]]));
}
