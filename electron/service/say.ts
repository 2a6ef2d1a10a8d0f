import type { Problem } from '../../football/result.ts';

/** A problem as one line for the command line: what happened, what was kept, what to do next. */
export function sayProblem({ message, kept, next }: Problem): string {
  return [message, kept, next].filter((part) => part !== undefined && part !== '').join(' ');
}
