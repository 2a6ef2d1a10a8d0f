import { PLAY_COLUMN_KEYS } from '../../football/vocabulary/fields.ts';

/**
 * What the journal may change: per entity its table, and per field of the entity the columns it
 * writes. A field of several columns is one coupled value (a JSON array in the same order).
 */
export interface EntityDefinition {
  readonly table: string;
  readonly fields: Readonly<Record<string, readonly string[]>>;
  /** columns that follow from the id itself, written when the row is first made */
  readonly fromId?: (id: string) => Readonly<Record<string, string>>;
}

export function snakeCase(key: string): string {
  return key.replace(/[A-Z]/g, (c) => `_${c.toLowerCase()}`);
}

function columns(...keys: string[]): Record<string, readonly string[]> {
  return Object.fromEntries(keys.map((k) => [k, [snakeCase(k)]]));
}

/**
 * The ids of tags (`<play>/<field>`) and moments (`<play>/<film>/<kind>`) say what they are about, so
 * that two stations that tag the same thing mean the same row.
 */
export function tagId(playId: string, fieldKey: string): string {
  return `${playId}/${fieldKey}`;
}

export function momentId(playId: string, filmId: string, kind: string): string {
  return `${playId}/${filmId}/${kind}`;
}

/**
 * A moment of this kind is where the picture says the snap is. It is kept apart from the moment that a person stamps, so
 * that nothing is counted from a prediction.
 */
export const PREDICTED_SNAP = 'snapPredicted';

const removed = columns('removed');

export const ENTITIES = {
  game: {
    table: 'games',
    fields: { ...columns('title', 'season', 'week', 'date', 'opponent', 'site', 'level'), ...removed },
  },
  play: { table: 'plays', fields: { ...columns('gameId', ...PLAY_COLUMN_KEYS), ...removed } },
  film: {
    table: 'films',
    fields: {
      ...columns('gameId', 'name', 'angle'),
      media: ['frames', 'fps', 'seconds', 'width', 'height', 'codec'],
      ...removed,
    },
  },
  clip: {
    table: 'clips',
    fields: {
      ...columns('playId', 'filmId', 'angle'),
      range: ['in_frame', 'out_frame'],
      lock: ['lock_frame', 'lock_film_id', 'lock_film_frame'],
      ...removed,
    },
  },
  moment: {
    table: 'moments',
    fields: { at: ['frame', 'pts_micros'], ...removed },
    fromId: (id: string) => {
      const [play_id = '', film_id = '', kind = ''] = id.split('/');
      return { play_id, film_id, kind };
    },
  },
  tag: {
    table: 'tags',
    fields: {
      value: ['term_id', 'number', 'text', 'player_id', 'film_id', 'film_frame', 'person', 'at'],
      ...removed,
    },
    fromId: (id: string) => {
      const slash = id.indexOf('/');
      return { play_id: id.slice(0, slash), field: id.slice(slash + 1) };
    },
  },
  field: { table: 'fields', fields: { ...columns('label', 'kind', 'group', 'help', 'unit'), ...removed } },
  term: { table: 'terms', fields: { ...columns('field', 'name', 'parentId', 'aliases'), ...removed } },
  player: { table: 'players', fields: { ...columns('number', 'name', 'position', 'team'), ...removed } },
  readRule: {
    table: 'read_rules',
    fields: { ...columns('concept', 'keyDefender', 'whenKey', 'goTo', 'note', 'rank'), ...removed },
  },
  question: { table: 'questions', fields: { ...columns('name'), where: ['where_text'], ...removed } },
  cutup: {
    table: 'cutups',
    fields: { ...columns('name', 'note', 'folder', 'angles'), where: ['where_text'], ...removed },
  },
  cutupItem: {
    table: 'cutup_items',
    fields: { ...columns('cutupId', 'playId', 'rank', 'angles', 'trims', 'note'), ...removed },
  },
  setting: { table: 'settings', fields: { ...columns('value'), ...removed } },
  person: { table: 'people', fields: { ...columns('name'), ...removed } },
  station: { table: 'stations', fields: { ...columns('name'), ...removed } },
} as const satisfies Record<string, EntityDefinition>;

export type EntityName = keyof typeof ENTITIES;

export function entity(name: string): EntityDefinition {
  if (!Object.hasOwn(ENTITIES, name)) throw new Error(`The journal knows no entity ${name}.`);
  return ENTITIES[name as EntityName];
}

/** Tables that can be rebuilt from the journal, children first. */
export const JOURNALED_TABLES: readonly string[] = [
  'cutup_items',
  'cutups',
  'tags',
  'moments',
  'clips',
  'plays',
  'films',
  'games',
  'terms',
  'fields',
  'players',
  'read_rules',
  'questions',
  'settings',
  'people',
  'stations',
];
