/** Turns a vocabulary into lookups, once; every keystroke reads them. */
import type { FieldValue } from '../values.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';
import { termId, termKey } from '../vocabulary/terms.ts';
import { FIELD_SHORTS, FLAG_WORDS, isSettable } from './shorthand.ts';
import type { Vocabulary, VocabularyPlayer, VocabularyTerm } from './types.ts';

/** What a word of the vocabulary means: a term of a field, or a flag. */
export interface Entry {
  readonly field: FieldDefinition;
  readonly value: FieldValue;
  /** ids of the families the term belongs to, nearest first */
  readonly families: readonly string[];
  /** its spellings, shortest first */
  readonly spellings: readonly string[];
}

interface Spelling {
  readonly entry: Entry;
  readonly words: readonly string[];
}

/** A spelling from its n-th word on, for lookups by the beginnings of words. */
export interface Tail {
  readonly text: string;
  readonly spelling: Spelling;
  readonly from: number;
}

export interface VocabularyIndex {
  readonly vocabulary: Vocabulary;
  readonly fields: ReadonlyMap<string, FieldDefinition>;
  /** fields by every full name: key, label, short */
  readonly fieldNames: ReadonlyMap<string, readonly FieldDefinition[]>;
  readonly fieldWords: readonly { readonly word: string; readonly field: FieldDefinition }[];
  /** what to write before the colon */
  readonly shortNames: ReadonlyMap<string, string>;
  readonly exact: ReadonlyMap<string, readonly Entry[]>;
  /** the same without blanks: `cover3` */
  readonly compact: ReadonlyMap<string, readonly Entry[]>;
  readonly tails: readonly Tail[];
  readonly longestSpelling: number;
  /** words of the longest spelling that starts with the word */
  readonly longestFrom: ReadonlyMap<string, number>;
  /** entries by term id */
  readonly terms: ReadonlyMap<string, Entry>;
  readonly entriesByField: ReadonlyMap<string, readonly Entry[]>;
  readonly playersByNumber: ReadonlyMap<number, readonly VocabularyPlayer[]>;
}

/** The key under which a spelling is found: `termKey`, or the bare text where that leaves nothing. */
export function spellingKey(text: string): string {
  return termKey(text) || text.normalize('NFKC').trim().toLowerCase();
}

/** The words of a spelling; `fieldGoal` is two. */
export function spellingWords(text: string): string[] {
  return spellingKey(text.replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')).split(' ');
}

function push<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const list = map.get(key);
  if (!list) map.set(key, [value]);
  else if (!list.includes(value)) list.push(value);
}

/** The two teams as terms of possession; `us` and `them` always name them. */
function teamTerms(vocabulary: Vocabulary): VocabularyTerm[] {
  const { ours, opponent } = vocabulary.teams;
  const known = new Set(vocabulary.terms.map((term) => term.id));
  const teams: [string | null, string][] = [
    [ours, 'us'],
    [opponent, 'them'],
  ];
  return teams.flatMap(([name, alias]) => {
    if (!name) return [];
    const id = termId('possession', name);
    return known.has(id) ? [] : [{ id, field: 'possession', name, aliases: [alias] }];
  });
}

function familiesOf(term: VocabularyTerm, byId: ReadonlyMap<string, VocabularyTerm>): string[] {
  const families: string[] = [];
  let parent = term.parentId;
  while (parent && !families.includes(parent)) {
    families.push(parent);
    parent = byId.get(parent)?.parentId;
  }
  return families;
}

function nameFields(fields: readonly FieldDefinition[]) {
  const fieldNames = new Map<string, FieldDefinition[]>();
  const claimed = new Set<string>();
  for (const field of fields) {
    const key = field.key.toLowerCase();
    fieldNames.set(key, [field]);
    claimed.add(key);
  }
  // A staff's own key wins over a built-in short, so that its own field can always be named.
  for (const field of fields) {
    for (const short of FIELD_SHORTS.get(field.key) ?? []) {
      if (claimed.has(short)) continue;
      fieldNames.set(short, [field]);
      claimed.add(short);
    }
  }
  for (const field of fields) {
    const label = spellingKey(field.label).replaceAll(' ', '');
    if (label && !claimed.has(label)) push(fieldNames, label, field);
  }
  const shortNames = new Map<string, string>();
  for (const [name, named] of fieldNames) {
    const field = named[0];
    if (!field || named.length > 1 || !/^[\p{L}\d]+$/u.test(name)) continue;
    const before = shortNames.get(field.key);
    if (before === undefined || name.length < before.length) shortNames.set(field.key, name);
  }
  const fieldWords = fields.flatMap((field) => {
    const key = field.key.toLowerCase();
    const words = new Set([
      key,
      spellingKey(field.label).replaceAll(' ', ''),
      ...spellingWords(field.key),
      ...spellingWords(field.label),
    ]);
    return [...words].filter(Boolean).map((word) => ({ word, field }));
  });
  return { fieldNames, fieldWords, shortNames };
}

function entriesOf(vocabulary: Vocabulary, fields: ReadonlyMap<string, FieldDefinition>): Entry[] {
  const terms = [...vocabulary.terms, ...teamTerms(vocabulary)];
  const byId = new Map(terms.map((term) => [term.id, term]));
  const teamAlias = new Map([
    [termId('possession', vocabulary.teams.ours), 'us'],
    [termId('possession', vocabulary.teams.opponent ?? ''), 'them'],
  ]);
  const entries: Entry[] = [];
  const spell = (spellings: readonly string[]) =>
    [...new Set(spellings.filter(Boolean))].sort((a, b) => a.length - b.length);
  for (const term of terms) {
    const field = fields.get(term.field);
    if (!field || !isSettable(field.home)) continue;
    const alias = teamAlias.get(term.id);
    entries.push({
      field,
      value: { kind: 'term', termId: term.id, name: term.name },
      families: familiesOf(term, byId),
      spellings: spell([term.name, ...term.aliases, ...(alias ? [alias] : [])]),
    });
  }
  for (const field of fields.values()) {
    if (field.kind !== 'flag' || !isSettable(field.home)) continue;
    entries.push({
      field,
      value: { kind: 'flag', flag: true },
      families: [],
      spellings: spell([field.key, field.label, ...(FLAG_WORDS.get(field.key) ?? [])]),
    });
  }
  return entries;
}

/** Entries by spelling, each with its rank: a name beats the alias of another term of the same field. */
type Claims = Map<string, Map<Entry, number>>;

function claim(claims: Claims, key: string, entry: Entry, rank: number): void {
  const claimants = claims.get(key);
  if (!claimants) claims.set(key, new Map([[entry, rank]]));
  else claimants.set(entry, Math.min(rank, claimants.get(entry) ?? rank));
}

function winners(claims: Claims): Map<string, Entry[]> {
  const won = new Map<string, Entry[]>();
  for (const [key, claimants] of claims) {
    const best = new Map<string, number>();
    for (const [{ field }, rank] of claimants)
      best.set(field.key, Math.min(rank, best.get(field.key) ?? rank));
    won.set(
      key,
      [...claimants].flatMap(([entry, rank]) => (rank === best.get(entry.field.key) ? entry : [])),
    );
  }
  return won;
}

/** Builds the lookups; keep the result for as long as the vocabulary stays the same. */
export function indexVocabulary(vocabulary: Vocabulary): VocabularyIndex {
  const fields = new Map(vocabulary.fields.map((field) => [field.key, field]));
  const exact: Claims = new Map();
  const compact: Claims = new Map();
  const terms = new Map<string, Entry>();
  const entriesByField = new Map<string, Entry[]>();
  const tails: Tail[] = [];
  let longestSpelling = 1;
  const longestFrom = new Map<string, number>();
  for (const entry of entriesOf(vocabulary, fields)) {
    if (entry.value.kind === 'term') {
      if (terms.has(entry.value.termId)) continue;
      terms.set(entry.value.termId, entry);
    }
    push(entriesByField, entry.field.key, entry);
    for (const text of entry.spellings) {
      const words = spellingWords(text);
      const spelling: Spelling = { entry, words };
      longestSpelling = Math.max(longestSpelling, words.length);
      for (const key of [words, spellingKey(text).split(' ')])
        longestFrom.set(key[0]!, Math.max(key.length, longestFrom.get(key[0]!) ?? 1));
      const key = spellingKey(text);
      const isName = entry.value.kind === 'term' && text === entry.value.name;
      claim(exact, key, entry, isName ? 0 : 2);
      claim(exact, words.join(' '), entry, isName ? 1 : 2);
      claim(compact, words.join(''), entry, isName ? 0 : 2);
      claim(compact, key.replaceAll(' ', ''), entry, isName ? 0 : 2);
      words.forEach((_, from) => {
        tails.push({ text: words.slice(from).join(' '), spelling, from });
      });
    }
  }
  tails.sort((a, b) => (a.text < b.text ? -1 : a.text > b.text ? 1 : 0));
  const playersByNumber = new Map<number, VocabularyPlayer[]>();
  for (const player of vocabulary.players)
    if (player.number !== null) push(playersByNumber, player.number, player);
  return {
    vocabulary,
    fields,
    ...nameFields([...fields.values()]),
    exact: winners(exact),
    compact: winners(compact),
    tails,
    longestSpelling,
    longestFrom,
    terms,
    entriesByField,
    playersByNumber,
  };
}
