import { useMemo } from 'react';
import type { PlayView, VocabularyView } from '../../../../electron/service/views.ts';
import { indexVocabulary, type VocabularyIndex } from '../../../../football/log-line/index.ts';
import { termId } from '../../../../football/vocabulary/terms.ts';

export interface NewTerm {
  readonly field: string;
  readonly name: string;
}

/** The playbook as the log line reads it, with the terms that this line is about to add. */
export function vocabularyIndex(
  vocabulary: VocabularyView,
  opponent: string | null,
  newTerms: readonly NewTerm[],
): VocabularyIndex {
  return indexVocabulary({
    fields: vocabulary.fields,
    terms: [
      ...vocabulary.terms,
      ...newTerms.map(({ field, name }) => ({ id: termId(field, name), field, name, aliases: [] })),
    ],
    players: vocabulary.players.map((player) => ({
      ...player,
      name: player.name ?? '',
      team: player.team ?? '',
    })),
    teams: { ours: vocabulary.teams.ours, opponent },
  });
}

/** The other team of the game: as the game names it, else as a play does. */
export function opponentOf(named: string | null, plays: readonly PlayView[], ours: string): string | null {
  if (named) return named;
  return (
    plays.find(({ record }) => record.possession && record.possession !== ours)?.record.possession ?? null
  );
}

const NONE: readonly NewTerm[] = [];

export function useVocabularyIndex(
  vocabulary: VocabularyView | undefined,
  opponent: string | null,
  newTerms: readonly NewTerm[] = NONE,
): VocabularyIndex | null {
  return useMemo(
    () => (vocabulary ? vocabularyIndex(vocabulary, opponent, newTerms) : null),
    [vocabulary, opponent, newTerms],
  );
}
