import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import Papa from 'papaparse';
import type { OpenRow } from '../../football/open-names/open-row.ts';

const DATA = new URL('../../../shared/data/', import.meta.url);

/** Path of a file of the shared test data; the data is not part of the project. */
export function dataPath(name: string): string {
  return fileURLToPath(new URL(name, DATA));
}

export function hasData(name: string): boolean {
  return existsSync(dataPath(name));
}

export function readData(name: string): string {
  const bytes = readFileSync(dataPath(name));
  return (name.endsWith('.gz') ? gunzipSync(bytes) : bytes).toString('utf8');
}

export function readRows(name: string): OpenRow[] {
  return Papa.parse<OpenRow>(readData(name), { header: true, skipEmptyLines: true }).data;
}
