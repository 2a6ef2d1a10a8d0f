import type { PlayView } from '../../../../electron/service/views.ts';
import type { LogLineReading } from '../../../../football/log-line/index.ts';
import type { PlayRecord } from '../../../../football/play.ts';
import { plainValue } from '../../../../football/values.ts';
import { PLAY_COLUMN_KEYS } from '../../../../football/vocabulary/fields.ts';
import { knownPlay } from '../known-play.ts';

const COLUMNS = new Set(PLAY_COLUMN_KEYS);

/** The play as it would stand if the line were logged now: stored values, predictions, and over them what is typed. */
export function typedRecord(play: PlayView, reading: LogLineReading | null): PlayRecord {
  if (!reading || reading.changes.length === 0) return play.record;
  const columns: Record<string, unknown> = { ...knownPlay(play) };
  const tags: Record<string, string | number> = { ...play.record.tags };
  for (const { field, value } of reading.changes) {
    const plain = plainValue(value);
    if (COLUMNS.has(field)) columns[field] = plain;
    else if (plain === null) delete tags[field];
    else tags[field] = typeof plain === 'boolean' ? Number(plain) : plain;
  }
  return { ...(columns as unknown as PlayRecord), tags };
}
