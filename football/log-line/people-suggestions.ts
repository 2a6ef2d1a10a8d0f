/** Players to offer for a number or a name that is being typed. */
import { type FieldValue, playerLabel } from '../values.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';
import { spellingKey, spellingWords, type VocabularyIndex } from './index-vocabulary.ts';
import { teamOf } from './people.ts';
import { fieldName, sayExplicitly } from './spell.ts';
import type { Likelihood, LogLineContext, Suggestion } from './types.ts';

/** Players whose number, or a word of whose name, begins with `typed`; of the side the field is of. */
export function suggestPlayers(
  index: VocabularyIndex,
  field: FieldDefinition,
  typed: string,
  context: LogLineContext,
  likelihood: Likelihood,
): Omit<Suggestion, 'start' | 'end'>[] {
  const key = typed.trim().replace(/^#/, '').toLowerCase();
  const side = teamOf(index, field, context.play?.possession ?? null);
  const shares = likelihood(field.key);
  const name = fieldName(index, field.key);
  return index.vocabulary.players
    .filter(({ team }) => side === null || team === side)
    .filter(
      (player) =>
        !key ||
        String(player.number ?? '').startsWith(key) ||
        spellingWords(player.name).some((word) => word.startsWith(key)),
    )
    .map(({ id, number, name: called, team }) => {
      const value: FieldValue = { kind: 'player', playerId: id, number, name: called, team };
      const label = playerLabel(value);
      const share = shares.get(spellingKey(label));
      const wearers = number === null ? [] : (index.playersByNumber.get(number) ?? []);
      const isClear = wearers.filter((p) => side === null || p.team === side).length === 1;
      return {
        insert: isClear ? `${name}${number}` : sayExplicitly(index, field, value),
        field: field.key,
        value,
        display: `${field.label}: ${label}`,
        ...(share === undefined ? {} : { share }),
      };
    });
}
