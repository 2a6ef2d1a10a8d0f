import type { Angle } from '../../electron/service/views.ts';
import type { Problem } from '../../football/result.ts';
import type { AngleSide, SyncWay } from './angle-sync.ts';
import type { FrameTimes, Stretch } from './frame-times.ts';
import type { FilmTrouble } from './video-film.ts';

/** What plays: one angle of one play, or a whole film. */
export interface PlayedClip extends Stretch {
  readonly filmId: string;
  readonly angle: Angle;
}

/** The other angle beside the leading one. */
export interface MateState {
  readonly clip: PlayedClip;
  readonly by: SyncWay;
  /** null until its first picture is there */
  readonly frame: number | null;
  /** its camera did not run at the instant that the leading film shows; its nearest picture stands there */
  readonly beyond: boolean;
}

export interface PlayerState {
  readonly clip: PlayedClip | null;
  /** null until the first picture is there */
  readonly frame: number | null;
  readonly times: FrameTimes | null;
  readonly playing: boolean;
  /** the way it runs, or ran last */
  readonly direction: -1 | 1;
  readonly rate: number;
  readonly mate: MateState | null;
  /** what is on the screen is a copy for viewing */
  readonly proxy: boolean;
  readonly trouble: FilmTrouble | { readonly problem: Problem } | null;
}

export const RATES: readonly number[] = [1, 0.5, 0.25];

export const NOTHING: PlayerState = {
  clip: null,
  frame: null,
  times: null,
  playing: false,
  direction: 1,
  rate: 1,
  mate: null,
  proxy: false,
  trouble: null,
};

/** Another angle that is to stand beside the leading one, and what holds the two together. */
export interface WantedMate {
  readonly clip: PlayedClip;
  readonly lead: AngleSide;
  readonly side: AngleSide;
}
