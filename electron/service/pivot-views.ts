/** What the service says of a table of several fields a side: plain JSON, shared by routes, command line and renderer. */

export type KeyValue = string | number | boolean | null;

/** What the numbers of a table are held against. */
export type Baseline =
  /** the other plays of the question */
  | { readonly kind: 'rest' }
  /** the same cells in the season before the latest one of the question's plays */
  | { readonly kind: 'lastSeason' }
  /** the same cells over the plays of games against an opponent, or of a possession by it */
  | { readonly kind: 'opponent'; readonly opponent: string }
  /** the same cells over the plays of another question */
  | { readonly kind: 'question'; readonly where: string };

export interface PivotRequest {
  readonly where: string;
  /** one to three fields */
  readonly rows: readonly string[];
  /** none to two fields */
  readonly cols: readonly string[];
  readonly metrics: readonly string[];
  /** count a term as its family */
  readonly families: boolean;
  readonly baseline: Baseline | null;
}

/** A value of the first field, of the first two, and so on; none: all of them. */
export interface PivotSide {
  readonly key: readonly KeyValue[];
  readonly plays: number;
}

export interface PivotNumber {
  /** rates in percent; null where there is nothing to divide by */
  readonly value: number | null;
  /** the count that it stands on; null for counts and sums */
  readonly base: number | null;
  /** the parts, so that a sheet can work it out itself */
  readonly numerator: number;
  /** 95 % interval of a rate, in percent */
  readonly interval: readonly [number, number] | null;
  /** what the baseline has here; null where it has nothing, and for counts and sums */
  readonly against: number | null;
}

export interface PivotCell {
  readonly row: number;
  readonly col: number;
  readonly plays: number;
  /** in the order of the metrics */
  readonly numbers: readonly PivotNumber[];
}

export interface PivotView {
  readonly metrics: readonly string[];
  /** with subtotals before their members, the whole first */
  readonly rows: readonly PivotSide[];
  readonly cols: readonly PivotSide[];
  /** only those with plays in them */
  readonly cells: readonly PivotCell[];
  /** the baseline in words, and how many plays it has in all */
  readonly baseline: { readonly label: string; readonly plays: number } | null;
}

/** A place of a table, to ask for its plays. */
export interface PivotPlace {
  readonly row: readonly KeyValue[];
  readonly col: readonly KeyValue[];
}
