/** The roster as a list: by team, then by number; found by number or by a part of the name. */

import type { PlayerView } from '../../../../electron/service/views.ts';
import type { Question } from '../../../../football/question/ast.ts';
import { playerLabel } from '../../../../football/values.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';

export function playersShown(
  players: readonly PlayerView[],
  team: string | null,
  sought: string,
): PlayerView[] {
  const wanted = sought.trim().toLowerCase().replace(/^#/, '');
  return players
    .filter((player) => team === null || player.team === team)
    .filter(
      (player) =>
        wanted === '' ||
        String(player.number) === wanted ||
        (player.name ?? '').toLowerCase().includes(wanted) ||
        (player.position ?? '').toLowerCase() === wanted,
    )
    .sort(
      (a, b) =>
        (a.team ?? '').localeCompare(b.team ?? '') ||
        (a.number ?? 100) - (b.number ?? 100) ||
        (a.name ?? '').localeCompare(b.name ?? ''),
    );
}

/** Every play in which the player has a part, as any of the fields of people has it. */
export function playsOfPlayer(player: PlayerView, fields: readonly FieldDefinition[]): Question {
  const value = playerLabel(player);
  return {
    kind: 'group',
    combinator: 'or',
    rules: fields
      .filter((field) => field.kind === 'player')
      .map((field) => ({ kind: 'rule', field: field.key, operator: '=', value })),
  };
}

/** A jersey number as typed: 0 to 99, null for blank, undefined for what is none. */
export function jerseyNumber(text: string): number | null | undefined {
  const plain = text.trim().replace(/^#/, '');
  if (plain === '') return null;
  return /^\d{1,2}$/.test(plain) ? Number(plain) : undefined;
}
