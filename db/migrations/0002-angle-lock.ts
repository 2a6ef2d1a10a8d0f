import type { Migration } from './migration.ts';

/** Two angles of a play held to one instant by hand: a frame of the clip, and the frame of another film that belongs to it. */
export const angleLock: Migration = {
  version: 2,
  name: 'angle lock',
  sql: `
ALTER TABLE "clips" ADD COLUMN "lock_frame" integer;
ALTER TABLE "clips" ADD COLUMN "lock_film_id" text;
ALTER TABLE "clips" ADD COLUMN "lock_film_frame" integer;
`,
};
