/**
 * A field's value, and its one spelling in text: the log line, the importer, the command line, tables and
 * questions all read and write values through this file.
 */
import type { FieldDefinition } from './vocabulary/fields.ts';
import { termKey } from './vocabulary/terms.ts';

export type FieldValue =
  | { readonly kind: 'term'; readonly termId: string; readonly name: string }
  /** also spots (yards to goal) and clocks (seconds left in the quarter) */
  | { readonly kind: 'number'; readonly number: number }
  | { readonly kind: 'flag'; readonly flag: boolean }
  | { readonly kind: 'text'; readonly text: string }
  | PlayerValue
  /** takes the value away */
  | { readonly kind: 'clear' };

/** A player of a roster has an id; a number nobody on the roster wears has none. */
export interface PlayerValue {
  readonly kind: 'player';
  readonly playerId: string | null;
  readonly number: number | null;
  readonly name: string | null;
  /** name of the player's team, where it is known */
  readonly team: string | null;
}

/** A value as a `PlayRecord` holds it; null where there is none. */
export type PlainValue = string | number | boolean | null;

/** `-35` (own 35) is 65 yards to goal, `+20` is 20, `50` is midfield; null for anything else. */
export function parseSpot(text: string): number | null {
  const match = /^([-+\u2212]?)(\d{1,2})$/.exec(text.trim());
  if (!match) return null;
  const yardLine = Number(match[2]);
  if (yardLine === 50) return 50;
  if (!match[1] || yardLine < 1 || yardLine > 49) return null;
  return match[1] === '+' ? yardLine : 100 - yardLine;
}

/** The inverse of `parseSpot` for 1..99 yards to goal. */
export function formatSpot(yardsToGoal: number): string {
  if (yardsToGoal === 50) return '50';
  return yardsToGoal < 50 ? `+${yardsToGoal}` : `-${100 - yardsToGoal}`;
}

/** `7:42` or `:42` as seconds left in the quarter, at most 15:00; null for anything else. */
export function parseClock(text: string): number | null {
  const match = /^(\d{0,2}):([0-5]\d)$/.exec(text.trim());
  if (!match) return null;
  const seconds = Number(match[1] || 0) * 60 + Number(match[2]);
  return seconds <= 900 ? seconds : null;
}

/** Seconds as `7:42`. */
export function formatClock(clockSeconds: number): string {
  const seconds = Math.max(0, Math.round(clockSeconds));
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}

/** `#84 Ira Novak`, `#84`, or the name alone: how a player stands in a play record, a table and a sheet. */
export function playerLabel(player: {
  readonly number: number | null;
  readonly name: string | null;
}): string {
  const name = player.name?.trim() ?? '';
  if (player.number === null) return name;
  return name ? `#${player.number} ${name}` : `#${player.number}`;
}

const YES = new Set(['yes', 'y', 'true', 't', '1', 'x']);
const NO = new Set(['no', 'n', 'false', 'f', '0']);

/** Yes or no in the usual spellings; null for anything else. */
export function parseFlag(text: string): boolean | null {
  const key = text.trim().toLowerCase();
  if (YES.has(key)) return true;
  return NO.has(key) ? false : null;
}

/** A whole or decimal number with an optional sign (a typographic minus too); null for anything else. */
export function parseNumber(text: string): number | null {
  const plain = text.trim().replace(/^\u2212/, '-');
  return /^[-+]?(\d+(\.\d+)?|\.\d+)$/.test(plain) ? Number(plain) + 0 : null;
}

interface Limits {
  readonly min: number;
  readonly max: number;
}

/** What the field and the game allow; coarse bounds that catch slips of the finger. common practice, no source */
const NUMBER_LIMITS: ReadonlyMap<string, Limits> = new Map([
  ['playNumber', { min: 1, max: 99_999 }],
  ['drive', { min: 1, max: 99 }],
  ['quarter', { min: 1, max: 20 }],
  ['clock', { min: 0, max: 900 }],
  ['down', { min: 1, max: 4 }],
  ['distance', { min: 1, max: 99 }],
  ['yardsToGoal', { min: 1, max: 99 }],
  ['scoreFor', { min: 0, max: 250 }],
  ['scoreAgainst', { min: 0, max: 250 }],
  ['rushers', { min: 0, max: 11 }],
  ['gain', { min: -99, max: 99 }],
  ['airYards', { min: -99, max: 99 }],
  ['yardsAfterCatch', { min: -99, max: 99 }],
  ['kickYards', { min: 0, max: 99 }],
  ['returnYards', { min: -99, max: 109 }],
  ['penaltyYards', { min: 0, max: 99 }],
]);

/** Why a number cannot stand in the field, in a coach's words; null where it can. */
export function numberTrouble(field: FieldDefinition, number: number): string | null {
  if (!Number.isFinite(number)) return `${field.label} must be a number.`;
  const limits = NUMBER_LIMITS.get(field.key);
  if (!limits) return null;
  if (!Number.isInteger(number)) return `${field.label} must be a whole number.`;
  if (number < limits.min || number > limits.max)
    return `${field.label} must be from ${limits.min} to ${limits.max}.`;
  return null;
}

/** The value as a `PlayRecord` holds it: term names, numbers, flags, text, player labels. */
export function plainValue(value: FieldValue): PlainValue {
  switch (value.kind) {
    case 'term':
      return value.name;
    case 'number':
      return value.number;
    case 'flag':
      return value.flag;
    case 'text':
      return value.text;
    case 'player':
      return playerLabel(value);
    case 'clear':
      return null;
  }
}

/** A plain value in the field's own spelling: `-35`, `7:42`, `yes`; an empty string for a missing one. */
export function formatPlain(field: FieldDefinition, plain: PlainValue): string {
  if (plain === null) return '';
  if (typeof plain === 'boolean') return plain ? 'yes' : 'no';
  if (typeof plain === 'number') {
    if (field.kind === 'spot') return formatSpot(plain);
    if (field.kind === 'clock') return formatClock(plain);
  }
  return String(plain);
}

/** A value in the field's own spelling; an empty string for a cleared one. */
export function formatValue(field: FieldDefinition, value: FieldValue): string {
  return formatPlain(field, plainValue(value));
}

/** Whether two values mean the same. */
export function sameValue(a: FieldValue, b: FieldValue): boolean {
  if (a.kind !== b.kind) return false;
  switch (a.kind) {
    case 'term':
      return a.termId === (b as typeof a).termId;
    case 'player': {
      const other = b as PlayerValue;
      if (a.playerId !== null || other.playerId !== null) return a.playerId === other.playerId;
      return a.number === other.number && termKey(a.name ?? '') === termKey(other.name ?? '');
    }
    default:
      return plainValue(a) === plainValue(b);
  }
}
