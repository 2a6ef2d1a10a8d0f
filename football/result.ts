/** What went wrong, as data: screens and the command line turn it into words in one place. */
export interface Problem {
  /** stable name of the kind of problem, e.g. `film-unreadable` */
  readonly code: string;
  /** what happened, to which file or play, in a coach's words */
  readonly message: string;
  /** what was kept */
  readonly kept?: string;
  /** what to do next */
  readonly next?: string;
  /** where in a typed text the trouble starts and ends */
  readonly at?: { readonly start: number; readonly end: number };
}

export type Result<T, P extends Problem = Problem> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: P };

export function ok<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value };
}

export function fail<P extends Problem>(problem: P): { readonly ok: false; readonly problem: P } {
  return { ok: false, problem };
}

/** A problem that has to travel as an exception, because no caller in between can do anything about it. */
export class ProblemError extends Error {
  readonly problem: Problem;
  constructor(problem: Problem, options?: ErrorOptions) {
    super(problem.message, options);
    this.name = 'ProblemError';
    this.problem = problem;
  }
}
