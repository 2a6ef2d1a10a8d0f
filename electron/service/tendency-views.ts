import type { Trial } from '../../football/tendencies/trial.ts';

/** Whose calls are counted, and given what. */
export interface TendencyRequest {
  readonly team: string;
  /** with the ball or without it */
  readonly side: 'offense' | 'defense';
  /** key of the field that is called */
  readonly call: string;
  /** terms counted by the family at the top, of the call and of the context */
  readonly families: boolean;
  /** keys of the context, the first one matters most */
  readonly contexts: readonly string[];
  /** which plays; all where it is empty */
  readonly where: string;
}

/** One call in one context; the plays are indexes into `playIds` of the answer. */
export interface CallShare {
  readonly call: string;
  /** counted, 0..1 */
  readonly count: number;
  readonly share: number;
  /** 95 % interval after Wilson, 0..1 */
  readonly wilson: readonly [number, number];
  /** smoothed toward the shorter context, 0..1: what to expect */
  readonly expected: number;
  readonly plays: readonly number[];
}

export interface ContextNode {
  /** index of the context above; -1 for all plays */
  readonly parent: number;
  /** how many fields it fixes */
  readonly depth: number;
  /** the value of its last field; empty for all plays */
  readonly value: string;
  readonly plays: number;
  readonly calls: readonly CallShare[];
}

export interface ContextLevel {
  readonly key: string;
  readonly label: string;
  /** plays a context must have to be believed half; null where the field adds nothing */
  readonly strength: number | null;
}

export interface TendencyView {
  readonly playIds: readonly string[];
  readonly games: number;
  /** plays of the question and side on which the call is not tagged */
  readonly untagged: number;
  /** the commonest first */
  readonly callNames: readonly string[];
  readonly levels: readonly ContextLevel[];
  readonly nodes: readonly ContextNode[];
  readonly trial: Trial | null;
  readonly verdict: string;
}

export interface NowRequest extends Omit<TendencyRequest, 'call'> {
  readonly calls: readonly string[];
  /** the situation as it is said */
  readonly given: string;
}

/** What they will probably call in a situation, for each of some fields. */
export interface NowView {
  readonly said: readonly { readonly key: string; readonly label: string; readonly value: string }[];
  readonly fields: readonly NowField[];
}

export interface NowField {
  readonly call: string;
  readonly label: string;
  readonly playIds: readonly string[];
  /** plays of all, then of each context with one more part of the situation fixed */
  readonly steps: readonly { readonly label: string; readonly plays: number }[];
  /** counted in the longest context that has plays; the likeliest first */
  readonly calls: readonly CallShare[];
  readonly trial: Trial | null;
  readonly verdict: string;
}

export interface TellsRequest extends TendencyRequest {
  /** plays are compared only with plays of the same down and distance group */
  readonly withinSituation: boolean;
  readonly pairs: boolean;
}

export interface TellView {
  readonly tags: readonly { readonly key: string; readonly label: string; readonly value: string }[];
  readonly plays: readonly number[];
  readonly others: number;
  /** per call of `callNames`: plays with the tags, and without them */
  readonly counts: readonly number[];
  readonly otherCounts: readonly number[];
  readonly bits: number;
  readonly adjusted: number;
  /** the call whose share the tags change most, as an index of `callNames` */
  readonly turns: number;
}

export interface TellsView {
  readonly playIds: readonly string[];
  readonly callNames: readonly string[];
  readonly tells: readonly TellView[];
  readonly looked: number;
  readonly shuffles: number;
  readonly withinSituation: boolean;
}
