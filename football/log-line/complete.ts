/** Completes the word at the cursor, by what this play makes likely. */
import { plainValue } from '../values.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';
import { type Entry, spellingKey, type VocabularyIndex } from './index-vocabulary.ts';
import { cutLine, type Piece } from './lex.ts';
import { begunEntries, exactEntries, fieldsNamed } from './lookup.ts';
import { suggestPlayers } from './people-suggestions.ts';
import { readLogLine } from './read.ts';
import { isSettable } from './shorthand.ts';
import { fieldName, sayEntry, sayExplicitly } from './spell.ts';
import type { Likelihood, LogLineContext, LogLineReading, Suggestion } from './types.ts';

const MOST = 8;
const NO_LIKELIHOOD: Likelihood = () => new Map();

/** The play as it would be with the line committed: what the likelihood of the next word rests on. */
export function withLine(context: LogLineContext, reading: LogLineReading): LogLineContext {
  const play: Record<string, unknown> = { ...context.play };
  const tags: Record<string, string | number> = { ...context.play?.tags };
  for (const { field, value } of reading.changes) {
    const plain = plainValue(value);
    play[field] = plain;
    if (typeof plain === 'string' || typeof plain === 'number') tags[field] = plain;
    else delete tags[field];
  }
  return { play: { ...play, tags } };
}

interface Offer {
  readonly suggestion: Suggestion;
  readonly entry?: Entry;
  /** words of the line it takes in; more is nearer to what was meant */
  readonly words: number;
}

interface Place {
  readonly index: VocabularyIndex;
  readonly text: string;
  readonly cursor: number;
  readonly pieces: readonly Piece[];
  /** index of the piece that ends at the cursor, or of the first one behind it */
  readonly at: number;
  readonly context: LogLineContext;
  readonly likelihood: Likelihood;
}

function shareOf(place: Place, entry: Entry): number | undefined {
  return place.likelihood(entry.field.key).get(spellingKey(String(plainValue(entry.value))));
}

function offerEntry(
  place: Place,
  entry: Entry,
  start: number,
  end: number,
  words: number,
  named: boolean,
): Offer {
  const share = shareOf(place, entry);
  const { index } = place;
  const insert = named ? sayExplicitly(index, entry.field, entry.value) : sayEntry(index, entry, 'name');
  return {
    suggestion: {
      insert,
      start,
      end,
      field: entry.field.key,
      value: entry.value,
      display: `${entry.field.label}: ${entry.value.kind === 'term' ? entry.value.name : 'yes'}`,
      ...(share === undefined ? {} : { share }),
    },
    entry,
    words,
  };
}

/** The line without the stretch that a suggestion would replace. */
function lineWithout(place: Place, start: number, end: number): LogLineReading {
  return readLogLine(`${place.text.slice(0, start)} ${place.text.slice(end)}`, place.index, place.context);
}

/** Whether the rest of the line leaves room for the entry: its field free, or said by a family of it. */
function hasRoom(rest: LogLineReading, entry: Entry): boolean {
  return rest.changes.every(
    ({ field, value }) =>
      field !== entry.field.key || (value.kind === 'term' && entry.families.includes(value.termId)),
  );
}

function completeWord(place: Place): Offer[] {
  const { index, pieces, at, cursor } = place;
  const offers: Offer[] = [];
  const seen = new Set<Entry>();
  // `run i` is a run and an incompletion before it is the beginning of a longer term.
  const isWord = exactEntries(index, pieces[at]!.words).length > 0;
  for (let words = Math.min(at + 1, index.longestSpelling); words > 0; words -= 1) {
    const run = pieces.slice(at - words + 1, at + 1);
    if (run.some((piece) => piece.kind !== 'word' || piece.name !== undefined)) continue;
    const [head] = run as [Piece];
    const typed = place.text.slice(head.start, cursor);
    const end = pieces[at]!.end;
    const entries = begunEntries(index, spellingKey(typed).split(' '));
    if (entries.length === 0) continue;
    const weight = isWord ? 1 : words;
    const rest = lineWithout(place, head.start, end);
    for (const entry of entries) {
      if (seen.has(entry) || !hasRoom(rest, entry)) continue;
      seen.add(entry);
      offers.push(offerEntry(place, entry, head.start, end, weight, false));
    }
  }
  return offers;
}

/** Names of fields that begin like the word: `cov` offers `v:` for the coverage. */
function completeFieldName(place: Place, piece: Piece): Offer[] {
  const { index, text, cursor } = place;
  const typed = text.slice(piece.start, cursor);
  if (typed.length < 2) return [];
  return fieldsNamed(index, typed)
    .filter(({ home }) => isSettable(home))
    .map(({ key, label }) => ({
      suggestion: {
        insert: `${fieldName(index, key)}:`,
        start: piece.start,
        end: piece.end,
        field: key,
        display: `${label}: …`,
      },
      words: 0,
    }));
}

function entriesLike(index: VocabularyIndex, field: FieldDefinition, typed: string): readonly Entry[] {
  if (typed.trim()) return begunEntries(index, spellingKey(typed).split(' '), field.key);
  return index.entriesByField.get(field.key) ?? [];
}

/** `v:cover 3 s`: terms of the named field, over as many words as stand between it and the cursor. */
function completeNamed(place: Place, from: number): Offer[] {
  const { index, pieces, at, cursor, text } = place;
  const head = pieces[from]!;
  const typed = text.slice(head.valueStart, cursor).replace(/^"/, '');
  const end = Math.max(cursor, pieces[at]!.end);
  const fields = fieldsNamed(index, head.name ?? '').filter(({ home }) => isSettable(home));
  return fields.flatMap((field): Offer[] => {
    if (field.kind === 'player')
      return suggestPlayers(index, field, typed, place.context, place.likelihood).map((found) => ({
        suggestion: { ...found, start: head.start, end },
        words: 1,
      }));
    return entriesLike(index, field, typed).map((entry) =>
      offerEntry(place, entry, head.start, end, at - from + 1, true),
    );
  });
}

/** `t8`, `@8` and `12@8`: players whose number begins so. */
function completePlayer(place: Place, piece: Piece): Offer[] {
  const { index, text, cursor } = place;
  const typed = text.slice(piece.start, cursor);
  const thrown = /^(\d{0,3})@(.*)$/.exec(typed);
  const lettered = /^(\p{L}+)(\d+)$/u.exec(typed);
  const name = thrown ? 'target' : lettered?.[1];
  if (!name) return [];
  const before = thrown?.[1] ? `p${thrown[1]} ` : '';
  return fieldsNamed(index, name)
    .filter(({ kind, home }) => kind === 'player' && isSettable(home))
    .flatMap((field) =>
      suggestPlayers(index, field, thrown ? thrown[2]! : lettered![2]!, place.context, place.likelihood),
    )
    .map((found) => ({
      suggestion: { ...found, insert: `${before}${found.insert}`, start: piece.start, end: piece.end },
      words: 1,
    }));
}

/** What comes next, where nothing has been typed yet: the likeliest value of each field still open. */
function completeNothing(place: Place): Offer[] {
  const { index, context, likelihood, cursor } = place;
  const play = (context.play ?? {}) as Readonly<Record<string, unknown>>;
  const has = (key: string) => (play[key] ?? context.play?.tags?.[key] ?? null) !== null;
  return [...index.entriesByField].flatMap(([key, entries]) => {
    if (has(key)) return [];
    const shares = likelihood(key);
    return entries
      .filter(({ value }) => value.kind === 'term' && shares.has(spellingKey(value.name)))
      .map((entry) => offerEntry(place, entry, cursor, cursor, 0, false));
  });
}

/** The named piece that the words up to the cursor belong to, if one does. */
function namedBefore(pieces: readonly Piece[], at: number, context: LogLineReading): number | null {
  for (let from = at; from >= 0; from -= 1) {
    const piece = pieces[from]!;
    if (piece.kind !== 'word') return null;
    if (piece.name === undefined) continue;
    const token = context.tokens.find(({ start }) => start === piece.start);
    return from === at || (token !== undefined && token.end >= pieces[at]!.start) ? from : null;
  }
  return null;
}

function byLikelihood(a: Offer, b: Offer): number {
  return (
    b.words - a.words ||
    (b.suggestion.share ?? 0) - (a.suggestion.share ?? 0) ||
    a.suggestion.insert.length - b.suggestion.insert.length ||
    (a.suggestion.insert < b.suggestion.insert ? -1 : 1)
  );
}

/** The suggestion, written so that the line with it in place says it and nothing else. */
function sure(place: Place, { suggestion, entry }: Offer): Suggestion {
  if (!entry) return suggestion;
  const { text, index, context } = place;
  const line = text.slice(0, suggestion.start) + suggestion.insert + text.slice(suggestion.end);
  const token = readLogLine(line, index, context).tokens.find(
    ({ start, end }) => start === suggestion.start && end === suggestion.start + suggestion.insert.length,
  );
  const value = token?.value;
  const isSaid =
    token?.status === 'understood' &&
    token.field === entry.field.key &&
    (value?.kind !== 'term' || entry.value.kind !== 'term' || value.termId === entry.value.termId);
  return isSaid ? suggestion : { ...suggestion, insert: sayExplicitly(index, entry.field, entry.value) };
}

/**
 * Suggestions for the word at the cursor, the likeliest first, at most eight. `likelihood` is asked once, for the
 * play as the rest of the line has it: `(play) => rankTerms(history, play)`.
 */
export function completeLogLine(
  text: string,
  cursor: number,
  index: VocabularyIndex,
  context: LogLineContext = {},
  likelihood: (context: LogLineContext) => Likelihood = () => NO_LIKELIHOOD,
): Suggestion[] {
  const pieces = cutLine(text, (name) => fieldsNamed(index, name).length > 0);
  const at = pieces.findIndex(({ start, end }) => start < cursor && cursor <= end);
  const piece = pieces[at];
  const reading = readLogLine(text, index, context);
  const rest = piece
    ? readLogLine(`${text.slice(0, piece.start)} ${text.slice(piece.end)}`, index, context)
    : reading;
  const known = withLine(context, rest);
  const place = { index, text, cursor, pieces, at, context: known, likelihood: likelihood(known) };
  if (!piece) {
    if (pieces.some(({ kind, start }) => kind === 'note' && start < cursor)) return [];
    return completeNothing(place)
      .sort(byLikelihood)
      .slice(0, MOST)
      .map((offer) => sure(place, offer));
  }
  if (piece.kind !== 'word') return [];
  const named = namedBefore(pieces, at, reading);
  const offers =
    named !== null
      ? completeNamed(place, named)
      : [...completePlayer(place, piece), ...completeWord(place), ...completeFieldName(place, piece)];
  return offers
    .sort(byLikelihood)
    .slice(0, MOST)
    .map((offer) => sure(place, offer));
}
