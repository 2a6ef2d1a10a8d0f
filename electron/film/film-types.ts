import type { Problem, Result } from '../../football/result.ts';
import type { FrameTable } from './frame-table.ts';

/** A program that film work runs, and where it was found. */
export interface FilmTool {
  readonly path: string;
  readonly version: string;
  readonly from: 'named' | 'path' | 'bundled';
}

export interface FilmTools {
  readonly ffmpeg: FilmTool;
  /** nothing depends on it */
  readonly ffprobe: FilmTool | null;
}

/** Why a file is refused; the message names the file, `next` says what to do. */
export type FilmRefusal =
  | 'film-missing'
  | 'film-not-a-file'
  | 'film-no-permission'
  | 'film-empty'
  | 'film-is-a-list'
  | 'film-no-picture'
  | 'film-unreadable'
  | 'film-cut-short'
  | 'film-absurd'
  | 'film-encrypted'
  | 'film-too-slow'
  | 'film-tool-missing'
  | 'cancelled';

export interface FilmProblem extends Problem {
  readonly code: FilmRefusal;
  readonly path: string;
}

/** What decides how a film is shown, beside its frames. Small, kept apart from the table, read for whole lists of films. */
export interface FilmFacts {
  readonly codec: string;
  readonly container: string;
  readonly variable: boolean;
  readonly hasAudio: boolean;
  /** each frame holds two half pictures, or may */
  readonly interlaced: boolean;
  /** 8 bits a sample and 4:2:0, as every window decodes it */
  readonly plainPixels: boolean;
  /** time code of the first frame, 01:23:45:12 (a ; before the frames: drop frame) */
  readonly startTimecode: string | null;
  /**
   * when the sound starts on the film's clock, microseconds; below 0: samples of the encoder's priming, which players leave
   * out. Null where there is no sound or the container does not say
   */
  readonly soundStartMicros?: number | null;
}

/** What is known of one film file after looking into it. */
export interface FilmProbe {
  readonly path: string;
  /** same content, same identity, wherever the file lies (see identity.ts) */
  readonly contentId: string;
  readonly bytes: number;
  readonly modifiedMs: number;
  readonly frames: number;
  readonly fps: number;
  readonly variable: boolean;
  readonly seconds: number;
  readonly firstPtsMicros: number;
  readonly width: number;
  readonly height: number;
  readonly rotation: 0 | 90 | 180 | 270;
  readonly codec: string;
  readonly container: string;
  readonly hasAudio: boolean;
  readonly facts: FilmFacts;
  readonly table: FrameTable;
}

export interface ProbeOptions {
  /** without it, files that need ffmpeg are looked into with the tools that findFilmTools() finds */
  readonly tools?: FilmTools;
  readonly signal?: AbortSignal;
  /** limit for one file, milliseconds; default 60,000 */
  readonly timeLimitMs?: number;
}

/** probe.ts: `probeFilm`. */
export type ProbeFilm = (path: string, options?: ProbeOptions) => Promise<Result<FilmProbe, FilmProblem>>;

export interface ProbedFile {
  /** place in the list that was given */
  readonly index: number;
  readonly path: string;
  readonly result: Result<FilmProbe, FilmProblem>;
}

/** probe.ts: `probeFilms`: yields each file as soon as it is known, in the order of completion. */
export type ProbeFilms = (
  paths: readonly string[],
  options?: ProbeOptions & { readonly concurrency?: number },
) => AsyncGenerator<ProbedFile, void, void>;
