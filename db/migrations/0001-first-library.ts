import type { Migration } from './migration.ts';

/** Foreign keys are checked at commit, because one gesture may add a play and its tags in any order. */
export const firstLibrary: Migration = {
  version: 1,
  name: 'first library',
  sql: `
CREATE TABLE "clips" (
  "id" text PRIMARY KEY NOT NULL,
  "play_id" text,
  "film_id" text,
  "angle" text,
  "in_frame" integer,
  "out_frame" integer,
  "removed" integer DEFAULT 0 NOT NULL,
  FOREIGN KEY ("play_id") REFERENCES "plays"("id") DEFERRABLE INITIALLY DEFERRED,
  FOREIGN KEY ("film_id") REFERENCES "films"("id") DEFERRABLE INITIALLY DEFERRED
);
CREATE INDEX "clips_by_play" ON "clips" ("play_id");CREATE INDEX "clips_by_film" ON "clips" ("film_id");CREATE TABLE "cutup_items" (
  "id" text PRIMARY KEY NOT NULL,
  "cutup_id" text,
  "play_id" text,
  "rank" text,
  "angles" text,
  "trims" text,
  "note" text,
  "removed" integer DEFAULT 0 NOT NULL,
  FOREIGN KEY ("cutup_id") REFERENCES "cutups"("id") DEFERRABLE INITIALLY DEFERRED,
  FOREIGN KEY ("play_id") REFERENCES "plays"("id") DEFERRABLE INITIALLY DEFERRED
);
CREATE INDEX "cutup_items_by_cutup" ON "cutup_items" ("cutup_id");CREATE TABLE "cutups" (
  "id" text PRIMARY KEY NOT NULL,
  "name" text,
  "note" text,
  "folder" text,
  "where_text" text,
  "angles" text,
  "removed" integer DEFAULT 0 NOT NULL
);
CREATE TABLE "edits" (
  "stamp" text PRIMARY KEY NOT NULL,
  "person" text NOT NULL,
  "gesture" text NOT NULL,
  "label" text NOT NULL,
  "undoes" text,
  "origin" text NOT NULL,
  "entity" text NOT NULL,
  "entity_id" text NOT NULL,
  "field" text NOT NULL,
  "value" text NOT NULL,
  "prior" text NOT NULL,
  "film_id" text,
  "film_frame" integer
);
CREATE INDEX "edits_by_field" ON "edits" ("entity","entity_id","field");CREATE INDEX "edits_by_gesture" ON "edits" ("gesture");CREATE TABLE "fields" (
  "id" text PRIMARY KEY NOT NULL,
  "label" text,
  "kind" text,
  "group" text,
  "help" text,
  "unit" text,
  "removed" integer DEFAULT 0 NOT NULL
);
CREATE TABLE "film_places" (
  "film_id" text NOT NULL,
  "path" text NOT NULL,
  "bytes" integer NOT NULL,
  "modified_ms" real NOT NULL,
  PRIMARY KEY("film_id", "path")
);
CREATE TABLE "films" (
  "id" text PRIMARY KEY NOT NULL,
  "game_id" text,
  "name" text,
  "angle" text,
  "frames" integer,
  "fps" real,
  "seconds" real,
  "width" integer,
  "height" integer,
  "codec" text,
  "removed" integer DEFAULT 0 NOT NULL,
  FOREIGN KEY ("game_id") REFERENCES "games"("id") DEFERRABLE INITIALLY DEFERRED
);
CREATE TABLE "games" (
  "id" text PRIMARY KEY NOT NULL,
  "title" text,
  "season" integer,
  "week" integer,
  "date" text,
  "opponent" text,
  "site" text,
  "level" text,
  "removed" integer DEFAULT 0 NOT NULL
);
CREATE TABLE "jobs" (
  "id" text PRIMARY KEY NOT NULL,
  "kind" text NOT NULL,
  "label" text NOT NULL,
  "state" text NOT NULL,
  "progress" real DEFAULT 0 NOT NULL,
  "input" text NOT NULL,
  "report" text,
  "problem" text,
  "at" text NOT NULL
);
CREATE TABLE "local" (
  "key" text PRIMARY KEY NOT NULL,
  "value" text NOT NULL
);
CREATE TABLE "moments" (
  "id" text PRIMARY KEY NOT NULL,
  "play_id" text NOT NULL,
  "kind" text NOT NULL,
  "film_id" text,
  "frame" integer,
  "pts_micros" integer,
  "removed" integer DEFAULT 0 NOT NULL,
  FOREIGN KEY ("play_id") REFERENCES "plays"("id") DEFERRABLE INITIALLY DEFERRED,
  FOREIGN KEY ("film_id") REFERENCES "films"("id") DEFERRABLE INITIALLY DEFERRED
);
CREATE INDEX "moments_by_play" ON "moments" ("play_id");CREATE TABLE "people" (
  "id" text PRIMARY KEY NOT NULL,
  "name" text,
  "removed" integer DEFAULT 0 NOT NULL
);
CREATE TABLE "players" (
  "id" text PRIMARY KEY NOT NULL,
  "number" integer,
  "name" text,
  "position" text,
  "team" text,
  "removed" integer DEFAULT 0 NOT NULL
);
CREATE TABLE "plays" (
  "id" text PRIMARY KEY NOT NULL,
  "game_id" text,
  "play_number" integer,
  "drive" integer,
  "quarter" integer,
  "clock" integer,
  "possession" text,
  "down" integer,
  "distance" real,
  "yards_to_goal" real,
  "hash" text,
  "score_for" integer,
  "score_against" integer,
  "play_kind" text,
  "result" text,
  "gain" real,
  "air_yards" real,
  "yards_after_catch" real,
  "first_down" integer,
  "touchdown" integer,
  "turnover" integer,
  "safety" integer,
  "fumble" text,
  "kick_yards" real,
  "return_yards" real,
  "penalty" text,
  "penalty_on" text,
  "penalty_yards" real,
  "penalty_outcome" text,
  "note" text,
  "predicted" text DEFAULT '' NOT NULL,
  "removed" integer DEFAULT 0 NOT NULL,
  FOREIGN KEY ("game_id") REFERENCES "games"("id") DEFERRABLE INITIALLY DEFERRED
);
CREATE INDEX "plays_by_game" ON "plays" ("game_id","play_number");CREATE TABLE "questions" (
  "id" text PRIMARY KEY NOT NULL,
  "name" text,
  "where_text" text,
  "removed" integer DEFAULT 0 NOT NULL
);
CREATE TABLE "read_rules" (
  "id" text PRIMARY KEY NOT NULL,
  "concept" text,
  "key_defender" text,
  "when_key" text,
  "go_to" text,
  "note" text,
  "rank" text,
  "removed" integer DEFAULT 0 NOT NULL
);
CREATE TABLE "settings" (
  "id" text PRIMARY KEY NOT NULL,
  "value" text,
  "removed" integer DEFAULT 0 NOT NULL
);
CREATE TABLE "stations" (
  "id" text PRIMARY KEY NOT NULL,
  "name" text,
  "removed" integer DEFAULT 0 NOT NULL
);
CREATE TABLE "tags" (
  "id" text PRIMARY KEY NOT NULL,
  "play_id" text NOT NULL,
  "field" text NOT NULL,
  "term_id" text,
  "number" real,
  "text" text,
  "player_id" text,
  "film_id" text,
  "film_frame" integer,
  "person" text,
  "at" text,
  "removed" integer DEFAULT 0 NOT NULL,
  FOREIGN KEY ("play_id") REFERENCES "plays"("id") DEFERRABLE INITIALLY DEFERRED,
  FOREIGN KEY ("term_id") REFERENCES "terms"("id") DEFERRABLE INITIALLY DEFERRED,
  FOREIGN KEY ("player_id") REFERENCES "players"("id") DEFERRABLE INITIALLY DEFERRED,
  FOREIGN KEY ("film_id") REFERENCES "films"("id") DEFERRABLE INITIALLY DEFERRED
);
CREATE INDEX "tags_by_play" ON "tags" ("play_id");CREATE INDEX "tags_by_term" ON "tags" ("term_id");CREATE TABLE "terms" (
  "id" text PRIMARY KEY NOT NULL,
  "field" text,
  "name" text,
  "parent_id" text,
  "aliases" text,
  "removed" integer DEFAULT 0 NOT NULL
);
CREATE INDEX "terms_by_field" ON "terms" ("field");
`,
};
