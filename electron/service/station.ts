import { userInfo } from 'node:os';
import type { ColumnStore } from '../../db/columns/column-store.ts';
import type { Committed } from '../../db/journal/journal.ts';
import { type Library, type OpenOptions, openLibrary } from '../../db/library.ts';
import { loadPlays, loadPlaysById, type StoredPlay } from '../../db/repositories/play-records.ts';
import { readSetting } from '../../db/repositories/vocabulary.ts';
import type { Level, PlayRecord } from '../../football/play.ts';
import { PlayColumns } from './columns.ts';
import { Jobs } from './jobs/jobs.ts';
import type { ServiceEvent } from './views.ts';
import { loadVocabulary, type StationVocabulary, touchesVocabulary } from './vocabulary.ts';

/** Hears of plays as they now are, and of the ids of those that are no more. */
type PlaysListener = (plays: readonly PlayRecord[], gone: readonly string[]) => void;

/** More than anybody has open at a time. */
const KEPT_GAMES = 8;

/**
 * One open library and all that the service keeps in memory for it. Routes and the command line both
 * hand a station to the functions in `actions/`; nothing else holds state.
 */
export class Station {
  readonly library: Library;
  readonly person: string;
  readonly jobs: Jobs;
  private readonly listeners = new Set<(event: ServiceEvent) => void>();
  private readonly playListeners = new Set<PlaysListener>();
  private vocabularyNow: StationVocabulary | null = null;
  private columnsNow: PlayColumns | null = null;
  private readonly gamesNow = new Map<string, readonly StoredPlay[]>();

  constructor(library: Library, person: string) {
    this.library = library;
    this.person = person;
    this.jobs = new Jobs(library, (job) => this.tell({ type: 'job', job }));
    library.journal.onCommit((committed) => this.afterCommit(committed));
  }

  get team(): string {
    return readSetting<string>(this.library, 'team') ?? '';
  }

  get level(): Level {
    return readSetting<Level>(this.library, 'level') ?? 'ncaa';
  }

  vocabulary(): StationVocabulary {
    this.vocabularyNow ??= loadVocabulary(this.library);
    return this.vocabularyNow;
  }

  /** The columns that questions are answered from; built at the first question, then kept in step. */
  columns(): ColumnStore {
    this.columnsNow ??= new PlayColumns(this.library, this.vocabulary(), (gameId) => this.playsOf(gameId));
    return this.columnsNow.store;
  }

  /** The plays of a game in order, read once and kept until an edit touches them. */
  playsOf(gameId: string): readonly StoredPlay[] {
    const known = this.gamesNow.get(gameId);
    if (known) return known;
    const plays = loadPlays(this.library.db, gameId);
    this.gamesNow.set(gameId, plays);
    if (this.gamesNow.size > KEPT_GAMES) this.gamesNow.delete(this.gamesNow.keys().next().value as string);
    return plays;
  }

  /** Forget the columns: a setting that every play's numbers depend on has changed. */
  dropColumns(): void {
    this.columnsNow = null;
  }

  onEvent(listener: (event: ServiceEvent) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Told of every play that a gesture touched, as it now is; in memory, after the commit. */
  onPlays(listener: PlaysListener): void {
    this.playListeners.add(listener);
  }

  tell(event: ServiceEvent): void {
    for (const listener of this.listeners) listener(event);
  }

  async close(): Promise<void> {
    await this.jobs.stop();
    this.library.close();
  }

  private forgetPlays(
    playIds: readonly string[],
    edits: Committed['edits'],
    entities: ReadonlySet<string>,
  ): void {
    // a play that came, went or changed its game may be in games that its row no longer tells
    const moved = edits.some((e) => e.entity === 'play' && (e.field === 'gameId' || e.field === 'removed'));
    if (moved || ['game', 'term', 'player'].some((e) => entities.has(e))) {
      this.gamesNow.clear();
      return;
    }
    const gameIds = this.library.db
      .prepare('SELECT DISTINCT game_id FROM plays WHERE id IN (SELECT value FROM json_each(?))')
      .pluck()
      .all(JSON.stringify(playIds)) as string[];
    for (const gameId of gameIds) this.gamesNow.delete(gameId);
  }

  private afterCommit({ edits, gesture }: Committed): void {
    const entities = new Set(edits.map((e) => e.entity));
    if (touchesVocabulary(entities) || entities.has('question')) this.vocabularyNow = null;
    if (entities.has('question')) this.columnsNow?.store.setFields(this.vocabulary().fields);
    const playIds = touchedPlays(this.library, edits);
    this.forgetPlays(playIds, edits, entities);
    if (this.columnsNow) {
      if (['game', 'term', 'player', 'field', 'setting'].some((e) => entities.has(e))) {
        this.columnsNow = null;
      } else {
        this.columnsNow.refresh(playIds, edits);
      }
    }
    if (playIds.length > 0 && this.playListeners.size > 0) {
      const plays = loadPlaysById(this.library.db, playIds).map((p) => p.record);
      const there = new Set(plays.map((p) => p.playId));
      const gone = playIds.filter((id) => !there.has(id));
      for (const listener of this.playListeners) listener(plays, gone);
    }
    if (playIds.length > 0) this.tell({ type: 'plays', playIds, gesture });
    if (touchesVocabulary(entities)) this.tell({ type: 'playbook' });
    if (entities.has('game')) this.tell({ type: 'games' });
    if (entities.has('film') || entities.has('clip')) this.tell({ type: 'films' });
    if (entities.has('cutup') || entities.has('cutupItem')) this.tell({ type: 'cutups' });
    if (entities.has('question')) this.tell({ type: 'questions' });
  }
}

/** @throws ProblemError as `openLibrary` */
export function openStation(path: string, options: OpenOptions = {}): Station {
  const person = options.person ?? whoIsThere();
  return new Station(openLibrary(path, { ...options, person }), person);
}

export function whoIsThere(): string {
  try {
    return userInfo().username || 'coach';
  } catch {
    return 'coach';
  }
}

/** The plays that edits changed, by themselves or by their tags, moments and clips. */
export function touchedPlays(library: Library, edits: Committed['edits']): string[] {
  const ids = new Set<string>();
  for (const edit of edits) {
    if (edit.entity === 'play') ids.add(edit.entityId);
    else if (edit.entity === 'tag' || edit.entity === 'moment') ids.add(edit.entityId.split('/', 1)[0] ?? '');
    else if (edit.entity === 'clip') {
      const row = library.db.prepare('SELECT play_id AS playId FROM clips WHERE id = ?').get(edit.entityId) as
        | { playId: string | null }
        | undefined;
      if (row?.playId) ids.add(row.playId);
      // a clip whose making was taken back no longer says whose it was
      if (edit.field === 'playId' && typeof edit.prior === 'string') ids.add(edit.prior);
      if (edit.field === 'playId' && typeof edit.value === 'string') ids.add(edit.value);
    }
  }
  return [...ids];
}
