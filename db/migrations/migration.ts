export interface Migration {
  /** `PRAGMA user_version` after this step; steps are numbered 1, 2, 3 ... without a gap */
  readonly version: number;
  readonly name: string;
  readonly sql: string;
}
