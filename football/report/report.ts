/** A finished report: the same for the screen, the printed page, the folder of film and the command line. */

import type { ReportKind } from './template.ts';

export interface ReportCell {
  readonly text: string;
  /** what the number stands on: its count and its interval */
  readonly detail?: string;
  /** the plays behind it, in order; null where it is only a word */
  readonly playIds: readonly string[] | null;
  /** stands on fewer plays than the template asks for */
  readonly small?: boolean;
}

export interface ReportTable {
  readonly caption: string | null;
  readonly columns: readonly string[];
  /** the first cell of a row is its head */
  readonly rows: readonly (readonly ReportCell[])[];
}

export interface ReportSection {
  readonly key: string;
  readonly title: string;
  /** how it is counted and ordered */
  readonly note: string;
  /** the question whose plays it is made of, as the Ask room takes it */
  readonly where: string;
  readonly playIds: readonly string[];
  readonly tables: readonly ReportTable[];
  /** why there is nothing in it */
  readonly empty: string | null;
}

export interface Report {
  readonly kind: ReportKind;
  readonly title: string;
  /** the team the report is about */
  readonly team: string;
  readonly template: string;
  /** date it was made, YYYY-MM-DD; the one thing that differs between two reports on the same library */
  readonly made: string;
  readonly plays: number;
  readonly games: readonly string[];
  /** what a reader must know before the numbers */
  readonly cautions: readonly string[];
  readonly sections: readonly ReportSection[];
}

/** Every play that any number of the report stands on, once, in the order of first mention. */
export function playsOfReport(report: Report): string[] {
  const ids = new Set<string>();
  for (const section of report.sections) {
    for (const id of section.playIds) ids.add(id);
    for (const table of section.tables)
      for (const row of table.rows) for (const cell of row) for (const id of cell.playIds ?? []) ids.add(id);
  }
  return [...ids];
}

export function playsInWords(count: number): string {
  return count === 0 ? 'no plays' : count === 1 ? '1 play' : `${count} plays`;
}
