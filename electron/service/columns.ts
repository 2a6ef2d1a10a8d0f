import { ColumnStore } from '../../db/columns/column-store.ts';
import type { Edit } from '../../db/journal/edit.ts';
import type { Library } from '../../db/library.ts';
import { listGames } from '../../db/repositories/games.ts';
import { loadPlays, loadPlaysById } from '../../db/repositories/play-records.ts';
import { readSetting } from '../../db/repositories/vocabulary.ts';
import { drivesOf } from '../../football/drives/drives.ts';
import { COUNTERS, playFacts } from '../../football/metrics/facts.ts';
import { DEFAULT_METRIC_SETTINGS, type MetricSettings } from '../../football/metrics/settings.ts';
import type { PlayRecord } from '../../football/play.ts';
import type { StationVocabulary } from './vocabulary.ts';

/** The staff's choices about its numbers, over the defaults. */
export function metricSettings(library: Library): MetricSettings {
  return { ...DEFAULT_METRIC_SETTINGS, ...readSetting<Partial<MetricSettings>>(library, 'metrics') };
}

/** Every play of the library in columns, ready to be asked. */
export function buildColumns(library: Library, vocabulary: StationVocabulary): ColumnStore {
  const settings = metricSettings(library);
  const store = new ColumnStore({
    fields: vocabulary.fields.all,
    terms: vocabulary.terms,
    counters: { names: COUNTERS, facts: (play) => playFacts(play, settings) },
  });
  for (const g of listGames(library))
    store.setGame({ gameId: g.id, title: g.title, season: g.season, date: g.date });
  const byGame = new Map<string, PlayRecord[]>();
  for (const { record } of loadPlays(library.db)) {
    const plays = byGame.get(record.gameId);
    if (plays) plays.push(record);
    else byGame.set(record.gameId, [record]);
  }
  for (const plays of byGame.values()) for (const play of withDrives(plays)) store.set(play);
  return store;
}

/** Numbers of drives are worked out where they are not recorded. */
export function withDrives(plays: readonly PlayRecord[]): PlayRecord[] {
  const drives = drivesOf(plays);
  return plays.map((play) =>
    play.drive === null ? { ...play, drive: drives.get(play.playId) ?? null } : play,
  );
}

/** What the numbers of drives are worked out from: a change of one of these may renumber a whole game. */
const MAKES_DRIVES = new Set([
  'possession',
  'quarter',
  'playKind',
  'drive',
  'playNumber',
  'gameId',
  'removed',
]);

/** Takes the plays that edits touched into the columns again. */
export function refreshColumns(
  store: ColumnStore,
  library: Library,
  playIds: readonly string[],
  edits: readonly Edit[],
): void {
  const now = loadPlaysById(library.db, playIds).map((p) => p.record);
  const there = new Set(now.map((p) => p.playId));
  for (const id of playIds) if (!there.has(id)) store.remove(id);
  if (edits.some((e) => e.entity === 'play' && MAKES_DRIVES.has(e.field))) {
    const games = new Set(now.map((p) => p.gameId));
    // a play that was removed is not in `now`, but its game's drives may change with it
    for (const e of edits) {
      if (e.entity !== 'play' || e.field !== 'removed') continue;
      const row = library.db.prepare('SELECT game_id AS gameId FROM plays WHERE id = ?').get(e.entityId) as
        | { gameId: string | null }
        | undefined;
      if (row?.gameId) games.add(row.gameId);
    }
    for (const gameId of games) {
      for (const play of withDrives(loadPlays(library.db, gameId).map((p) => p.record))) store.set(play);
    }
    return;
  }
  for (const play of now) store.set(keepDrive(store, play));
}

/** A play whose drive was worked out before keeps that number, because nothing that makes drives has changed. */
function keepDrive(store: ColumnStore, play: PlayRecord): PlayRecord {
  if (play.drive !== null) return play;
  const drive = store.valueOf(play.playId, 'drive');
  return typeof drive === 'number' ? { ...play, drive } : play;
}
