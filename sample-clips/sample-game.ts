/**
 * The shape of sample-game.json: the truth about the sample film, one row a play. Keys of a play are the field keys of
 * football/vocabulary/fields.ts; frames are indexes into the film that the clip names.
 */

export type SampleAngle = 'sideline' | 'endzone';

export interface SamplePlayerRef {
  readonly team: string;
  readonly number: number;
}

export interface SampleRosterPlayer extends SamplePlayerRef {
  readonly name: string;
  readonly position: string;
}

export interface SampleReadRule {
  readonly concept: string;
  readonly keyDefender: string;
  readonly when: string;
  readonly goTo: string;
}

export interface SampleMoments {
  readonly snap: number;
  readonly release?: number;
  readonly catch?: number;
  readonly contact?: number;
  readonly whistle: number;
}

export interface SampleClip {
  /** name of the film beside sample-game.json */
  readonly file: string;
  readonly angle: SampleAngle;
  readonly inFrame: number;
  /** the first frame after the clip */
  readonly outFrame: number;
  /** frames of the whole film, thirty a second */
  readonly frames: number;
  /** the same moments of the same play stand on different frames of the two angles */
  readonly moments: SampleMoments;
}

export interface SamplePlay {
  readonly playNumber: number;
  readonly half: 1 | 2;
  readonly drive: number | null;
  readonly quarter: number;
  /** seconds left in the quarter */
  readonly clock: number;
  readonly possession: string;
  readonly down: number | null;
  readonly distance: number | null;
  readonly yardsToGoal: number;
  readonly hash: 'L' | 'M' | 'R';
  readonly scoreFor: number;
  readonly scoreAgainst: number;

  readonly personnel: string | null;
  readonly formation: string | null;
  readonly receivers: string | null;
  readonly motion: string | null;
  readonly concept: string | null;
  readonly protection: string | null;
  readonly front: string | null;
  readonly coverage: string | null;
  readonly pressure: string | null;
  readonly rushers: number | null;
  readonly route: string | null;
  readonly readKey: string | null;

  readonly playKind: 'pass' | 'run' | 'punt' | 'kickoff' | 'fieldGoal' | 'try';
  readonly result: string;
  readonly gain: number | null;
  readonly airYards: number | null;
  readonly yardsAfterCatch: number | null;
  readonly firstDown: boolean;
  readonly touchdown: boolean;
  readonly turnover: boolean;
  readonly kickYards: number | null;
  readonly returnYards: number | null;

  readonly passer: SamplePlayerRef | null;
  readonly target: SamplePlayerRef | null;
  readonly carrier: SamplePlayerRef | null;

  readonly clips: readonly SampleClip[];
}

export interface SampleGame {
  readonly game: {
    readonly title: string;
    readonly season: number;
    readonly week: number;
    readonly date: string;
    readonly opponent: string;
    readonly site: 'home' | 'away' | 'neutral';
    readonly level: 'ncaa';
    readonly conference: string;
    /** quarters were shortened by agreement */
    readonly quarterSeconds: number;
  };
  /** our team; `teams` gives full names by the short ones used everywhere else */
  readonly team: string;
  readonly teams: Readonly<Record<string, string>>;
  readonly framesPerSecond: number;
  readonly roster: readonly SampleRosterPlayer[];
  readonly readRules: readonly SampleReadRule[];
  readonly plays: readonly SamplePlay[];
}
