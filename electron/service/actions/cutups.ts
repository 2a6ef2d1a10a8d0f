import { generateKeyBetween, generateNKeysBetween } from 'fractional-indexing';
import { v7 as uuidv7 } from 'uuid';
import type { Change } from '../../../db/journal/edit.ts';
import {
  type CutupItemRow,
  type CutupRow,
  cutupItems,
  findCutup,
  findCutupByName,
  listCutups,
} from '../../../db/repositories/cutups.ts';
import { loadPlaysById } from '../../../db/repositories/play-records.ts';
import { ProblemError } from '../../../football/result.ts';
import type { Station } from '../station.ts';
import type { Angle, CutupDetailView, CutupItemView, CutupView } from '../views.ts';
import { answer, lineOf } from './answers.ts';
import { playUnknown } from './tags.ts';

/** Sideline then end zone is the trade's habit (common practice, no source). */
export const USUAL_ANGLES: readonly Angle[] = ['sideline', 'endzone'];

export function cutups(station: Station): CutupView[] {
  return listCutups(station.library).map(view);
}

/** @throws ProblemError `cutup-unknown` */
export function cutupDetail(station: Station, cutupId: string): CutupDetailView {
  const row = findCutup(station.library, cutupId);
  if (!row) throw unknown(station, null);
  const list = cutupItems(station.library, cutupId).map(itemView);
  return {
    ...view(row),
    list,
    // a play that is shown twice was played once
    line: lineOf(station, [...new Set(list.map((i) => i.playId))]),
  };
}

/** @throws ProblemError `cutup-unknown` */
export function cutupByName(station: Station, name: string): CutupDetailView {
  const row = findCutupByName(station.library, name);
  if (!row) throw unknown(station, name);
  return cutupDetail(station, row.id);
}

export interface NewCutup {
  readonly name: string;
  /** a question whose plays it takes; or the plays themselves */
  readonly where?: string | null;
  readonly playIds?: readonly string[];
  readonly angles?: readonly Angle[];
}

/** @throws ProblemError `cutup-exists`, `cutup-unnamed`, `play-unknown`, or why the question cannot be read */
export function makeCutup(station: Station, wanted: NewCutup): CutupDetailView {
  const name = wanted.name.trim();
  if (name === '')
    throw new ProblemError({ code: 'cutup-unnamed', message: 'A cut-up needs a name.', next: 'Type one.' });
  if (findCutupByName(station.library, name)) {
    throw new ProblemError({
      code: 'cutup-exists',
      message: `There is already a cut-up ${name}.`,
      kept: 'It was not changed.',
      next: 'Choose another name, or remove that one first.',
    });
  }
  const playIds = wanted.playIds ?? answer(station, wanted.where ?? '').playIds;
  if (playIds.length === 0) {
    throw new ProblemError({
      code: 'cutup-nothing',
      message: 'No play matches the question.',
      kept: 'No cut-up was made.',
      next: 'Widen the question, or tag more plays first.',
    });
  }
  checkPlays(station, playIds);
  const cutupId = uuidv7();
  const at = { entity: 'cutup', id: cutupId };
  station.library.journal.commit({ label: `make cut-up ${name}` }, [
    { ...at, field: 'removed', value: 0 },
    { ...at, field: 'name', value: name },
    { ...at, field: 'where', value: wanted.where ?? null },
    { ...at, field: 'angles', value: (wanted.angles ?? USUAL_ANGLES).join(',') },
    ...itemChanges(cutupId, playIds, null, null),
  ]);
  return cutupDetail(station, cutupId);
}

export interface CutupChange {
  readonly name?: string;
  readonly note?: string | null;
  readonly folder?: string | null;
  readonly angles?: readonly Angle[];
  readonly removed?: boolean;
}

/** @throws ProblemError `cutup-unknown`, `cutup-exists` */
export function changeCutup(station: Station, cutupId: string, change: CutupChange): CutupDetailView | null {
  const row = findCutup(station.library, cutupId);
  if (!row) throw unknown(station, null);
  const clash = change.name === undefined ? null : findCutupByName(station.library, change.name);
  if (clash && clash.id !== cutupId) {
    throw new ProblemError({
      code: 'cutup-exists',
      message: `There is already a cut-up ${clash.name}.`,
      kept: 'Nothing was changed.',
      next: 'Choose another name.',
    });
  }
  const at = { entity: 'cutup', id: cutupId };
  const changes: Change[] = [];
  if (change.name?.trim()) changes.push({ ...at, field: 'name', value: change.name.trim() });
  if (change.note !== undefined) changes.push({ ...at, field: 'note', value: change.note });
  if (change.folder !== undefined) changes.push({ ...at, field: 'folder', value: change.folder });
  if (change.angles !== undefined) changes.push({ ...at, field: 'angles', value: change.angles.join(',') });
  if (change.removed) changes.push({ ...at, field: 'removed', value: 1 });
  station.library.journal.commit(
    { label: `${change.removed ? 'remove' : 'change'} cut-up ${row.name}` },
    changes,
  );
  return change.removed ? null : cutupDetail(station, cutupId);
}

/** Adds plays after an item, or at the end. @throws ProblemError `cutup-unknown`, `item-unknown`, `play-unknown` */
export function addToCutup(
  station: Station,
  cutupId: string,
  playIds: readonly string[],
  after: string | null,
): CutupDetailView {
  const row = findCutup(station.library, cutupId);
  if (!row) throw unknown(station, null);
  const items = cutupItems(station.library, cutupId);
  const at = after === null ? items.length : items.findIndex((i) => i.id === after) + 1;
  if (after !== null && at === 0) throw itemUnknown();
  checkPlays(station, playIds);
  station.library.journal.commit(
    { label: `add ${playIds.length} plays to ${row.name}` },
    itemChanges(cutupId, playIds, items[at - 1]?.rank ?? null, items[at]?.rank ?? null),
  );
  return cutupDetail(station, cutupId);
}

export interface ItemChange {
  readonly angles?: readonly Angle[] | null;
  readonly trims?: CutupItemView['trims'];
  readonly note?: string | null;
  readonly removed?: boolean;
  /** move behind this item; null moves to the front */
  readonly after?: string | null;
}

/** @throws ProblemError `cutup-unknown`, `item-unknown`, `trim-range` */
export function changeItem(
  station: Station,
  cutupId: string,
  itemId: string,
  change: ItemChange,
): CutupDetailView {
  const items = cutupItems(station.library, cutupId);
  const item = items.find((i) => i.id === itemId);
  if (!item) throw itemUnknown();
  const at = { entity: 'cutupItem', id: itemId };
  const changes: Change[] = [];
  if (change.angles !== undefined)
    changes.push({ ...at, field: 'angles', value: change.angles?.join(',') ?? null });
  if (change.trims !== undefined) {
    for (const [angle, range] of Object.entries(change.trims)) {
      if (range && range[1] <= range[0]) {
        throw new ProblemError({
          code: 'trim-range',
          message: `The ${angle} clip would end at frame ${range[1]}, before it starts at ${range[0]}.`,
          kept: 'The trim was not changed.',
          next: 'Set the out-point after the in-point.',
        });
      }
    }
    changes.push({
      ...at,
      field: 'trims',
      value: Object.keys(change.trims).length ? JSON.stringify(change.trims) : null,
    });
  }
  if (change.note !== undefined) changes.push({ ...at, field: 'note', value: change.note });
  if (change.removed) changes.push({ ...at, field: 'removed', value: 1 });
  if (change.after !== undefined)
    changes.push({ ...at, field: 'rank', value: rankAfter(items, item, change.after) });
  const label = change.removed ? 'drop a clip' : change.after !== undefined ? 'move a clip' : 'change a clip';
  station.library.journal.commit({ label: `${label} of the cut-up` }, changes);
  return cutupDetail(station, cutupId);
}

function rankAfter(items: readonly CutupItemRow[], item: CutupItemRow, after: string | null): string {
  const others = items.filter((i) => i.id !== item.id);
  const at = after === null ? 0 : others.findIndex((i) => i.id === after) + 1;
  if (after !== null && at === 0) throw itemUnknown();
  return generateKeyBetween(others[at - 1]?.rank ?? null, others[at]?.rank ?? null);
}

function itemChanges(
  cutupId: string,
  playIds: readonly string[],
  before: string | null,
  behind: string | null,
): Change[] {
  const ranks = generateNKeysBetween(before, behind, playIds.length);
  return playIds.flatMap((playId, i) => {
    const at = { entity: 'cutupItem', id: uuidv7() };
    return [
      { ...at, field: 'removed', value: 0 },
      { ...at, field: 'cutupId', value: cutupId },
      { ...at, field: 'playId', value: playId },
      { ...at, field: 'rank', value: ranks[i] ?? '' },
    ];
  });
}

function view(row: CutupRow): CutupView {
  return {
    cutupId: row.id,
    name: row.name,
    note: row.note,
    folder: row.folder,
    where: row.where,
    angles: angles(row.angles) ?? [...USUAL_ANGLES],
    items: row.items,
  };
}

function itemView(row: CutupItemRow): CutupItemView {
  return {
    itemId: row.id,
    playId: row.playId,
    rank: row.rank,
    angles: angles(row.angles),
    trims: row.trims ? (JSON.parse(row.trims) as CutupItemView['trims']) : {},
    note: row.note,
  };
}

function angles(text: string | null): Angle[] | null {
  return text === null || text === '' ? null : (text.split(',') as Angle[]);
}

function checkPlays(station: Station, playIds: readonly string[]): void {
  const there = new Set(loadPlaysById(station.library.db, playIds).map((p) => p.record.playId));
  if (playIds.some((id) => !there.has(id))) throw playUnknown();
}

function itemUnknown(): ProblemError {
  return new ProblemError({
    code: 'item-unknown',
    message: 'This clip is not in the cut-up any more.',
    kept: 'Nothing was changed.',
    next: 'Undo brings it back.',
  });
}

function unknown(station: Station, name: string | null): ProblemError {
  const names = listCutups(station.library).map((c) => c.name);
  return new ProblemError({
    code: 'cutup-unknown',
    message: name === null ? 'This cut-up is not in the library any more.' : `There is no cut-up ${name}.`,
    kept: 'Nothing was changed.',
    next: names.length ? `The library has ${names.join(', ')}.` : 'Make one from a question first.',
  });
}
