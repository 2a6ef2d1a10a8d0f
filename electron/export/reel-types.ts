import type { Problem, Result } from '../../football/result.ts';
import type { FilmTools } from '../film/film-types.ts';
import type { FrameTable } from '../film/frame-table.ts';

/** A picture of the reel's size: RGBA, not multiplied by its alpha, row by row. */
export type Paint = (size: { readonly width: number; readonly height: number }) => Uint8ClampedArray;

/** Something drawn over the frames fromFrame..toFrame - 1 of the film. */
export interface Overlay {
  readonly fromFrame: number;
  readonly toFrame: number;
  readonly paint: Paint;
}

/** One stretch of one film: the frames inFrame, inFrame + 1 ... outFrame - 1 of its frame table. */
export interface ReelSegment {
  readonly path: string;
  readonly table: FrameTable;
  readonly inFrame: number;
  /** first frame after the stretch */
  readonly outFrame: number;
  readonly title?: string;
  /** pictures laid over frames of it */
  readonly overlays?: readonly Overlay[];
  /** frames that stand still for a while before the film goes on */
  readonly freezes?: readonly { readonly frame: number; readonly seconds: number }[];
  /** a picture that is shown instead of film, for outFrame - inFrame frames */
  readonly card?: Paint;
  /** name of the film's content; with it, edges that were made before are found again */
  readonly filmId?: string;
}

export interface ReelOptions {
  readonly tools: FilmTools;
  /** picture size; without it, that of the largest source, at most 1920 x 1080 */
  readonly size?: { readonly width: number; readonly height: number };
  readonly quality?: 'small' | 'standard' | 'fine';
  /**
   * `as-filmed` (default): every source frame appears once and is shown as long as in its source; where all sources share
   * one constant rate, so has the reel. `constant`: one constant rate (the highest of the sources), for players that
   * want it; then slower or variable sources repeat frames.
   */
  readonly rate?: 'as-filmed' | 'constant';
  /** folder in which encoded edges are kept from one reel to the next; without it none are kept */
  readonly edgeFolder?: string;
  /** encodes every frame even where packets could be copied */
  readonly encodeAll?: boolean;
  /** 0..1 */
  readonly onProgress?: (done: number) => void;
  readonly signal?: AbortSignal;
}

export type ReelProblemCode =
  | 'reel-empty'
  | 'reel-bad-segment'
  | 'film-missing'
  | 'film-unreadable'
  | 'target-unwritable'
  | 'disk-full'
  | 'encoder-failed'
  | 'reel-check-failed'
  | 'cancelled';

export interface ReelProblem extends Problem {
  readonly code: ReelProblemCode;
  /** index of the segment that failed, where one did */
  readonly segment?: number;
}

/**
 * `copied`: packets of the film as they are. `edges`: the frames around its first key frame and at its end were encoded, the
 * middle copied. `encoded`: every frame of it was.
 */
export type SegmentHow = 'copied' | 'edges' | 'encoded';

export interface SegmentReport {
  readonly inFrame: number;
  readonly outFrame: number;
  /** frames written for it, counted in the finished file */
  readonly frames: number;
  readonly how: SegmentHow;
  /** what decided it, in words */
  readonly why: string;
}

export interface ReelReport {
  readonly path: string;
  readonly segments: readonly SegmentReport[];
  readonly frames: number;
  readonly seconds: number;
  readonly bytes: number;
  readonly width: number;
  readonly height: number;
  readonly fps: number;
}

/** reel.ts: `renderReel` writes one MP4; nothing stands under `target` before it is finished and checked. */
export type RenderReel = (
  segments: readonly ReelSegment[],
  target: string,
  options: ReelOptions,
) => Promise<Result<ReelReport, ReelProblem>>;

/** playlist.ts: `renderPlaylist` writes an M3U8 and its segments in `<name>-segments/` beside it. */
export interface PlaylistReport extends ReelReport {
  readonly segmentFolder: string;
}
export type RenderPlaylist = (
  segments: readonly ReelSegment[],
  target: string,
  options: ReelOptions,
) => Promise<Result<PlaylistReport, ReelProblem>>;
