/** What a finished export says: where it lies, how long it is, which clips are not in it. */

import { bytesInWords } from '../../parts/bytes.ts';

interface ReportParts {
  readonly path?: unknown;
  readonly rows?: unknown;
  readonly frames?: unknown;
  readonly seconds?: unknown;
  readonly bytes?: unknown;
  readonly without?: unknown;
}

/** Where the file lies; null for a report that names none. */
export function exportPath(report: unknown): string | null {
  const { path } = (report ?? {}) as ReportParts;
  return typeof path === 'string' ? path : null;
}

export function exportInWords(report: unknown): string {
  const { path, rows, frames, seconds, bytes, without } = (report ?? {}) as ReportParts;
  if (typeof path !== 'string') return 'not written';
  const size: string[] = [];
  if (typeof rows === 'number') size.push(rows === 1 ? '1 play' : `${rows} plays`);
  if (typeof frames === 'number') size.push(`${frames.toLocaleString('en-US')} frames`);
  if (typeof seconds === 'number') size.push(`${seconds.toFixed(1)} s`);
  if (typeof bytes === 'number') size.push(bytesInWords(bytes));
  const missing = Array.isArray(without) ? without.filter((each) => typeof each === 'number') : [];
  const left =
    missing.length === 0
      ? ''
      : `; without ${missing.length === 1 ? 'clip' : 'clips'} ${missing.join(', ')}, of which there is no film`;
  return `written to ${path}${size.length > 0 ? ` (${size.join(', ')})` : ''}${left}`;
}
