/** A library of random plays for tests of questions: every field filled or missing, spellings and families mixed. */

import SqliteDatabase, { type Database } from 'better-sqlite3';
import { RowWriter } from '../../../db/journal/apply.ts';
import { momentId, tagId } from '../../../db/journal/entities.ts';
import { MIGRATIONS } from '../../../db/migrations/index.ts';
import { firstPlaybook } from '../../../db/playbook/first-playbook.ts';
import { BUILT_IN_FIELDS, type FieldDefinition } from '../../../football/vocabulary/fields.ts';
import { DERIVED_TERMS } from '../../../football/vocabulary/situation-limits.ts';
import { BUILT_IN_TERMS, termId } from '../../../football/vocabulary/terms.ts';

export const FIELDS: readonly FieldDefinition[] = [
  ...BUILT_IN_FIELDS,
  { key: 'callSheet', label: 'Call sheet', kind: 'text', home: 'tag', group: 'calls', help: '' },
  { key: 'disguised', label: 'Disguised', kind: 'flag', home: 'tag', group: 'calls', help: '' },
  { key: "coach's grade", label: 'Grade', kind: 'number', home: 'tag', group: 'notes', help: '' },
];

/** A small generator of numbers from 0 to 1 that gives the same row for the same seed (mulberry32). */
export function numbersFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

export const NOTES = [
  '',
  'wide open',
  'Wide OPEN late',
  '50% effort',
  '50 yards',
  'a_b',
  'a\\b',
  "coach's call",
  'Ünruhe',
  'ünruhe',
];
export const TEAMS = ['Harlow Ridge Herons', 'Port Ansel Mariners', 'Quill River Stags'];
export const PLAYERS = [
  { id: 'p-84', number: 84, name: 'Ira Novak' },
  { id: 'p-8', number: 8, name: 'Tobias Reyes' },
  { id: 'p-84b', number: 84, name: 'Cal Whitfield' },
  { id: 'p-2', number: 2, name: '' },
  { id: 'p-none', number: null, name: 'Ira Novak' },
];
/** Values that the random plays have in number fields, so that questions meet them. */
export const NUMBERS = [-7, -1, 0, 1, 2, 2.5, 3, 4, 7, 10, 65];

type Random = () => number;
const pick = <T>(random: Random, list: readonly T[]): T => list[Math.floor(random() * list.length)]!;

export function termsOf(field: string): string[] {
  return field === 'possession'
    ? TEAMS
    : [...BUILT_IN_TERMS, ...DERIVED_TERMS].filter((term) => term.field === field).map((term) => term.name);
}

function columnValue(field: FieldDefinition, random: Random): string | number | null {
  if (random() < 0.25) return null;
  switch (field.kind) {
    case 'term': {
      const name = pick(random, termsOf(field.key));
      return random() < 0.1 ? name.toUpperCase() : random() < 0.05 ? 'unheard of' : name;
    }
    case 'text':
      return pick(random, NOTES);
    case 'flag':
      return random() < 0.5 ? 1 : 0;
    case 'clock':
      return Math.floor(random() * 10) * 90;
    default:
      return pick(random, NUMBERS);
  }
}

/** The eight parts of a tag's value, see db/journal/entities.ts. */
function tagParts(field: FieldDefinition, random: Random): (string | number | null)[] | null {
  if (random() < 0.3) return null;
  const [none, rest] = [null, [null, null, null, null]];
  switch (field.kind) {
    case 'term':
      return [termId(field.key, pick(random, termsOf(field.key))), none, none, none, ...rest];
    case 'player':
      if (random() < 0.15) return [none, 84, none, none, ...rest];
      if (random() < 0.1) return [none, none, 'Novak', none, ...rest];
      return [none, none, none, pick(random, PLAYERS).id, ...rest];
    case 'text':
      return [none, none, pick(random, NOTES), none, ...rest];
    case 'flag':
      return [none, random() < 0.5 ? 1 : 0, none, none, ...rest];
    default:
      return [none, pick(random, NUMBERS), none, none, ...rest];
  }
}

export function inventedLibrary(plays: number, seed: number): Database {
  const db = new SqliteDatabase(':memory:');
  db.pragma('foreign_keys = ON');
  for (const migration of MIGRATIONS) db.exec(migration.sql);
  const random = numbersFrom(seed);
  const writer = new RowWriter(db);
  const write = (entity: string, entityId: string, field: string, value: unknown) =>
    writer.write({ entity, entityId, field, value: value as never, origin: 'entered' });
  for (const change of firstPlaybook()) write(change.entity, change.id, change.field, change.value);
  for (const player of PLAYERS) {
    write('player', player.id, 'number', player.number);
    write('player', player.id, 'name', player.name);
  }
  const games = [
    ['g2', 'Herons v Mariners', 2025, '2025-09-06'],
    ['g1', 'Herons v Stags', 2025, '2025-09-13'],
    ['g3', 'herons v foxes', 2024, null],
    ['g4', 'A game taken out', 2025, '2025-09-20'],
  ] as const;
  for (const [id, title, season, date] of games) {
    for (const [field, value] of Object.entries({ title, season, date, removed: id === 'g4' ? 1 : 0 })) {
      write('game', id, field, value);
    }
  }
  for (const film of ['sideline', 'endzone']) write('film', film, 'name', film);
  for (let i = 0; i < plays; i++)
    writePlay(`play-${String((i * 7919) % plays).padStart(5, '0')}`, random, write);
  return db;
}

type Write = (entity: string, entityId: string, field: string, value: unknown) => void;

function writePlay(id: string, random: Random, write: Write): void {
  write('play', id, 'gameId', pick(random, ['g1', 'g2', 'g3', 'g4']));
  write('play', id, 'removed', random() < 0.05 ? 1 : 0);
  for (const field of FIELDS) {
    if (field.home === 'play') write('play', id, field.key, columnValue(field, random));
    const parts = field.home === 'tag' ? tagParts(field, random) : null;
    if (!parts) continue;
    write('tag', tagId(id, field.key), 'value', parts);
    if (random() < 0.05) write('tag', tagId(id, field.key), 'removed', 1);
  }
  for (const film of ['sideline', 'endzone']) {
    const snap = 2_000_000 + Math.floor(random() * 10) * 33_367;
    if (random() < 0.7) write('moment', momentId(id, film, 'snap'), 'at', [60, snap]);
    if (random() < 0.7) {
      const seconds = pick(random, [2_500_000, 2_166_166, 3_000_000, 900_900, -500_000]);
      write('moment', momentId(id, film, 'release'), 'at', [120, snap + seconds]);
    }
  }
}
