import type { Library } from '../../db/library.ts';
import { listQuestions } from '../../db/repositories/cutups.ts';
import { listGames } from '../../db/repositories/games.ts';
import {
  listFields,
  listPlayers,
  listTerms,
  type PlayerRow,
  readSetting,
  type TermRow,
} from '../../db/repositories/vocabulary.ts';
import { FieldSet } from '../../football/question/fieldset.ts';
import { termKey } from '../../football/vocabulary/terms.ts';

/** The staff's words, read once and kept until one of them changes. */
export interface StationVocabulary {
  readonly fields: FieldSet;
  readonly terms: readonly TermRow[];
  readonly players: readonly PlayerRow[];
  readonly ours: string;
  readonly opponents: readonly string[];
  /** a term of a field by any of its spellings */
  findTerm(field: string, text: string): TermRow | null;
}

const VOCABULARY_ENTITIES = ['field', 'term', 'player', 'readRule', 'setting', 'game'];

export function touchesVocabulary(entities: ReadonlySet<string>): boolean {
  return VOCABULARY_ENTITIES.some((e) => entities.has(e));
}

export function loadVocabulary(library: Library): StationVocabulary {
  const terms = listTerms(library);
  const bySpelling = new Map<string, TermRow>();
  // names after aliases, so that a term's own name is never taken by another's alias
  for (const t of terms) for (const alias of t.aliases) bySpelling.set(`${t.field}\n${termKey(alias)}`, t);
  for (const t of terms) bySpelling.set(`${t.field}\n${termKey(t.name)}`, t);
  const opponents = listGames(library)
    .map((g) => g.opponent)
    .filter((o): o is string => o !== null && o !== '');
  return {
    fields: new FieldSet(listFields(library), listQuestions(library)),
    terms,
    players: listPlayers(library),
    ours: readSetting<string>(library, 'team') ?? '',
    opponents: [...new Set(opponents)],
    findTerm: (field, text) => bySpelling.get(`${field}\n${termKey(text)}`) ?? null,
  };
}
