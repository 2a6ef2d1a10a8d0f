import type { ReadGrade } from '../../football/reads/grade.ts';
import type { MetricCell } from './views.ts';

export interface ReadsRequest {
  /** whose passes; every team's where it is empty */
  readonly team: string;
  readonly where: string;
}

/** A throw and its grade. */
export interface GradedView {
  readonly playId: string;
  readonly grade: ReadGrade;
  readonly concept: string | null;
  readonly readKey: string | null;
  readonly route: string | null;
  readonly target: string | null;
  readonly passer: string | null;
  readonly opponent: string | null;
  /** where the rules send the ball */
  readonly goTo: string | null;
  readonly missing: readonly string[];
}

/** How many throws of some kind have each grade, and which. */
export interface ReadLine {
  readonly name: string;
  readonly detail: string | null;
  readonly plays: Readonly<Record<ReadGrade, readonly string[]>>;
}

export interface ReadsView {
  readonly throws: readonly GradedView[];
  /** by grade: the efficiency of exactly these throws */
  readonly lines: readonly (MetricCell & { readonly grade: ReadGrade })[];
  readonly metrics: readonly string[];
  readonly byPasser: readonly ReadLine[];
  readonly byOpponent: readonly ReadLine[];
  /** what the defense did to the key, by concept */
  readonly byKey: readonly ReadLine[];
  readonly byOptionRoute: readonly ReadLine[];
}
