import { OUTCOMES } from '../../../football/expected-points/form.ts';
import { expectedPoints } from '../../../football/expected-points/model.ts';
import { ProblemError } from '../../../football/result.ts';
import { parseNumber } from '../../../football/values.ts';
import type { Cell } from '../../export/tables/cells.ts';
import { writeCsv } from '../../export/tables/csv.ts';
import { openSheet } from './sheets/preview.ts';

const NEEDED = ['down', 'ydstogo', 'yardline_100', 'half_seconds_remaining'] as const;

export interface ExpectedPointsReport {
  readonly rows: number;
  /** rows whose situation is not one of expected points, counted from 1 */
  readonly refused: readonly { row: number; reason: string }[];
  readonly path: string;
}

/**
 * Adds `ep` and the probability of each next score in the half to a sheet of situations. Rows that are no situation keep
 * their place and get empty cells.
 * @throws ProblemError `map-unfit`, and why the sheet cannot be read or written
 */
export async function addExpectedPoints(sheetPath: string, to: string): Promise<ExpectedPointsReport> {
  const sheet = await openSheet(sheetPath);
  const missing = NEEDED.filter((name) => !sheet.columns.includes(name));
  if (missing.length > 0) {
    throw new ProblemError({
      code: 'map-unfit',
      message: `The sheet has no column ${missing.join(', ')}.`,
      kept: 'Nothing was written.',
      next: `It needs ${NEEDED.join(', ')}.`,
    });
  }
  const at = NEEDED.map((name) => sheet.columns.indexOf(name));
  const seasonAt = sheet.columns.indexOf('season');
  const refused: { row: number; reason: string }[] = [];
  const rows = sheet.rows.map((cells, i): Cell[] => {
    const kept = cells.map((cell): Cell => parseNumber(cell) ?? cell);
    const [down, distance, yardsToGoal, seconds] = at.map((column) => parseNumber(cells[column] ?? ''));
    if (
      down == null ||
      distance == null ||
      yardsToGoal == null ||
      down < 1 ||
      down > 4 ||
      yardsToGoal < 1 ||
      yardsToGoal > 99 ||
      distance <= 0
    ) {
      refused.push({ row: i + 1, reason: 'no down, distance and spot of a play from scrimmage' });
      return [...kept, null, ...OUTCOMES.map(() => null)];
    }
    const season = seasonAt < 0 ? null : parseNumber(cells[seasonAt] ?? '');
    const { ep, probabilities } = expectedPoints({
      down,
      distance,
      yardsToGoal,
      halfSecondsRemaining: seconds ?? null,
      ...(season === null ? {} : { season }),
    });
    return [...kept, ep, ...OUTCOMES.map((outcome) => probabilities[outcome])];
  });
  const written = await writeCsv(to, {
    columns: [...sheet.columns, 'ep', ...OUTCOMES.map((o) => `p_${o}`)],
    rows,
  });
  if (!written.ok) throw new ProblemError(written.problem);
  return { rows: rows.length - refused.length, refused, path: to };
}
