import type { Database } from 'better-sqlite3';
import { drivesOf } from '../../football/drives/drives.ts';
import { COUNTER_INDEX, type Counter, playFacts } from '../../football/metrics/facts.ts';
import { DEFAULT_METRIC_SETTINGS, type MetricSettings } from '../../football/metrics/settings.ts';
import type { PlayRecord } from '../../football/play.ts';
import { loadPlays } from '../repositories/play-records.ts';

/** Plays with the number of their drive, worked out where it is not recorded. Takes whole games, because it follows from the plays before. */
export function withDrives(plays: readonly PlayRecord[]): PlayRecord[] {
  const games = new Map<string, PlayRecord[]>();
  for (const play of plays) {
    const game = games.get(play.gameId);
    if (game) game.push(play);
    else games.set(play.gameId, [play]);
  }
  const drives = new Map<string, number | null>();
  for (const game of games.values()) for (const [playId, drive] of drivesOf(game)) drives.set(playId, drive);
  return plays.map((play) =>
    play.drive === null ? { ...play, drive: drives.get(play.playId) ?? null } : play,
  );
}

/** What is worked out of the plays around and nowhere stored, laid beside the tables by `layOutDrives`. */
export type Worked = 'drive' | 'drive_play' | 'previous_id' | 'next_id' | 'explosive' | 'success';

const WORKED_TABLE = 'temp.worked_drives';

/** @param play alias of the play's table */
export function workedSql(column: Worked, play: string): string {
  return `(SELECT v.${column} FROM ${WORKED_TABLE} v WHERE v.play_id = ${play}.id)`;
}

export function needsWorked(sql: string): boolean {
  return sql.includes(WORKED_TABLE);
}

const NEIGHBOURS = `WITH around AS (
    SELECT v.play_id, lag(v.play_id) OVER drive AS previous_id, lead(v.play_id) OVER drive AS next_id,
      CASE WHEN p.play_kind IS NOT 'try' AND p.play_kind IS NOT 'kickoff'
        THEN count(*) FILTER (WHERE p.play_kind IS NOT 'try' AND p.play_kind IS NOT 'kickoff') OVER upto END AS drive_play
    FROM ${WORKED_TABLE} v JOIN plays p ON p.id = v.play_id WHERE v.drive IS NOT NULL
    WINDOW drive AS (PARTITION BY p.game_id, v.drive ORDER BY p.play_number, p.id),
      upto AS (PARTITION BY p.game_id, v.drive ORDER BY p.play_number, p.id ROWS UNBOUNDED PRECEDING))
  UPDATE ${WORKED_TABLE} SET previous_id = around.previous_id, next_id = around.next_id, drive_play = around.drive_play
  FROM around WHERE around.play_id = ${WORKED_TABLE}.play_id`;

/** What each connection has laid out, good until it or another writes. */
const laidOut = new WeakMap<Database, { readonly settings: MetricSettings; readonly state: string }>();

function stateOf(db: Database): string {
  return `${db.pragma('data_version', { simple: true })} ${db.prepare('SELECT total_changes()').pluck().get()}`;
}

/** Lays what is worked out of all plays beside the tables, for this connection alone. */
export function layOutDrives(db: Database, settings: MetricSettings = DEFAULT_METRIC_SETTINGS): void {
  const before = laidOut.get(db);
  if (before?.settings === settings && before.state === stateOf(db)) return;
  db.exec(`CREATE TEMP TABLE IF NOT EXISTS worked_drives (play_id text PRIMARY KEY NOT NULL, drive integer,
      drive_play integer, previous_id text, next_id text, explosive integer, success integer);
    DELETE FROM ${WORKED_TABLE}`);
  const insert = db.prepare(
    `INSERT INTO ${WORKED_TABLE} (play_id, drive, explosive, success) VALUES (?, ?, ?, ?)`,
  );
  const plays = withDrives(loadPlays(db).map((p) => p.record));
  db.transaction(() => {
    for (const play of plays) {
      const facts = playFacts(play, settings);
      const flag = (known: Counter, counter: Counter) =>
        facts[COUNTER_INDEX[known]] ? facts[COUNTER_INDEX[counter]] : null;
      insert.run(
        play.playId,
        play.drive,
        flag('explosiveKnown', 'explosives'),
        flag('successKnown', 'successes'),
      );
    }
    db.exec(NEIGHBOURS);
  })();
  laidOut.set(db, { settings, state: stateOf(db) });
}
