/** Reads `field:value`. */
import type { FieldDefinition } from '../vocabulary/fields.ts';
import { type FormReading, readForm, readTypedValue } from './forms.ts';
import type { VocabularyIndex } from './index-vocabulary.ts';
import type { Piece } from './lex.ts';
import { exactEntries, fieldsNamed } from './lookup.ts';
import { findPhrase } from './phrases.ts';
import { type Draft, entryReading, type Reading, readingOf, type Scope } from './readings.ts';
import { isSettable } from './shorthand.ts';
import { fieldName } from './spell.ts';
import { bareRun, fromForm, type Step, unfinished } from './steps.ts';
import type { Candidate } from './types.ts';

/** Text runs on to the next `field:` or the note. */
function readText(
  index: VocabularyIndex,
  line: string,
  field: FieldDefinition,
  pieces: readonly Piece[],
): Step {
  const [head] = pieces as [Piece];
  const stop = pieces.findIndex((piece, at) => at > 0 && (piece.name !== undefined || piece.kind === 'note'));
  const count = head.valueQuoted ? 1 : stop < 0 ? pieces.length : stop;
  const end = pieces[count - 1]!.end;
  const text = head.valueQuoted ? head.value : line.slice(head.valueStart, end).trim();
  if (text === '' && !head.valueQuoted) return { draft: withoutValue(index, [field], head), count: 1 };
  return {
    draft: { start: head.start, end, readings: [readingOf(index, field, { kind: 'text', text })] },
    count,
  };
}

const isOfTerms = ({ kind }: FieldDefinition) => kind === 'term';

/** The value of one field, `words` being the pieces it may be made of, the first one without its `field:`. */
function readValue(
  index: VocabularyIndex,
  field: FieldDefinition,
  words: readonly Piece[],
  scope: Scope,
): { readings: Reading[]; count: number; exact: boolean; form?: FormReading } {
  const [head] = words as [Piece];
  const isForm = (word: string) => readForm(index, word, scope) !== null;
  if (isOfTerms(field)) {
    const phrase = head.valueQuoted
      ? { entries: exactEntries(index, head.words, field.key), count: 1, exact: true }
      : findPhrase(index, words, isForm, field.key);
    const readings = (phrase?.entries ?? []).map((entry) => entryReading(index, entry));
    return { readings, count: phrase?.count ?? 1, exact: phrase?.exact ?? false };
  }
  if (field.kind === 'player' && !head.valueQuoted && !/\d/.test(head.value)) {
    for (let count = Math.min(words.length, 3); count > 1; count -= 1) {
      const name = words.slice(0, count).map((piece) => piece.value);
      const form = readTypedValue(index, field, name.join(' '), scope, false);
      if (form.readings.length > 0) return { readings: [...form.readings], count, exact: true, form };
    }
  }
  const form = readTypedValue(index, field, head.value, scope, head.valueQuoted);
  return { readings: [...form.readings], count: 1, exact: true, form };
}

function notOfThePlay(field: FieldDefinition, piece: Piece): Draft {
  const { start, end, value } = piece;
  const why = field.home === 'game' ? 'belongs to the game' : 'is worked out from the rest';
  return {
    start,
    end,
    readings: [],
    trouble: { code: 'field-not-of-the-play', message: `${field.label} ${why} and is not set here.` },
    unknown: { word: value, fields: [] },
  };
}

/** `field:` with nothing behind it. */
function withoutValue(index: VocabularyIndex, fields: readonly FieldDefinition[], piece: Piece): Draft {
  const { start, end } = piece;
  const message = `${fields.map(({ label }) => label).join(' or ')}: which value?`;
  return { ...unfinished(start, end, message), offers: fieldOffers(index, fields, '') };
}

function fieldOffers(index: VocabularyIndex, fields: readonly FieldDefinition[], typed: string): Candidate[] {
  return fields.map(({ key, label }) => ({
    kind: 'field',
    field: key,
    display: label,
    insert: `${fieldName(index, key)}:${typed}`,
  }));
}

/** A value that means something in several fields is ambiguous; a whole spelling in one beats a beginning in another. */
function readInFields(
  index: VocabularyIndex,
  fields: readonly FieldDefinition[],
  head: Piece,
  run: readonly Piece[],
  scope: Scope,
): Step {
  const { start } = head;
  const values = fields
    .filter(({ kind }) => fields.length === 1 || kind !== 'text')
    .map((field) => readValue(index, field, run, scope));
  const found = values.filter(({ readings }) => readings.length > 0);
  const exact = found.some((value) => value.exact);
  const best = found.filter((value) => value.exact === exact);
  const count = Math.max(1, ...best.map((value) => value.count));
  const longest = best.filter((value) => value.count === count);
  const readings = longest.flatMap((value) => value.readings);
  const end = run[count - 1]!.end;
  const word = run[0]!.value;
  if (readings.length === 0 && fields.length > 1) {
    const names = fields.map(({ label }) => label).join(' or ');
    const message = `“${head.name}:” can be ${names}, and none of them has “${word}”.`;
    const offers = fieldOffers(index, fields, word);
    return { draft: { start, end, readings, trouble: { code: 'field-unclear', message }, offers }, count };
  }
  const form = fields.length === 1 ? values[0]?.form : undefined;
  const draft = form ? fromForm(form, start, end, word) : { start, end, readings };
  const unknown = readings.length === 0 ? { unknown: { word, fields: fields.filter(isOfTerms) } } : {};
  return { draft: { ...draft, readings, ...unknown }, count };
}

/** `field:value`, where the beginning of a field's name may stand for several fields. */
export function readNamed(
  index: VocabularyIndex,
  line: string,
  pieces: readonly Piece[],
  scope: Scope,
): Step {
  const [head] = pieces as [Piece];
  const { start, end } = head;
  const named = fieldsNamed(index, head.name ?? '');
  const fields = named.filter(({ home }) => isSettable(home));
  const [first] = fields;
  if (!first) return { draft: notOfThePlay(named[0]!, head), count: 1 };
  if (head.open) return { draft: unfinished(start, end, 'The quote is open.'), count: 1 };
  if (head.value === '-' && !head.valueQuoted) {
    const readings = fields.map((field) => readingOf(index, field, { kind: 'clear' }));
    return { draft: { start, end, readings }, count: 1 };
  }
  if (first.kind === 'text' && fields.length === 1) return readText(index, line, first, pieces);
  const following = bareRun(pieces.slice(1));
  if (head.value !== '' || head.valueQuoted)
    return readInFields(index, fields, head, head.valueQuoted ? [head] : [head, ...following], scope);
  if (following.length === 0) return { draft: withoutValue(index, fields, head), count: 1 };
  const step = readInFields(index, fields, head, following, scope);
  return { ...step, count: step.count + 1 };
}
