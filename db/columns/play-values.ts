/** What a play has in each field, as the columns keep it. */

import type { PlayColumns, PlayRecord } from '../../football/play.ts';
import type { FieldDefinition, FieldKind } from '../../football/vocabulary/fields.ts';

export interface GameRow {
  readonly gameId: string;
  readonly title: string | null;
  readonly season: number | null;
  /** ISO 8601 */
  readonly date: string | null;
}

/** Whether a field of this kind is kept as words; else as numbers, flags as 1 and 0. */
export function isWordKind(kind: FieldKind): boolean {
  return kind === 'term' || kind === 'text' || kind === 'player';
}

/** Words for a field of words, else a number; null where it is missing. The play may be absent for a field of the game. */
export function fieldValue(
  field: FieldDefinition,
  play: PlayRecord | null,
  game: GameRow,
): string | number | null {
  const value = rawValue(field, play, game);
  if (value === null || value === undefined) return null;
  if (isWordKind(field.kind)) {
    // a number nobody on the roster wears comes bare
    return field.kind === 'player' && typeof value === 'number' ? `#${value}` : String(value);
  }
  if (typeof value === 'boolean') return value ? 1 : 0;
  const number = typeof value === 'number' ? value : Number.NaN;
  return Number.isNaN(number) ? null : number;
}

function rawValue(
  field: FieldDefinition,
  play: PlayRecord | null,
  game: GameRow,
): string | number | boolean | null | undefined {
  switch (field.home) {
    case 'game':
      return field.key === 'game' ? game.title : field.key === 'season' ? game.season : null;
    case 'play':
      return play?.[field.key as keyof PlayColumns];
    case 'tag':
      return play && Object.hasOwn(play.tags, field.key) ? play.tags[field.key] : null;
    case 'derived':
      return field.key === 'timeToThrow' && play ? timeToThrow(play) : null;
  }
}

/** Seconds from snap to release. Film times are whole microseconds, so the difference is rounded to one. */
function timeToThrow({ moments: { snap, release } }: PlayRecord): number | null {
  if (snap === undefined || release === undefined || release <= snap) return null;
  return Math.round((release - snap) * 1e6) / 1e6;
}
