import type { VocabularyView } from '../../../../electron/service/views.ts';
import { playerLabel } from '../../../../football/values.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';

const MOST = 40;

const plain = (text: string) => text.normalize('NFKC').toLowerCase();

/** What a field could be set to, begun by what is typed first, then by what is used most. */
export function fieldChoices(field: FieldDefinition, vocabulary: VocabularyView, typed: string): string[] {
  const wanted = plain(typed.trim());
  const all = choicesOf(field, vocabulary);
  const rank = (choice: { readonly name: string; readonly also: readonly string[] }) => {
    if (plain(choice.name).startsWith(wanted) || choice.also.some((each) => plain(each) === wanted)) return 0;
    return [choice.name, ...choice.also].some((each) => plain(each).includes(wanted)) ? 1 : 2;
  };
  return all
    .map((choice) => ({ ...choice, rank: rank(choice) }))
    .filter((choice) => choice.rank < 2)
    .sort((a, b) => a.rank - b.rank || b.uses - a.uses)
    .slice(0, MOST)
    .map((choice) => choice.name);
}

interface Choice {
  readonly name: string;
  readonly also: readonly string[];
  readonly uses: number;
}

function choicesOf(field: FieldDefinition, vocabulary: VocabularyView): Choice[] {
  if (field.key === 'possession') {
    const { ours, opponents } = vocabulary.teams;
    return [ours, ...opponents].map((name) => ({ name, also: [], uses: 0 }));
  }
  if (field.kind === 'term')
    return vocabulary.terms
      .filter((term) => term.field === field.key)
      .map((term) => ({ name: term.name, also: term.aliases, uses: term.uses }));
  if (field.kind === 'player')
    return vocabulary.players.map((player) => ({
      name: playerLabel(player),
      also: player.number === null ? [] : [String(player.number)],
      uses: player.team === vocabulary.teams.ours ? 1 : 0,
    }));
  if (field.kind === 'flag') return ['yes', 'no'].map((name) => ({ name, also: [], uses: 0 }));
  return [];
}
