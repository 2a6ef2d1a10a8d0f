/** What a finished export says: where it lies, how long it is, which clips are not in it. */

import { bytesInWords } from '../../parts/bytes.ts';

interface ReportParts {
  readonly path?: unknown;
  readonly rows?: unknown;
  readonly frames?: unknown;
  readonly seconds?: unknown;
  readonly bytes?: unknown;
  readonly without?: unknown;
  readonly segments?: unknown;
}

/** Where the file lies; null for a report that names none. */
export function exportPath(report: unknown): string | null {
  const { path } = (report ?? {}) as ReportParts;
  return typeof path === 'string' ? path : null;
}

export function exportInWords(report: unknown): string {
  const { path, rows, frames, seconds, bytes, without, segments } = (report ?? {}) as ReportParts;
  if (typeof path !== 'string') return 'not written';
  const size: string[] = [];
  if (typeof rows === 'number') size.push(rows === 1 ? '1 play' : `${rows} plays`);
  if (typeof frames === 'number') size.push(`${frames.toLocaleString('en-US')} frames`);
  if (typeof seconds === 'number') size.push(`${seconds.toFixed(1)} s`);
  if (typeof bytes === 'number') size.push(bytesInWords(bytes));
  const ways = waysOf(segments);
  if (ways !== '') size.push(ways);
  const missing = Array.isArray(without) ? without.filter((each) => typeof each === 'number') : [];
  const left =
    missing.length === 0
      ? ''
      : `; without ${missing.length === 1 ? 'clip' : 'clips'} ${missing.join(', ')}, of which there is no film`;
  return `written to ${path}${size.length > 0 ? ` (${size.join(', ')})` : ''}${left}`;
}

/** `58 copied but for the edges, 2 encoded` */
function waysOf(segments: unknown): string {
  if (!Array.isArray(segments)) return '';
  const words = { copied: 'copied', edges: 'copied but for the edges', encoded: 'encoded' } as const;
  return (Object.keys(words) as (keyof typeof words)[])
    .map((how) => ({ how, count: segments.filter((each) => each?.how === how).length }))
    .filter(({ count }) => count > 0)
    .map(({ how, count }) => `${count} ${words[how]}`)
    .join(', ');
}
