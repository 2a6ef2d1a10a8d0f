/** Why something cannot be known from a record: never an exception, and never filled by a guess. */
export interface Gap {
  readonly gap: true;
  /** stable name of the reason */
  readonly code: string;
  /** in a coach's words */
  readonly reason: string;
  /** the field whose value would settle it */
  readonly field?: string;
}

export function gap(code: string, reason: string, field?: string): Gap {
  return { gap: true, code, reason, ...(field ? { field } : {}) };
}

export function isGap(value: unknown): value is Gap {
  return typeof value === 'object' && value !== null && 'gap' in value;
}
