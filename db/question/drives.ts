import type { Database } from 'better-sqlite3';
import { drivesOf } from '../../football/drives/drives.ts';
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

export const DRIVE_SQL = '(SELECT v.drive FROM temp.worked_drives v WHERE v.play_id = p.id)';

/** Lays the drives of all plays beside the tables, for this connection alone: a drive is worked out and nowhere stored. */
export function layOutDrives(db: Database): void {
  db.exec(`CREATE TEMP TABLE IF NOT EXISTS worked_drives (play_id text PRIMARY KEY NOT NULL, drive integer);
    DELETE FROM temp.worked_drives`);
  const insert = db.prepare('INSERT INTO temp.worked_drives (play_id, drive) VALUES (?, ?)');
  const plays = withDrives(loadPlays(db).map((p) => p.record));
  db.transaction(() => {
    for (const play of plays) insert.run(play.playId, play.drive);
  })();
}
