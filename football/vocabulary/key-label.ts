/** A row's or column's value in words. */

import { formatPlain } from '../values.ts';
import type { FieldDefinition } from './fields.ts';

const ORDINALS = ['', '1st', '2nd', '3rd', '4th'];

export function keyLabel(field: FieldDefinition | undefined, key: string | number | boolean | null): string {
  if (key === null || key === '') return 'not tagged';
  if (!field) return String(key);
  if (field.key === 'down' && typeof key === 'number') return ORDINALS[key] ?? String(key);
  return formatPlain(field, key);
}
