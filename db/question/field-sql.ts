/** Where a field's value stands in the tables, as an SQL expression over `plays p JOIN games g`. */

import { type FieldDefinition, PLAY_COLUMN_KEYS } from '../../football/vocabulary/fields.ts';
import { snakeCase } from '../journal/entities.ts';
import { DRIVE_SQL } from './drives.ts';

export type SqlParam = string | number;

export interface FieldSql {
  readonly sql: string;
  readonly params: readonly SqlParam[];
}

const PLAY_COLUMNS: ReadonlyMap<string, string> = new Map(
  PLAY_COLUMN_KEYS.map((key) => [key, `p."${snakeCase(key)}"`]),
);
const GAME_COLUMNS: ReadonlyMap<string, string> = new Map([
  ['game', 'g.title'],
  ['season', 'g.season'],
]);

/** Of two films the one that has the ball out sooner speaks for the play, as in `loadPlays`. */
const TIME_TO_THROW = `(SELECT CASE WHEN min(r.pts_micros - s.pts_micros) > 0
    THEN min(r.pts_micros - s.pts_micros) / 1000000.0 END
  FROM moments s JOIN moments r ON r.play_id = s.play_id AND r.film_id IS s.film_id AND r.kind = 'release' AND r.removed = 0
  WHERE s.play_id = p.id AND s.kind = 'snap' AND s.removed = 0)`;

const PLAYER_LABEL = `coalesce(
    CASE WHEN w.number IS NULL THEN w.name WHEN coalesce(w.name, '') = '' THEN '#' || w.number ELSE '#' || w.number || ' ' || w.name END,
    '#' || CAST(x.number AS INTEGER), x.text)`;

function tagValue(field: FieldDefinition): { value: string; joins: string } {
  switch (field.kind) {
    case 'term':
      return { value: 'm.name', joins: 'JOIN terms m ON m.id = x.term_id' };
    case 'player':
      return { value: PLAYER_LABEL, joins: 'LEFT JOIN players w ON w.id = x.player_id' };
    case 'text':
      return { value: 'x.text', joins: '' };
    default:
      return { value: 'x.number', joins: '' };
  }
}

/** A drive stands in a table that `layOutDrives` fills. @throws Error for a field that has no place in the tables */
export function fieldSql(field: FieldDefinition): FieldSql {
  if (field.key === 'drive') return { sql: DRIVE_SQL, params: [] };
  const column =
    field.home === 'play'
      ? PLAY_COLUMNS.get(field.key)
      : field.home === 'game'
        ? GAME_COLUMNS.get(field.key)
        : undefined;
  if (column) return { sql: column, params: [] };
  if (field.home === 'derived' && field.key === 'timeToThrow') return { sql: TIME_TO_THROW, params: [] };
  if (field.home !== 'tag') throw new Error(`The tables have no column of ${field.key}.`);
  const { value, joins } = tagValue(field);
  return {
    sql: `(SELECT ${value} FROM tags x ${joins} WHERE x.play_id = p.id AND x.field = ? AND x.removed = 0)`,
    params: [field.key],
  };
}
