/** A place where the record of a game cannot be right, in words for a coach. Nothing is changed by it. */
export interface Finding {
  /** stable name of the kind, e.g. `down-differs` */
  readonly code: string;
  readonly playId: string;
  readonly playNumber: number | null;
  /** keys of the fields that cannot stand together, the most telling first */
  readonly fields: readonly string[];
  readonly message: string;
  /** what would settle it */
  readonly settle: string;
  /** one change that makes the plays around it follow; offered, never made */
  readonly fix?: Fix;
}

export interface Fix {
  readonly playId: string;
  readonly field: string;
  readonly value: string | number | boolean;
}
