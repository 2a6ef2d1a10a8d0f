/** What a value editor offers and shows for a field: spots and clocks in the trade's spelling, terms with families. */

import type { GameView, SavedQuestionView, VocabularyView } from '../../../../electron/service/views.ts';
import type { CompletionWords } from '../../../../football/question/complete.ts';
import { FieldSet } from '../../../../football/question/fieldset.ts';
import { splitStep } from '../../../../football/question/neighbour.ts';
import { SAVED_FIELD } from '../../../../football/question/saved.ts';
import { formatPlain, playerLabel } from '../../../../football/values.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { DERIVED_TERMS } from '../../../../football/vocabulary/situation-limits.ts';
import { cache, keys } from '../../../service/cache.ts';
import { termRows } from '../../playbook/term-tree.ts';

export interface Offered {
  readonly value: string;
  /** what stands beside it: its family, a position, a team */
  readonly aside: string;
  /** steps to the right, for a member under its family */
  readonly depth: number;
  /** other spellings that find it */
  readonly also: readonly string[];
}

export interface ValueWords {
  readonly vocabulary: VocabularyView;
  readonly games: readonly GameView[];
}

/** Whole numbers that are few enough to be offered. */
const FEW: Readonly<Record<string, readonly string[]>> = {
  down: ['1', '2', '3', '4'],
  quarter: ['1', '2', '3', '4', '5'],
  rushers: ['3', '4', '5', '6', '7'],
};

export function offeredValues(field: FieldDefinition, words: ValueWords): Offered[] {
  const plain = (value: string, aside = ''): Offered => ({ value, aside, depth: 0, also: [] });
  const { vocabulary, games } = words;
  const { key } = splitStep(field.key);
  if (key === 'game') return games.map((game) => plain(game.title));
  if (key === 'possession')
    return [vocabulary.teams.ours, ...vocabulary.teams.opponents].filter(Boolean).map((team) => plain(team));
  if (FEW[key]) return FEW[key]!.map((value) => plain(value));
  if (field.kind === 'player')
    return vocabulary.players.map((player) =>
      plain(playerLabel(player), [player.position, player.team].filter(Boolean).join(', ')),
    );
  if (field.key === SAVED_FIELD.key)
    return (cache.getQueryData<SavedQuestionView[]>(keys.questions) ?? []).map((q) => plain(q.name));
  if (field.kind !== 'term') return [];
  const derived = DERIVED_TERMS.filter((term) => term.field === key);
  if (derived.length > 0)
    return derived.map(({ name, parent }) => ({
      ...plain(name, parent ? `in ${parent}` : ''),
      depth: parent ? 1 : 0,
    }));
  const rows = termRows(vocabulary.terms.filter((term) => term.field === key));
  return rows.map(({ term, depth, hasMembers }) => ({
    value: term.name,
    aside: hasMembers ? 'family' : '',
    depth,
    also: term.aliases,
  }));
}

/** The offers that what is typed finds: by the start of a word, by a number or by another spelling. */
export function foundOffers(offers: readonly Offered[], typed: string): Offered[] {
  const wanted = typed.trim().toLowerCase();
  if (wanted === '') return [...offers];
  const hit = (text: string) => {
    const folded = text.toLowerCase();
    return folded.startsWith(wanted)
      ? 0
      : folded.includes(` ${wanted}`) || folded.startsWith(`#${wanted}`)
        ? 1
        : folded.includes(wanted)
          ? 2
          : 3;
  };
  return offers
    .map((offer) => ({ offer, rank: Math.min(...[offer.value, ...offer.also].map(hit)) }))
    .filter(({ rank }) => rank < 3)
    .sort((a, b) => a.rank - b.rank)
    .map(({ offer }) => offer);
}

/** A stored value as the editor shows it; what is being typed stays as it is. */
export function shownValue(field: FieldDefinition, value: unknown): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'number' || typeof value === 'boolean') return formatPlain(field, value);
  return String(value);
}

export function valueHint(field: FieldDefinition): string {
  switch (field.kind) {
    case 'spot':
      return '-35 or +20';
    case 'clock':
      return '2:00';
    case 'number':
      return field.unit ?? 'number';
    case 'player':
      return 'number or name';
    case 'term':
      return field.key;
    default:
      return 'text';
  }
}

/** The words that complete the text form, found as in the builder. */
export function completionWords(words: ValueWords): CompletionWords {
  return {
    fields: new FieldSet(
      words.vocabulary.fields,
      cache.getQueryData<SavedQuestionView[]>(keys.questions) ?? [],
    ),
    valuesFor: (field, typed) => foundOffers(offeredValues(field, words), typed),
  };
}
