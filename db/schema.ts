import { index, integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';

/**
 * The library's tables as drizzle sees them. The migrations make them; a test holds the two together.
 * Rows of the shared tables are written by the journal alone (`db/journal`); `local`, `filmPlaces` and
 * `jobs` belong to this station and never travel.
 */

const removed = integer('removed').notNull().default(0);

export const games = sqliteTable('games', {
  id: text('id').primaryKey(),
  title: text('title'),
  season: integer('season'),
  week: integer('week'),
  date: text('date'),
  opponent: text('opponent'),
  site: text('site'),
  level: text('level'),
  removed,
});

export const plays = sqliteTable(
  'plays',
  {
    id: text('id').primaryKey(),
    gameId: text('game_id').references(() => games.id),
    playNumber: integer('play_number'),
    drive: integer('drive'),
    quarter: integer('quarter'),
    clock: integer('clock'),
    possession: text('possession'),
    down: integer('down'),
    distance: real('distance'),
    yardsToGoal: real('yards_to_goal'),
    hash: text('hash'),
    scoreFor: integer('score_for'),
    scoreAgainst: integer('score_against'),
    playKind: text('play_kind'),
    result: text('result'),
    gain: real('gain'),
    airYards: real('air_yards'),
    yardsAfterCatch: real('yards_after_catch'),
    firstDown: integer('first_down'),
    touchdown: integer('touchdown'),
    turnover: integer('turnover'),
    safety: integer('safety'),
    fumble: text('fumble'),
    kickYards: real('kick_yards'),
    returnYards: real('return_yards'),
    penalty: text('penalty'),
    penaltyOn: text('penalty_on'),
    penaltyYards: real('penalty_yards'),
    penaltyOutcome: text('penalty_outcome'),
    note: text('note'),
    /** keys of the fields whose value was predicted and passed over, sorted, comma between */
    predicted: text('predicted').notNull().default(''),
    removed,
  },
  (t) => [index('plays_by_game').on(t.gameId, t.playNumber)],
);

export const films = sqliteTable('films', {
  id: text('id').primaryKey(),
  gameId: text('game_id').references(() => games.id),
  name: text('name'),
  angle: text('angle'),
  frames: integer('frames'),
  fps: real('fps'),
  seconds: real('seconds'),
  width: integer('width'),
  height: integer('height'),
  codec: text('codec'),
  removed,
});

export const clips = sqliteTable(
  'clips',
  {
    id: text('id').primaryKey(),
    playId: text('play_id').references(() => plays.id),
    filmId: text('film_id').references(() => films.id),
    angle: text('angle'),
    /** first frame of the clip */
    inFrame: integer('in_frame'),
    /** first frame after the clip */
    outFrame: integer('out_frame'),
    removed,
    /** a frame of this clip and the frame of another film at the same instant, set by hand */
    lockFrame: integer('lock_frame'),
    lockFilmId: text('lock_film_id'),
    lockFilmFrame: integer('lock_film_frame'),
  },
  (t) => [index('clips_by_play').on(t.playId), index('clips_by_film').on(t.filmId)],
);

export const moments = sqliteTable(
  'moments',
  {
    id: text('id').primaryKey(),
    playId: text('play_id')
      .notNull()
      .references(() => plays.id),
    kind: text('kind').notNull(),
    filmId: text('film_id').references(() => films.id),
    frame: integer('frame'),
    ptsMicros: integer('pts_micros'),
    removed,
  },
  (t) => [index('moments_by_play').on(t.playId)],
);

export const tags = sqliteTable(
  'tags',
  {
    id: text('id').primaryKey(),
    playId: text('play_id')
      .notNull()
      .references(() => plays.id),
    field: text('field').notNull(),
    termId: text('term_id').references(() => terms.id),
    number: real('number'),
    text: text('text'),
    playerId: text('player_id').references(() => players.id),
    /** where the film stood when the tag was given */
    filmId: text('film_id').references(() => films.id),
    filmFrame: integer('film_frame'),
    person: text('person'),
    /** when it was given, ISO 8601 in UTC */
    at: text('at'),
    removed,
  },
  (t) => [index('tags_by_play').on(t.playId), index('tags_by_term').on(t.termId)],
);

export const fields = sqliteTable('fields', {
  id: text('id').primaryKey(),
  label: text('label'),
  kind: text('kind'),
  group: text('group'),
  help: text('help'),
  unit: text('unit'),
  removed,
});

export const terms = sqliteTable(
  'terms',
  {
    id: text('id').primaryKey(),
    field: text('field'),
    name: text('name'),
    parentId: text('parent_id'),
    /** JSON array of strings */
    aliases: text('aliases'),
    removed,
  },
  (t) => [index('terms_by_field').on(t.field)],
);

export const players = sqliteTable('players', {
  id: text('id').primaryKey(),
  number: integer('number'),
  name: text('name'),
  position: text('position'),
  team: text('team'),
  removed,
});

export const readRules = sqliteTable('read_rules', {
  id: text('id').primaryKey(),
  concept: text('concept'),
  keyDefender: text('key_defender'),
  whenKey: text('when_key'),
  goTo: text('go_to'),
  note: text('note'),
  rank: text('rank'),
  removed,
});

export const questions = sqliteTable('questions', {
  id: text('id').primaryKey(),
  name: text('name'),
  where: text('where_text'),
  removed,
});

export const cutups = sqliteTable('cutups', {
  id: text('id').primaryKey(),
  name: text('name'),
  note: text('note'),
  folder: text('folder'),
  /** the question that the cut-up was made from */
  where: text('where_text'),
  /** angles in the order in which they are shown, comma between */
  angles: text('angles'),
  removed,
});

export const cutupItems = sqliteTable(
  'cutup_items',
  {
    id: text('id').primaryKey(),
    cutupId: text('cutup_id').references(() => cutups.id),
    playId: text('play_id').references(() => plays.id),
    /** fractional index: items sort by it as text */
    rank: text('rank'),
    /** angles of this item alone, comma between; null takes the cut-up's */
    angles: text('angles'),
    /** JSON: {angle: [inFrame, outFrame]} where the item is trimmed */
    trims: text('trims'),
    note: text('note'),
    removed,
  },
  (t) => [index('cutup_items_by_cutup').on(t.cutupId)],
);

export const settings = sqliteTable('settings', {
  id: text('id').primaryKey(),
  /** JSON */
  value: text('value'),
  removed,
});

export const people = sqliteTable('people', {
  id: text('id').primaryKey(),
  name: text('name'),
  removed,
});

export const stations = sqliteTable('stations', {
  id: text('id').primaryKey(),
  name: text('name'),
  removed,
});

export const edits = sqliteTable(
  'edits',
  {
    /** hybrid logical clock; sorts as text in the order of the edits */
    stamp: text('stamp').primaryKey(),
    person: text('person').notNull(),
    gesture: text('gesture').notNull(),
    /** what the gesture was, in words: shown by undo */
    label: text('label').notNull(),
    /** the gesture that this one takes back */
    undoes: text('undoes'),
    /** entered | predicted | imported | made */
    origin: text('origin').notNull(),
    entity: text('entity').notNull(),
    entityId: text('entity_id').notNull(),
    field: text('field').notNull(),
    /** JSON */
    value: text('value').notNull(),
    prior: text('prior').notNull(),
    filmId: text('film_id'),
    filmFrame: integer('film_frame'),
  },
  (t) => [index('edits_by_field').on(t.entity, t.entityId, t.field), index('edits_by_gesture').on(t.gesture)],
);

export const local = sqliteTable('local', { key: text('key').primaryKey(), value: text('value').notNull() });

export const filmPlaces = sqliteTable(
  'film_places',
  {
    filmId: text('film_id').notNull(),
    path: text('path').notNull(),
    bytes: integer('bytes').notNull(),
    modifiedMs: real('modified_ms').notNull(),
  },
  (t) => [primaryKey({ columns: [t.filmId, t.path] })],
);

export const jobs = sqliteTable('jobs', {
  id: text('id').primaryKey(),
  kind: text('kind').notNull(),
  label: text('label').notNull(),
  /** waiting | running | done | failed | cancelled */
  state: text('state').notNull(),
  progress: real('progress').notNull().default(0),
  /** JSON */
  input: text('input').notNull(),
  /** JSON */
  report: text('report'),
  problem: text('problem'),
  at: text('at').notNull(),
});
