/** What a play has in each field, as the columns keep it. */

import type { PlayColumns, PlayRecord } from '../../football/play.ts';
import { COUNTED_FLAGS, derivedValue } from '../../football/vocabulary/derived-fields.ts';
import type { FieldDefinition, FieldKind } from '../../football/vocabulary/fields.ts';
import type { SituationLimits } from '../../football/vocabulary/situation-limits.ts';

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

/** Reads plays for the columns, with a staff's limits and the counters that some flags come from. */
export class FieldValues {
  private readonly flags: ReadonlyMap<string, readonly [known: number, counter: number]>;

  constructor(
    private readonly limits: SituationLimits,
    counters: readonly string[],
  ) {
    this.flags = new Map(
      Object.entries(COUNTED_FLAGS).map(([key, [known, counter]]) => [
        key,
        [counters.indexOf(known), counters.indexOf(counter)],
      ]),
    );
  }

  /**
   * Words for a field of words, else a number; null where it is missing. The play may be absent for a field of the game.
   * @param facts the play's counters
   */
  of(
    field: FieldDefinition,
    play: PlayRecord | null,
    game: GameRow,
    facts: ArrayLike<number>,
  ): string | number | null {
    const value = this.raw(field, play, game, facts);
    if (value === null || value === undefined) return null;
    if (isWordKind(field.kind)) {
      // a number nobody on the roster wears comes bare
      return field.kind === 'player' && typeof value === 'number' ? `#${value}` : String(value);
    }
    if (typeof value === 'boolean') return value ? 1 : 0;
    const number = typeof value === 'number' ? value : Number.NaN;
    return Number.isNaN(number) ? null : number;
  }

  private raw(
    field: FieldDefinition,
    play: PlayRecord | null,
    game: GameRow,
    facts: ArrayLike<number>,
  ): string | number | boolean | null | undefined {
    switch (field.home) {
      case 'game':
        return field.key === 'game' ? game.title : field.key === 'season' ? game.season : null;
      case 'play':
        return play?.[field.key as keyof PlayColumns];
      case 'tag':
        return play && Object.hasOwn(play.tags, field.key) ? play.tags[field.key] : null;
      case 'derived': {
        const flag = this.flags.get(field.key);
        if (flag) return facts[flag[0]] ? (facts[flag[1]] ?? null) : null;
        return play && derivedValue(field.key, play, this.limits);
      }
    }
  }
}
