/** What a job that brings film in reports, read with care: it may be of an older version, or not there yet. */

import type { JobState } from '../../../electron/service/views.ts';

export interface AddReport {
  readonly added: number;
  /** of the added, the ones whose content was in the library already */
  readonly known: number;
  /** names of those, so that a coach sees what came twice */
  readonly knownNames: readonly string[];
  /** films whose proxy is made in the background */
  readonly proxies: number;
  readonly refused: readonly { readonly path: string; readonly reason: string }[];
  readonly playsMade: number;
  readonly playsPaired: number;
}

export function readAddReport(report: unknown): AddReport | null {
  if (typeof report !== 'object' || report === null) return null;
  const { added, refused, plays, proxies } = report as Record<string, unknown>;
  const films = Array.isArray(added) ? (added as { known?: unknown; path?: unknown }[]) : [];
  const known = films.filter((film) => film.known === true);
  const counts = (typeof plays === 'object' && plays !== null ? plays : {}) as {
    made?: unknown;
    paired?: unknown;
  };
  return {
    added: films.length,
    known: known.length,
    knownNames: known.flatMap(({ path }) => (typeof path === 'string' ? [path.replace(/^.*[\\/]/, '')] : [])),
    proxies: typeof proxies === 'number' ? proxies : 0,
    refused: (Array.isArray(refused) ? refused : []).flatMap((each: { path?: unknown; reason?: unknown }) =>
      typeof each?.path === 'string' && typeof each.reason === 'string'
        ? [{ path: each.path, reason: each.reason }]
        : [],
    ),
    playsMade: typeof counts.made === 'number' ? counts.made : 0,
    playsPaired: typeof counts.paired === 'number' ? counts.paired : 0,
  };
}

const count = (n: number, one: string, many = `${one}s`) => (n === 1 ? `1 ${one}` : `${n} ${many}`);

/** `28 films added, 1 refused; 14 plays made, 14 got another angle`. */
export function reportInWords(state: JobState, report: AddReport | null): string {
  const lead = state === 'cancelled' ? 'cancelled; ' : state === 'failed' ? 'stopped; ' : '';
  if (!report) return `${lead}nothing was added`;
  const known =
    report.known > 0 ? ` (${report.known} ${report.known === 1 ? 'was' : 'were'} here already)` : '';
  const films = [`${count(report.added, 'film')} added${known}`];
  if (report.refused.length > 0) films.push(`${report.refused.length} refused`);
  const plays: string[] = [];
  if (report.playsMade > 0) plays.push(`${count(report.playsMade, 'play')} made`);
  if (report.playsPaired > 0) plays.push(`${report.playsPaired} got another angle`);
  if (report.proxies > 0) plays.push(`${count(report.proxies, 'proxy', 'proxies')} to be made`);
  return `${lead}${[films.join(', '), plays.join(', ')].filter(Boolean).join('; ')}`;
}
