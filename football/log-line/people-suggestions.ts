/** Players to offer for a number or a name that is being typed. */
import { type FieldValue, playerLabel } from '../values.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';
import { spellingKey, spellingWords, type VocabularyIndex } from './index-vocabulary.ts';
import { BALL_FIELDS } from './people.ts';
import { fieldName, sayExplicitly } from './spell.ts';
import type { Likelihood, LogLineContext, Suggestion } from './types.ts';

/** Players whose number, or a word of whose name, begins with `typed`; a ball field offers the team in possession. */
export function suggestPlayers(
  index: VocabularyIndex,
  field: FieldDefinition,
  typed: string,
  context: LogLineContext,
  likelihood: Likelihood,
): Omit<Suggestion, 'start' | 'end'>[] {
  const key = typed.trim().replace(/^#/, '').toLowerCase();
  const possession = BALL_FIELDS.has(field.key) ? (context.play?.possession ?? null) : null;
  const shares = likelihood(field.key);
  const name = fieldName(index, field.key);
  return index.vocabulary.players
    .filter(({ team }) => possession === null || team === possession)
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
      const isClear = wearers.filter((p) => possession === null || p.team === possession).length === 1;
      return {
        insert: isClear ? `${name}${number}` : sayExplicitly(index, field, value),
        field: field.key,
        value,
        display: `${field.label}: ${label}`,
        ...(share === undefined ? {} : { share }),
      };
    });
}
