import type { Database } from 'better-sqlite3';
import type { MomentKind, PlayRecord } from '../../football/play.ts';
import { BUILT_IN_FIELDS, PLAY_COLUMN_KEYS } from '../../football/vocabulary/fields.ts';
import { PREDICTED_SNAP, snakeCase } from '../journal/entities.ts';

/** A play record and which of its fields hold predictions that a person passed over. */
export interface StoredPlay {
  readonly record: PlayRecord;
  readonly predicted: readonly string[];
}

const FLAG_KEYS = new Set(
  BUILT_IN_FIELDS.filter((f) => f.home === 'play' && f.kind === 'flag').map((f) => f.key),
);

const PLAY_SELECT = `SELECT p.id AS playId, p.game_id AS gameId, p.predicted AS predicted, ${PLAY_COLUMN_KEYS.map(
  (k) => `p.${snakeCase(k)} AS "${k}"`,
).join(', ')} FROM plays p JOIN games g ON g.id = p.game_id AND g.removed = 0 WHERE p.removed = 0`;

const PLAY_ORDER = 'ORDER BY g.season, g.date, g.id, p.play_number, p.id';

interface TagRow {
  playId: string;
  field: string;
  term: string | null;
  number: number | null;
  text: string | null;
  player: string | null;
}

const TAG_SELECT = `SELECT t.play_id AS playId, t.field AS field, m.name AS term, t.number AS number, t.text AS text,
  CASE WHEN w.number IS NULL THEN w.name WHEN coalesce(w.name, '') = '' THEN '#' || w.number ELSE '#' || w.number || ' ' || w.name END AS player
  FROM tags t LEFT JOIN terms m ON m.id = t.term_id LEFT JOIN players w ON w.id = t.player_id
  WHERE t.removed = 0`;

/** All plays of a library, or of one game, in order of games and play numbers. */
export function loadPlays(db: Database, gameId?: string): StoredPlay[] {
  const only = gameId === undefined ? '' : 'AND p.game_id = ?';
  const args = gameId === undefined ? [] : [gameId];
  const rows = db.prepare(`${PLAY_SELECT} ${only} ${PLAY_ORDER}`).all(...args) as Record<string, unknown>[];
  const inGame = gameId === undefined ? '' : 'AND t.play_id IN (SELECT id FROM plays WHERE game_id = ?)';
  const tags = gather(db.prepare(`${TAG_SELECT} ${inGame}`).iterate(...args) as IterableIterator<TagRow>);
  const moments = loadMoments(db, inGame, args);
  return rows.map((row) => toStored(row, tags, moments));
}

/** Some plays by id; ids that are not there, or removed, are left out. */
export function loadPlaysById(db: Database, playIds: readonly string[]): StoredPlay[] {
  const ids = JSON.stringify(playIds);
  const rows = db
    .prepare(`${PLAY_SELECT} AND p.id IN (SELECT value FROM json_each(?)) ${PLAY_ORDER}`)
    .all(ids) as Record<string, unknown>[];
  const among = 'AND t.play_id IN (SELECT value FROM json_each(?))';
  const tags = gather(db.prepare(`${TAG_SELECT} ${among}`).iterate(ids) as IterableIterator<TagRow>);
  const moments = loadMoments(db, among, [ids]);
  return rows.map((row) => toStored(row, tags, moments));
}

type Moments = Map<string, Map<string, Partial<Record<MomentKind, number>>>>;

/** Per play and film, because moments of two films stand on two clocks. */
function loadMoments(db: Database, only: string, args: readonly unknown[]): Moments {
  const found: Moments = new Map();
  const rows = db
    .prepare(
      `SELECT t.play_id AS playId, t.film_id AS filmId, t.kind AS kind, t.pts_micros AS ptsMicros FROM moments t WHERE t.removed = 0 AND t.kind <> '${PREDICTED_SNAP}' ${only}`,
    )
    .iterate(...args) as IterableIterator<{
    playId: string;
    filmId: string;
    kind: MomentKind;
    ptsMicros: number;
  }>;
  for (const row of rows) {
    const films = found.get(row.playId) ?? new Map<string, Partial<Record<MomentKind, number>>>();
    const seconds = films.get(row.filmId) ?? {};
    seconds[row.kind] = row.ptsMicros / 1e6;
    films.set(row.filmId, seconds);
    found.set(row.playId, films);
  }
  return found;
}

function gather(rows: IterableIterator<TagRow>): Map<string, Record<string, string | number>> {
  const tags = new Map<string, Record<string, string | number>>();
  for (const row of rows) {
    const value = row.term ?? row.player ?? row.number ?? row.text;
    if (value === null) continue;
    const record = tags.get(row.playId) ?? {};
    record[row.field] = value;
    tags.set(row.playId, record);
  }
  return tags;
}

function toStored(
  row: Record<string, unknown>,
  tags: Map<string, Record<string, string | number>>,
  moments: Moments,
): StoredPlay {
  const { predicted, ...columns } = row as { predicted: string } & Record<string, unknown>;
  for (const key of FLAG_KEYS) {
    const flag = columns[key];
    columns[key] = flag === null ? null : flag === 1;
  }
  const playId = columns.playId as string;
  const films = moments.get(playId);
  return {
    record: {
      ...columns,
      tags: tags.get(playId) ?? {},
      moments: films ? fullest(films) : {},
    } as unknown as PlayRecord,
    predicted: predicted ? predicted.split(',') : [],
  };
}

/**
 * Seconds of two films are never mixed. The film that gives a time to throw speaks for the play (the
 * shortest, where several do), else the film with the most moments.
 */
function fullest(
  films: Map<string, Partial<Record<MomentKind, number>>>,
): Partial<Record<MomentKind, number>> {
  const order = [...films.values()].sort(
    (a, b) => secondsToThrow(a) - secondsToThrow(b) || Object.keys(b).length - Object.keys(a).length,
  );
  return order[0] ?? {};
}

function secondsToThrow({ snap, release }: Partial<Record<MomentKind, number>>): number {
  return snap === undefined || release === undefined ? Number.MAX_VALUE : release - snap;
}
