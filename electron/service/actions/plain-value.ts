import { type FieldValue, parseNumber } from '../../../football/values.ts';
import type { FieldDefinition } from '../../../football/vocabulary/fields.ts';
import { termId } from '../../../football/vocabulary/terms.ts';

/** `#84 Ira Novak`, `84`, `84 Ira Novak` or a name. */
export function playerFromLabel(label: string): FieldValue {
  const match = /^#?\s*(\d{1,2})(?:\s+|\s*[-.]\s*|$)(.*)$/.exec(label.trim());
  const name = (match ? match[2] : label)?.trim() ?? '';
  return {
    kind: 'player',
    playerId: null,
    number: match ? Number(match[1]) : null,
    name: name === '' ? null : name,
    team: null,
  };
}

/** A value as a play record holds it, as a value for the journal; null for none. */
export function valueFromPlain(field: FieldDefinition, plain: unknown): FieldValue | null {
  if (plain === null || plain === undefined || plain === '') return null;
  switch (field.kind) {
    case 'term':
      return { kind: 'term', termId: termId(field.key, String(plain)), name: String(plain) };
    case 'player':
      return playerFromLabel(String(plain));
    case 'text':
      return { kind: 'text', text: String(plain) };
    case 'flag':
      return { kind: 'flag', flag: plain === true || plain === 1 };
    default: {
      const number = typeof plain === 'number' ? plain : parseNumber(String(plain));
      return number === null ? null : { kind: 'number', number };
    }
  }
}
