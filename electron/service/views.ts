/**
 * What the service says to a window: plain JSON shapes, shared by routes, command line and renderer
 * (which imports them as types only).
 */

import type { Hash, Level, MomentKind, PlayRecord } from '../../football/play.ts';
import type { Problem } from '../../football/result.ts';
import type { FieldValue } from '../../football/values.ts';
import type { FieldDefinition } from '../../football/vocabulary/fields.ts';

export type Angle = 'sideline' | 'endzone' | 'other';

export interface LibraryView {
  readonly name: string;
  readonly path: string;
  readonly team: string;
  readonly level: Level;
  readonly readOnly: boolean;
  readonly undo: string | null;
  readonly redo: string | null;
  readonly counts: { games: number; plays: number; logged: number; films: number; cutups: number };
}

export interface TermView {
  readonly id: string;
  readonly field: string;
  readonly name: string;
  readonly parentId: string | null;
  readonly aliases: readonly string[];
  /** plays tagged with it (members of its family not counted) */
  readonly uses: number;
}

export interface PlayerView {
  readonly id: string;
  readonly number: number | null;
  readonly name: string | null;
  readonly position: string | null;
  readonly team: string | null;
}

export interface ReadRuleView {
  readonly id: string;
  readonly concept: string;
  readonly keyDefender: string | null;
  readonly whenKey: string | null;
  readonly goTo: string | null;
  readonly note: string | null;
}

export interface VocabularyView {
  readonly fields: readonly FieldDefinition[];
  readonly terms: readonly TermView[];
  readonly players: readonly PlayerView[];
  readonly readRules: readonly ReadRuleView[];
  readonly teams: { readonly ours: string; readonly opponents: readonly string[] };
}

export interface GameView {
  readonly gameId: string;
  readonly title: string;
  readonly season: number | null;
  readonly week: number | null;
  readonly date: string | null;
  readonly opponent: string | null;
  readonly plays: number;
  /** plays with a kind or a result */
  readonly logged: number;
  readonly films: number;
}

export interface ClipView {
  readonly clipId: string;
  readonly filmId: string;
  readonly angle: Angle;
  /** first frame */
  readonly inFrame: number;
  /** first frame after the clip */
  readonly outFrame: number;
  readonly lock: ClipLock | null;
}

/** Set by hand: `frame` of the clip's film and `filmFrame` of another film show the same instant. */
export interface ClipLock {
  readonly frame: number;
  readonly filmId: string;
  readonly filmFrame: number;
}

export interface MomentView {
  readonly kind: MomentKind;
  readonly filmId: string;
  readonly frame: number;
  readonly seconds: number;
}

/** The situation that the rules make of the plays before; every part may be unknown. */
export interface PredictedSituation {
  readonly quarter: number | null;
  readonly clock: number | null;
  readonly possession: string | null;
  readonly down: number | null;
  readonly distance: number | null;
  readonly yardsToGoal: number | null;
  readonly hash: Hash | null;
  readonly scoreFor: number | null;
  readonly scoreAgainst: number | null;
}

export interface PlayView {
  readonly playId: string;
  readonly gameId: string;
  readonly record: PlayRecord;
  /** stored values that were predicted and passed over */
  readonly predicted: readonly string[];
  /** what the play before leads to; only for fields that the play does not have yet */
  readonly prediction: PredictedSituation | null;
  /** why there is no prediction */
  readonly predictionReason: string | null;
  readonly clips: readonly ClipView[];
  readonly stamped: readonly MomentView[];
  /** where the picture says the snap is, on films on which nobody has stamped it */
  readonly predictedSnaps?: readonly {
    readonly filmId: string;
    readonly frame: number;
    readonly seconds: number;
  }[];
  readonly logged: boolean;
}

/** A stretch of film that may be a play, as it was found in the picture; nothing that anybody has said. */
export interface ProposalView {
  readonly inFrame: number;
  /** first frame after it */
  readonly outFrame: number;
  /** a prediction */
  readonly snapFrame: number | null;
  readonly angle: Angle;
  /** two angles of one play have the same number */
  readonly play: number;
}

export interface ProposalsView {
  readonly filmId: string;
  /** the film has been looked through */
  readonly looked: boolean;
  readonly cuts: readonly number[];
  readonly proposals: readonly ProposalView[];
}

export interface FilmView {
  readonly filmId: string;
  readonly gameId: string | null;
  readonly name: string;
  readonly angle: Angle;
  readonly frames: number;
  readonly fps: number;
  readonly seconds: number;
  readonly width: number;
  readonly height: number;
  readonly codec: string;
  /** where it lies on this machine; null when it is missing and must be relinked */
  readonly path: string | null;
  readonly clips: number;
  /** the frames do not follow each other at one constant distance */
  readonly variable: boolean;
  /** each frame holds two half pictures of different instants; its proxy shows them made whole */
  readonly interlaced: boolean;
  /** time code of the first frame as the camera wrote it, 01:23:45:12 (a ; before the frames: drop frame) */
  readonly startTimecode: string | null;
  readonly proxy: ProxyState;
  /** why a window cannot play the film itself, in words; null when it can */
  readonly proxyReason: string | null;
  readonly proxyBytes: number | null;
}

/**
 * A proxy is a copy for viewing whose frame n is the film's frame n. none: the window plays the film itself; wanted: it
 * cannot, and there is no proxy yet; making: one is being made or waits its turn.
 */
export type ProxyState = 'none' | 'wanted' | 'making' | 'ready';

/** Frame times for the player: micros on the element's own clock, one a frame. */
export interface FrameTimesView {
  readonly filmId: string;
  readonly ptsMicros: readonly number[];
  readonly keyFrames: readonly number[];
  readonly fps: number;
  readonly variable: boolean;
}

/** The film time a tag is given at. */
export interface FilmTimeView {
  readonly filmId: string;
  readonly frame: number;
}

export interface TagRequest {
  readonly playId: string;
  readonly changes: readonly { readonly field: string; readonly value: FieldValue }[];
  readonly film?: FilmTimeView | null;
  readonly label?: string;
}

/** What a gesture changed. `undo`/`redo` name what would be taken back next. */
export interface ChangedView {
  readonly plays: readonly PlayView[];
  readonly undo: string | null;
  readonly redo: string | null;
}

export interface MetricCell {
  /** metric key -> value; null where there is nothing to divide by */
  readonly metrics: Readonly<Record<string, number | null>>;
  /** metric key -> [low, high] of the Wilson interval, for rates, in the metric's own unit */
  readonly intervals: Readonly<Record<string, readonly [number, number] | null>>;
  /** metric key -> the count the metric stands on (its denominator) */
  readonly bases: Readonly<Record<string, number>>;
  /** plays behind the numbers, in order */
  readonly playIds: readonly string[];
}

export interface TableRow extends MetricCell {
  readonly key: string | number | boolean | null;
  readonly col?: string | number | boolean | null;
}

export interface TableRequest {
  readonly where: string;
  readonly rows: string;
  readonly cols?: string | null;
  readonly metrics?: readonly string[];
  /** group a term field by its family's root instead of the term itself */
  readonly families?: boolean;
}

export interface TableView {
  readonly rows: readonly TableRow[];
  /** per row key, over all columns; computed from plays */
  readonly rowTotals: readonly TableRow[];
  readonly colTotals: readonly TableRow[];
  readonly total: MetricCell;
  readonly metrics: readonly string[];
}

export interface AnswerView extends MetricCell {
  readonly where: string;
  readonly count: number;
}

export interface CutupView {
  readonly cutupId: string;
  readonly name: string;
  readonly note: string | null;
  readonly folder: string | null;
  readonly where: string | null;
  readonly angles: readonly Angle[];
  readonly items: number;
}

export interface CutupItemView {
  readonly itemId: string;
  readonly playId: string;
  readonly rank: string;
  readonly angles: readonly Angle[] | null;
  /** per angle, where the item is trimmed */
  readonly trims: Readonly<Partial<Record<Angle, readonly [number, number]>>>;
  readonly note: string | null;
}

export interface CutupDetailView extends CutupView {
  readonly list: readonly CutupItemView[];
  readonly line: MetricCell;
}

export interface SavedQuestionView {
  readonly questionId: string;
  readonly name: string;
  readonly where: string;
}

/** What is drawn into a reel's pictures. */
export type BurnChoice = 'tags' | 'drawings';

/** How a reel is written; everything may be left out. */
export interface ReelChoices {
  /** small: all encoded, small file; standard: copied where it can be; fine: the same, what has to be encoded finer */
  readonly quality?: 'small' | 'standard' | 'fine';
  /** lines of the picture at most; source: as the largest film */
  readonly size?: 'source' | '1080' | '720' | '540';
  readonly burn?: readonly BurnChoice[];
  /** keys of the fields that burnt tags tell; null: the usual ones */
  readonly fields?: readonly string[] | null;
  /** a card with the cut-up's name in front */
  readonly titleCard?: boolean;
}

/** What a reel will cost, about, before it is made. */
export interface ReelEstimateView {
  readonly frames: number;
  readonly seconds: number;
  readonly width: number;
  readonly height: number;
  readonly makingSeconds: number;
  readonly bytes: number;
  readonly how: { readonly copied: number; readonly edges: number; readonly encoded: number };
  readonly whyEncoded: string | null;
}

export type JobState = 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';

export interface JobView {
  readonly jobId: string;
  readonly kind: string;
  readonly label: string;
  /** the film that a proxy is made of; labels tell names, and two cards may hold the same name */
  readonly filmId?: string;
  readonly state: JobState;
  /** 0..1 */
  readonly progress: number;
  readonly report: unknown;
  readonly problem: Problem | null;
  readonly at: string;
}

/** Pushed over `/api/events` (server-sent events), one JSON object an event. */
export type ServiceEvent =
  | { readonly type: 'plays'; readonly playIds: readonly string[]; readonly gesture: string }
  | { readonly type: 'playbook' }
  | { readonly type: 'games' }
  | { readonly type: 'films' }
  | { readonly type: 'cutups' }
  | { readonly type: 'questions' }
  | { readonly type: 'job'; readonly job: JobView };
