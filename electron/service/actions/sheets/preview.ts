import { ProblemError } from '../../../../football/result.ts';
import { readSheet, type Sheet } from '../../../export/tables/read-sheet.ts';
import type { Station } from '../../station.ts';
import { isMissing, readCell } from './cells.ts';
import { mapFor, mappedColumns } from './import.ts';
import type { SheetMap } from './mapping.ts';

export interface SheetPreview {
  readonly columns: readonly { name: string; samples: readonly string[]; field: string | null }[];
  /** each value of a vocabulary that the sheet uses, and what it would become; null: refused or a new term */
  readonly values: readonly {
    field: string;
    theirs: string;
    ours: string | null;
    isNew: boolean;
    count: number;
  }[];
  readonly rows: number;
  readonly firstRows: readonly (readonly string[])[];
  readonly map: SheetMap;
  /** why the map does not fit, where it does not */
  readonly trouble: string | null;
}

/** @throws ProblemError when the file cannot be read as a sheet */
export async function openSheet(path: string): Promise<Sheet> {
  const read = await readSheet(path);
  if (!read.ok) throw new ProblemError(read.problem);
  return read.value;
}

/** What a sheet holds and how it would be read; nothing is changed. */
export function previewSheet(station: Station, sheet: Sheet, given: Partial<SheetMap> | null): SheetPreview {
  const map = mapFor(station, sheet, given);
  let trouble: string | null = null;
  let columns: ReturnType<typeof mappedColumns> = [];
  try {
    columns = mappedColumns(station, sheet, map);
  } catch (error) {
    if (!(error instanceof ProblemError)) throw error;
    trouble = error.problem.message;
  }
  const values: { field: string; theirs: string; ours: string | null; isNew: boolean; count: number }[] = [];
  for (const { index, field } of columns) {
    if (field.kind !== 'term' || field.key === 'possession') continue;
    const counts = new Map<string, number>();
    for (const row of sheet.rows) {
      const cell = (row[index] ?? '').trim();
      const mapped = map.values[field.key]?.[cell];
      if (mapped === undefined && isMissing(cell)) continue;
      counts.set(cell, (counts.get(cell) ?? 0) + 1);
    }
    for (const [theirs, count] of [...counts].sort((a, b) => b[1] - a[1])) {
      const mapped = map.values[field.key]?.[theirs];
      const reading = readCell(field, mapped ?? theirs, station.vocabulary(), mapped !== undefined);
      const name = reading.ok && reading.value?.kind === 'term' ? reading.value.name : null;
      values.push({
        field: field.key,
        theirs,
        ours: mapped === '' ? '' : name,
        isNew: reading.ok && reading.newTerm !== undefined,
        count,
      });
    }
  }
  return {
    columns: sheet.columns.map((name, i) => ({
      name,
      samples: [...new Set(sheet.rows.map((r) => (r[i] ?? '').trim()).filter((c) => c !== ''))].slice(0, 4),
      field: Object.hasOwn(map.columns, name) ? (map.columns[name] ?? null) : null,
    })),
    values,
    rows: sheet.rows.length,
    firstRows: sheet.rows.slice(0, 8),
    map,
    trouble,
  };
}
