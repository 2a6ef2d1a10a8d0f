/** Where a field's value stands in the tables, as an SQL expression over `plays p JOIN games g`. */

import { splitStep } from '../../football/question/neighbour.ts';
import { type FieldDefinition, PLAY_COLUMN_KEYS } from '../../football/vocabulary/fields.ts';
import {
  DEFAULT_SITUATION_LIMITS,
  type SituationLimits,
} from '../../football/vocabulary/situation-limits.ts';
import { snakeCase } from '../journal/entities.ts';
import { type Worked, workedSql } from './drives.ts';

export type SqlParam = string | number;

export interface FieldSql {
  readonly sql: string;
  readonly params: readonly SqlParam[];
}

const PLAY_COLUMNS: ReadonlyMap<string, string> = new Map(
  PLAY_COLUMN_KEYS.map((key) => [key, `"${snakeCase(key)}"`]),
);
const GAME_COLUMNS: ReadonlyMap<string, string> = new Map([
  ['game', 'g.title'],
  ['season', 'g.season'],
]);

/** Of two films the one that has the ball out sooner speaks for the play, as in `loadPlays`. */
const timeToThrow = (play: string) => `(SELECT CASE WHEN min(r.pts_micros - s.pts_micros) > 0
    THEN min(r.pts_micros - s.pts_micros) / 1000000.0 END
  FROM moments s JOIN moments r ON r.play_id = s.play_id AND r.film_id IS s.film_id AND r.kind = 'release' AND r.removed = 0
  WHERE s.play_id = ${play}.id AND s.kind = 'snap' AND s.removed = 0)`;

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

const WORKED: Readonly<Record<string, Worked>> = {
  drive: 'drive',
  drivePlay: 'drive_play',
  explosive: 'explosive',
  success: 'success',
};

/**
 * What is worked out stands in a table that `layOutDrives` fills.
 * @param play alias of the play's table
 * @throws Error for a field that has no place in the tables
 */
export function fieldSql(
  field: FieldDefinition,
  limits: SituationLimits = DEFAULT_SITUATION_LIMITS,
  play = 'p',
): FieldSql {
  const { step, key } = splitStep(field.key);
  if (step !== null) {
    const other = fieldSql({ ...field, key }, limits, 'q');
    const id = workedSql(step === 'previous' ? 'previous_id' : 'next_id', play);
    return { sql: `(SELECT ${other.sql} FROM plays q WHERE q.id = ${id})`, params: other.params };
  }
  const worked = WORKED[field.key];
  if (worked) return { sql: workedSql(worked, play), params: [] };
  if (field.home === 'derived') return derivedSql(field.key, limits, play);
  const column = PLAY_COLUMNS.get(field.key);
  if (field.home === 'play' && column) return { sql: `${play}.${column}`, params: [] };
  const gameColumn = GAME_COLUMNS.get(field.key);
  if (field.home === 'game' && gameColumn) return { sql: gameColumn, params: [] };
  if (field.home !== 'tag') throw new Error(`The tables have no column of ${field.key}.`);
  const { value, joins } = tagValue(field);
  return {
    sql: `(SELECT ${value} FROM tags x ${joins} WHERE x.play_id = ${play}.id AND x.field = ? AND x.removed = 0)`,
    params: [field.key],
  };
}

function derivedSql(key: string, limits: SituationLimits, play: string): FieldSql {
  const plain = (sql: string, params: readonly SqlParam[] = []): FieldSql => ({ sql, params });
  const quarter = `${play}.quarter`;
  switch (key) {
    case 'timeToThrow':
      return plain(timeToThrow(play));
    case 'margin':
      return plain(`(${play}.score_for - ${play}.score_against)`);
    case 'half':
      return plain(`CASE WHEN ${quarter} <= 2 THEN 1 WHEN ${quarter} <= 4 THEN 2 ELSE ${quarter} END`);
    case 'twoMinutes':
      return plain(
        `CASE WHEN ${quarter} IN (2, 4) THEN ${play}.clock <= ? WHEN ${quarter} IS NOT NULL THEN 0 END`,
        [limits.twoMinuteSeconds],
      );
    case 'toGo':
      return plain(
        `CASE WHEN ${play}.distance <= ? THEN 'short' WHEN ${play}.distance <= ? THEN 'medium'
          WHEN ${play}.distance IS NOT NULL THEN 'long' END`,
        [limits.shortTo, limits.mediumTo],
      );
    case 'zone': {
      const spot = `${play}.yards_to_goal`;
      return plain(
        `CASE WHEN ${spot} >= ? THEN 'backed up' WHEN ${spot} > ? THEN 'own territory' WHEN ${spot} > ? THEN 'midfield'
          WHEN ${spot} > ? THEN 'fringe' WHEN ${spot} > ? THEN 'red zone' WHEN ${spot} IS NOT NULL THEN 'goal line' END`,
        [
          limits.backedUpFrom,
          limits.midfieldFrom,
          limits.fringeFrom,
          limits.redZoneFrom,
          limits.goalLineFrom,
        ],
      );
    }
    default:
      throw new Error(`The tables have no column of ${key}.`);
  }
}
