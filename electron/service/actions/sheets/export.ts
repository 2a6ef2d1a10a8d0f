import { extname } from 'node:path';
import { loadPlaysById } from '../../../../db/repositories/play-records.ts';
import { ProblemError } from '../../../../football/result.ts';
import { formatPlain } from '../../../../football/values.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { writeCsv } from '../../../export/tables/csv.ts';
import { writeXlsx } from '../../../export/tables/xlsx.ts';
import type { Station } from '../../station.ts';
import { answer } from '../answers.ts';

export type PlainRow = Record<string, string | number | boolean | null>;

/** @throws ProblemError `field-unknown` */
export function chosenFields(
  station: Station,
  keys: readonly string[] | null | undefined,
): FieldDefinition[] {
  const { fields } = station.vocabulary();
  if (!keys || keys.length === 0)
    return fields.all.filter((f) => f.home !== 'derived' || f.key === 'timeToThrow');
  return keys.map((key) => {
    const field = fields.find(key.trim());
    if (field) return field;
    const near = fields.nearest(key);
    throw new ProblemError({
      code: 'field-unknown',
      message: `There is no field ${key}.`,
      next: near ? `Did you mean ${near}?` : '`tapebook fields` lists all fields.',
    });
  });
}

/** Plays as plain rows, in the order of play: `playId` and the fields. Flags are true or false, spots yards to goal. */
export function listPlays(station: Station, where: string, keys?: readonly string[] | null): PlainRow[] {
  return plainPlays(station, answer(station, where, ['calls']).playIds, keys);
}

/** The same of these plays, in the order given. */
export function plainPlays(
  station: Station,
  playIds: readonly string[],
  keys?: readonly string[] | null,
): PlainRow[] {
  return plainRows(station, playIds, chosenFields(station, keys));
}

function plainRows(
  station: Station,
  playIds: readonly string[],
  fields: readonly FieldDefinition[],
): PlainRow[] {
  const columns = station.columns();
  return playIds.map((playId) => {
    const row: PlainRow = { playId };
    for (const field of fields) {
      const value = columns.valueOf(playId, field.key);
      row[field.key] = field.kind === 'flag' && value !== null ? value === 1 : value;
    }
    return row;
  });
}

export interface ExportPlays {
  /** plays in this order, or a question */
  readonly playIds?: readonly string[];
  readonly where?: string;
  readonly fields?: readonly string[] | null;
  /** ends in .csv or .xlsx */
  readonly to: string;
}

/**
 * Writes plays as a sheet that can be brought in again: headings are field keys, spots are written -35 / +20, clocks
 * m:ss. Columns in which nothing stands are left out unless they were asked for.
 * @returns how many rows were written
 * @throws ProblemError `export-format`, `target-unwritable`, `disk-full`
 */
export async function exportPlays(station: Station, wanted: ExportPlays): Promise<number> {
  const ids = wanted.playIds ?? answer(station, wanted.where ?? '', ['calls']).playIds;
  const there = new Set(loadPlaysById(station.library.db, ids).map((p) => p.record.playId));
  const plain = plainRows(
    station,
    ids.filter((id) => there.has(id)),
    chosenFields(station, wanted.fields),
  );
  const fields = chosenFields(station, wanted.fields).filter(
    (f) => wanted.fields?.length || plain.some((row) => row[f.key] !== null),
  );
  const rows = plain.map((row) =>
    fields.map((f) => {
      const value = row[f.key] ?? null;
      return typeof value === 'number' && f.kind !== 'spot' && f.kind !== 'clock'
        ? value
        : formatPlain(f, value);
    }),
  );
  const table = { columns: fields.map((f) => f.key), rows };
  const ending = extname(wanted.to).toLowerCase();
  const written =
    ending === '.csv'
      ? await writeCsv(wanted.to, table)
      : ending === '.xlsx'
        ? await writeXlsx(wanted.to, table)
        : null;
  if (!written) {
    throw new ProblemError({
      code: 'export-format',
      message: `${wanted.to} is neither .csv nor .xlsx.`,
      kept: 'Nothing was written.',
      next: 'End the name in .csv or .xlsx.',
    });
  }
  if (!written.ok) throw new ProblemError(written.problem);
  return rows.length;
}
