import { indexVocabulary, type Vocabulary } from '../../../football/log-line/index.ts';
import { BUILT_IN_FIELDS } from '../../../football/vocabulary/fields.ts';
import { BUILT_IN_TERMS, termId } from '../../../football/vocabulary/terms.ts';

export const HERONS = 'Harlow Ridge Herons';
export const MARINERS = 'Port Ansel Mariners';

export const builtInTerms = BUILT_IN_TERMS.map(({ field, name, parent, aliases }) => ({
  id: termId(field, name),
  field,
  name,
  parentId: parent ? termId(field, parent) : null,
  aliases: aliases ?? [],
}));

/** The built-in playbook, and a handful of invented players. */
export const vocabulary: Vocabulary = {
  fields: BUILT_IN_FIELDS,
  terms: builtInTerms,
  players: [
    { id: 'h12', number: 12, name: 'Dale Orcutt', team: HERONS, position: 'QB' },
    { id: 'h22', number: 22, name: 'Cole Tanaka', team: HERONS, position: 'RB' },
    { id: 'h84', number: 84, name: 'Ira Novak', team: HERONS, position: 'WR' },
    { id: 'm55', number: 55, name: 'Theo Vance', team: MARINERS, position: 'LB' },
    { id: 'm84', number: 84, name: 'Sam Whitlock', team: MARINERS, position: 'WR' },
  ],
  teams: { ours: HERONS, opponent: MARINERS },
};

export const index = indexVocabulary(vocabulary);
