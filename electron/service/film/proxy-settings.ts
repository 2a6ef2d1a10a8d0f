import type { Library } from '../../../db/library.ts';
import { ProblemError } from '../../../football/result.ts';

export interface ProxySettings {
  /** all proxies together take no more than this */
  readonly limitBytes: number;
  /** the picture of a proxy is made no larger than this */
  readonly fit: { readonly width: number; readonly height: number };
}

const KEY = 'proxies';
const DEFAULTS = { limitBytes: 40e9, height: 720 };

/** How proxies are made on this machine. It is about this machine's drive, so it does not travel with the library. */
export function proxySettings(library: Library): ProxySettings {
  const { limitBytes, height } = stored(library);
  return { limitBytes, fit: { width: Math.round((height * 16) / 9), height } };
}

/** @throws ProblemError `setting-unfit` */
export function changeProxySettings(
  library: Library,
  change: { readonly limitGigabytes?: number; readonly height?: number },
): ProxySettings {
  const { limitGigabytes, height } = change;
  if (limitGigabytes !== undefined && !(limitGigabytes >= 0 && limitGigabytes <= 100_000)) {
    throw unfit(`${limitGigabytes} GB cannot be the limit for proxies.`, 'Give gigabytes from 0.');
  }
  if (height !== undefined && !(Number.isInteger(height) && height >= 240 && height <= 2160)) {
    throw unfit(`A proxy cannot be ${height} lines high.`, 'Give whole lines from 240 to 2160.');
  }
  const now = stored(library);
  const next = {
    limitBytes: limitGigabytes === undefined ? now.limitBytes : Math.round(limitGigabytes * 1e9),
    height: height ?? now.height,
  };
  library.db
    .prepare('INSERT OR REPLACE INTO local (key, value) VALUES (?, ?)')
    .run(KEY, JSON.stringify(next));
  return proxySettings(library);
}

function stored(library: Library): typeof DEFAULTS {
  const row = library.db.prepare('SELECT value FROM local WHERE key = ?').get(KEY) as
    | { value: string }
    | undefined;
  return { ...DEFAULTS, ...(row ? (JSON.parse(row.value) as Partial<typeof DEFAULTS>) : {}) };
}

function unfit(message: string, next: string): ProblemError {
  return new ProblemError({ code: 'setting-unfit', message, kept: 'Nothing was changed.', next });
}
