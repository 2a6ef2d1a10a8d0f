import type { Library } from '../library.ts';

export interface CutupRow {
  readonly id: string;
  readonly name: string;
  readonly note: string | null;
  readonly folder: string | null;
  readonly where: string | null;
  readonly angles: string | null;
  readonly items: number;
}

export interface CutupItemRow {
  readonly id: string;
  readonly playId: string;
  readonly rank: string;
  readonly angles: string | null;
  readonly trims: string | null;
  readonly note: string | null;
}

const CUTUP_SELECT = `SELECT u.id, u.name, u.note, u.folder, u.where_text AS "where", u.angles,
  (SELECT count(*) FROM cutup_items i JOIN plays p ON p.id = i.play_id AND p.removed = 0
    WHERE i.cutup_id = u.id AND i.removed = 0) AS items
  FROM cutups u WHERE u.removed = 0`;

export function listCutups(library: Library): CutupRow[] {
  return library.db
    .prepare(`${CUTUP_SELECT} ORDER BY u.folder, u.name COLLATE NOCASE, u.id`)
    .all() as CutupRow[];
}

export function findCutup(library: Library, cutupId: string): CutupRow | null {
  return (library.db.prepare(`${CUTUP_SELECT} AND u.id = ?`).get(cutupId) as CutupRow | undefined) ?? null;
}

export function findCutupByName(library: Library, name: string): CutupRow | null {
  const wanted = name.trim().toLowerCase();
  return listCutups(library).find((c) => c.name.trim().toLowerCase() === wanted) ?? null;
}

export function cutupItems(library: Library, cutupId: string): CutupItemRow[] {
  return library.db
    .prepare(
      `SELECT i.id, i.play_id AS playId, i.rank, i.angles, i.trims, i.note FROM cutup_items i
       JOIN plays p ON p.id = i.play_id AND p.removed = 0
       WHERE i.cutup_id = ? AND i.removed = 0 ORDER BY i.rank, i.id`,
    )
    .all(cutupId) as CutupItemRow[];
}

export function listQuestions(library: Library): { id: string; name: string; where: string }[] {
  return library.db
    .prepare(
      `SELECT id, name, where_text AS "where" FROM questions WHERE removed = 0 ORDER BY name COLLATE NOCASE, id`,
    )
    .all() as { id: string; name: string; where: string }[];
}
