/** What an edit may hold: a scalar, or the coupled values of one field. Flags are 0 and 1. */
export type EditValue = string | number | null | readonly (string | number | null)[];

/**
 * Who or what a value came from. `entered`: typed or clicked by a person. `predicted`: filled in by the
 * program and passed over by a person. `imported`: from a sheet. `made`: by the program as part of
 * something a person asked for (plays made from files, the first playbook).
 */
export type Origin = 'entered' | 'predicted' | 'imported' | 'made';

/** One change that a caller asks for. */
export interface Change {
  readonly entity: string;
  readonly id: string;
  readonly field: string;
  readonly value: EditValue;
  /** overrides the gesture's origin for this change */
  readonly origin?: Origin;
}

/** One line of the journal. */
export interface Edit {
  readonly stamp: string;
  readonly person: string;
  readonly gesture: string;
  readonly label: string;
  readonly undoes: string | null;
  readonly origin: Origin;
  readonly entity: string;
  readonly entityId: string;
  readonly field: string;
  readonly value: EditValue;
  readonly prior: EditValue;
  readonly filmId: string | null;
  readonly filmFrame: number | null;
}

/** Where the film stood when a gesture was made. */
export interface FilmTime {
  readonly filmId: string;
  readonly frame: number;
}

export interface Gesture {
  readonly label: string;
  readonly origin?: Origin;
  readonly film?: FilmTime | null;
}

export function sameValue(a: EditValue, b: EditValue): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
