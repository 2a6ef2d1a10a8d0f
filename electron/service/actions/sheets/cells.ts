import {
  type FieldValue,
  numberTrouble,
  parseClock,
  parseFlag,
  parseNumber,
  parseSpot,
} from '../../../../football/values.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { termId } from '../../../../football/vocabulary/terms.ts';
import type { StationVocabulary } from '../../vocabulary.ts';
import { playerFromLabel } from '../plain-value.ts';

export type CellReading =
  | { readonly ok: true; readonly value: FieldValue | null; readonly newTerm?: string }
  | { readonly ok: false; readonly reason: string };

/** Cells that say nothing. */
const MISSING = new Set(['', 'na', 'n/a', 'null', 'nan', 'none given', '-', '--', '—']);

export function isMissing(text: string): boolean {
  return MISSING.has(text.trim().toLowerCase());
}

/**
 * Reads one cell as a value of a field; a cell that says nothing gives null.
 * @param mapped the cell came through the value map, so it stands as it is written there
 */
export function readCell(
  field: FieldDefinition,
  text: string,
  vocabulary: StationVocabulary,
  mapped = false,
): CellReading {
  const cell = text.trim();
  if (mapped ? cell === '' : isMissing(cell)) return { ok: true, value: null };
  switch (field.kind) {
    case 'term':
      return readTerm(field, cell, vocabulary);
    case 'number':
      return readNumber(field, parseNumber(cell), cell);
    case 'clock':
      return readNumber(field, parseClock(dropHours(cell)) ?? parseNumber(cell), cell);
    case 'spot':
      return readNumber(
        field,
        cell.startsWith('+') || cell.startsWith('-') ? parseSpot(cell) : parseNumber(cell),
        cell,
      );
    case 'flag': {
      const flag = parseFlag(cell);
      return flag === null
        ? refuse(`${cell} is neither yes nor no`)
        : { ok: true, value: { kind: 'flag', flag } };
    }
    case 'player':
      return { ok: true, value: playerFromLabel(cell) };
    case 'text':
      return { ok: true, value: { kind: 'text', text: cell } };
  }
}

function readTerm(field: FieldDefinition, cell: string, vocabulary: StationVocabulary): CellReading {
  if (field.key === 'possession')
    return { ok: true, value: { kind: 'term', termId: termId(field.key, cell), name: cell } };
  const known = vocabulary.findTerm(field.key, cell);
  if (known) return { ok: true, value: { kind: 'term', termId: known.id, name: known.name } };
  if (field.closed) {
    const terms = vocabulary.terms.filter((t) => t.field === field.key).map((t) => t.name);
    return refuse(`${field.label} knows no ${cell}; it takes ${terms.join(', ')}`);
  }
  return { ok: true, value: { kind: 'term', termId: termId(field.key, cell), name: cell }, newTerm: cell };
}

function readNumber(field: FieldDefinition, number: number | null, cell: string): CellReading {
  if (number === null)
    return refuse(
      `${cell} is not ${field.kind === 'spot' ? 'a spot' : field.kind === 'clock' ? 'a time' : 'a number'}`,
    );
  const trouble = numberTrouble(field, number);
  return trouble ? refuse(`${cell}: ${trouble}`) : { ok: true, value: { kind: 'number', number } };
}

/** Spreadsheets write 7:42 as 7:42:00 or 0:07:42; the part that is no minute or second is dropped. */
function dropHours(cell: string): string {
  const parts = cell.split(':');
  if (parts.length !== 3) return cell;
  return Number(parts[0]) === 0
    ? `${Number(parts[1])}:${parts[2]}`
    : parts[2] === '00'
      ? `${parts[0]}:${parts[1]}`
      : cell;
}

function refuse(reason: string): CellReading {
  return { ok: false, reason };
}
