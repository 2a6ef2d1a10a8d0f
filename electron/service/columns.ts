import { ColumnStore } from '../../db/columns/column-store.ts';
import type { Edit } from '../../db/journal/edit.ts';
import type { Library } from '../../db/library.ts';
import { withDrives } from '../../db/question/drives.ts';
import { listGames } from '../../db/repositories/games.ts';
import { loadPlays, loadPlaysById, type StoredPlay } from '../../db/repositories/play-records.ts';
import { readSetting } from '../../db/repositories/vocabulary.ts';
import { COUNTERS } from '../../football/metrics/facts.ts';
import { gameFacts } from '../../football/metrics/game-facts.ts';
import { DEFAULT_METRIC_SETTINGS, type MetricSettings } from '../../football/metrics/settings.ts';
import type { Level, PlayRecord } from '../../football/play.ts';
import {
  DEFAULT_SITUATION_LIMITS,
  type SituationLimits,
} from '../../football/vocabulary/situation-limits.ts';
import type { StationVocabulary } from './vocabulary.ts';

/** The staff's choices about its numbers, over the defaults, and the rules that its plays are counted by. */
export function metricSettings(library: Library): MetricSettings {
  const level = readSetting<Level>(library, 'level');
  const team = readSetting<string>(library, 'team');
  return {
    ...DEFAULT_METRIC_SETTINGS,
    ...(level ? { level } : {}),
    ...(team ? { team } : {}),
    ...readSetting<Partial<MetricSettings>>(library, 'metrics'),
  };
}

/** Where the staff's parts of the field and of a down begin, over the defaults. */
export function situationLimits(library: Library): SituationLimits {
  return { ...DEFAULT_SITUATION_LIMITS, ...readSetting<Partial<SituationLimits>>(library, 'situations') };
}

/**
 * The columns of a library. They take whole games, because a play's drive and the points it added depend on
 * the plays around it.
 */
export class PlayColumns {
  readonly store: ColumnStore;
  private readonly settings: MetricSettings;
  private readonly seasons: ReadonlyMap<string, number | null>;
  private facts: ReadonlyMap<string, ArrayLike<number>> = new Map();

  constructor(
    private readonly library: Library,
    vocabulary: StationVocabulary,
    private readonly playsOf: (gameId: string) => readonly StoredPlay[],
  ) {
    this.settings = metricSettings(library);
    this.store = new ColumnStore({
      fields: vocabulary.fields,
      terms: vocabulary.terms,
      limits: situationLimits(library),
      counters: { names: COUNTERS, facts: (play) => this.facts.get(play.playId) ?? [] },
    });
    const games = listGames(library);
    this.seasons = new Map(games.map((g) => [g.id, g.season]));
    for (const g of games)
      this.store.setGame({ gameId: g.id, title: g.title, season: g.season, date: g.date });
    const byGame = new Map<string, PlayRecord[]>();
    for (const { record } of loadPlays(library.db)) {
      const plays = byGame.get(record.gameId);
      if (plays) plays.push(record);
      else byGame.set(record.gameId, [record]);
    }
    for (const [gameId, plays] of byGame) this.setGamePlays(gameId, plays);
  }

  /** Takes the plays that edits touched into the columns again, with their games. */
  refresh(playIds: readonly string[], edits: readonly Edit[]): void {
    const games = new Set(loadPlaysById(this.library.db, playIds).map((p) => p.record.gameId));
    for (const e of edits) {
      if (e.entity !== 'play' || e.field !== 'removed') continue;
      if (e.value === 1) this.store.remove(e.entityId);
      const row = this.library.db
        .prepare('SELECT game_id AS gameId FROM plays WHERE id = ?')
        .get(e.entityId) as { gameId: string | null } | undefined;
      if (row?.gameId) games.add(row.gameId);
    }
    for (const gameId of games) {
      this.setGamePlays(
        gameId,
        this.playsOf(gameId).map((p) => p.record),
      );
    }
  }

  private setGamePlays(gameId: string, plays: readonly PlayRecord[]): void {
    this.facts = gameFacts(plays, this.settings, this.seasons.get(gameId) ?? undefined);
    for (const play of withDrives(plays)) this.store.set(play);
    this.facts = new Map();
  }
}
