/** Divides a line into drafts: stretches with all that each may mean. */
import type { FieldDefinition } from '../vocabulary/fields.ts';
import { type FormReading, readForm, readTypedValue } from './forms.ts';
import {
  type Entry,
  exactEntries,
  fieldsNamed,
  spellingKey,
  type VocabularyIndex,
} from './index-vocabulary.ts';
import { cutLine, type Piece } from './lex.ts';
import { findPhrase, type Phrase } from './phrases.ts';
import { type Draft, entryReading, type Reading, readingOf, type Scope } from './readings.ts';
import { isSettable } from './shorthand.ts';
import { fieldName } from './spell.ts';

interface Step {
  readonly draft: Draft;
  /** pieces taken */
  readonly count: number;
}

const isBareWord = (piece: Piece) => piece.kind === 'word' && piece.name === undefined;

/** The run of bare words at the head of `pieces`, which a phrase may be made of. */
function bareRun(pieces: readonly Piece[]): Piece[] {
  const end = pieces.findIndex((piece) => !isBareWord(piece));
  return end < 0 ? [...pieces] : pieces.slice(0, end);
}

function fromForm(form: FormReading, start: number, end: number, word: string): Draft {
  const { readings, incomplete, trouble, remark } = form;
  return {
    start,
    end,
    readings,
    ...(incomplete ? { incomplete } : {}),
    ...(trouble ? { trouble, unknown: { word, fields: [] } } : {}),
    ...(remark ? { remark } : {}),
  };
}

function divided(
  index: VocabularyIndex,
  line: string,
  pieces: readonly Piece[],
  phrase: Phrase & { otherwise: NonNullable<Phrase['otherwise']> },
): Step {
  const { otherwise, entries, count } = phrase;
  const most = Math.max(count, otherwise.count);
  const end = pieces[most - 1]!.end;
  const rest = line.slice(pieces[count - 1]!.end, end);
  const whole: Reading[] = entries.map((entry) => {
    const reading = entryReading(index, entry);
    return { ...reading, insert: `${reading.insert}${rest}` };
  });
  const parted: Reading[] = otherwise.first.flatMap((a) =>
    otherwise.second.map((b) => {
      const [one, two] = [entryReading(index, a), entryReading(index, b)];
      return { sets: [...one.sets, ...two.sets], insert: `${one.insert} ${two.insert}` };
    }),
  );
  return {
    draft: { start: pieces[0]!.start, end, readings: [...whole, ...parted], fixed: true },
    count: most,
  };
}

const hasOtherwise = (p: Phrase): p is Phrase & { otherwise: NonNullable<Phrase['otherwise']> } =>
  p.otherwise !== undefined;

/** `!td`: a flag that is not so. */
function readDenied(index: VocabularyIndex, pieces: readonly Piece[]): Step {
  const [head] = pieces as [Piece];
  const { start, end, value } = head;
  if (value === '!')
    return {
      draft: { start, end, readings: [], incomplete: { code: 'incomplete', message: 'What is not so?' } },
      count: 1,
    };
  const denied = { ...head, value: value.slice(1), words: spellingKey(value.slice(1)).split(' ') };
  const run = [denied, ...bareRun(pieces.slice(1))];
  const isFlag = (entry: Entry) => entry.value.kind === 'flag';
  for (let count = Math.min(run.length, index.longestSpelling); count > 0; count -= 1) {
    const words = run.slice(0, count).flatMap((piece) => piece.words);
    const flags = exactEntries(index, words).filter(isFlag);
    if (flags.length === 0) continue;
    const readings = flags.map((entry) => readingOf(index, entry.field, { kind: 'flag', flag: false }));
    return { draft: { start, end: run[count - 1]!.end, readings }, count };
  }
  return { draft: { start, end, readings: [], unknown: { word: value } }, count: 1 };
}

function readBare(index: VocabularyIndex, line: string, pieces: readonly Piece[], scope: Scope): Step {
  const [head] = pieces as [Piece];
  const { start, end, value } = head;
  const form = readForm(index, value, scope);
  const phrase = findPhrase(index, bareRun(pieces), (word) => readForm(index, word, scope) !== null);
  if (form && !phrase?.exact) return { draft: fromForm(form, start, end, value), count: 1 };
  if (!phrase) {
    if (value.startsWith('!')) return readDenied(index, pieces);
    const name = /^(\p{L}+):/u.exec(value)?.[1];
    const trouble = name && { code: 'field-unknown', message: `No field is called “${name}”.` };
    const unknown = { word: value };
    return { draft: { start, end, readings: [], unknown, ...(trouble ? { trouble } : {}) }, count: 1 };
  }
  if (hasOtherwise(phrase)) return divided(index, line, pieces, phrase);
  const readings = phrase.entries.map((entry) => entryReading(index, entry));
  if (form && phrase.count === 1) readings.push(...form.readings);
  return { draft: { start, end: pieces[phrase.count - 1]!.end, readings }, count: phrase.count };
}

function readQuoted(index: VocabularyIndex, piece: Piece): Draft {
  const { start, end, value, open } = piece;
  if (open)
    return { start, end, readings: [], incomplete: { code: 'incomplete', message: 'The quote is open.' } };
  const entries = exactEntries(index, piece.words);
  const readings = entries.map((entry) => entryReading(index, entry));
  return { start, end, readings, ...(readings.length === 0 ? { unknown: { word: value } } : {}) };
}

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
  return {
    draft: { start: head.start, end, readings: [readingOf(index, field, { kind: 'text', text })] },
    count,
  };
}

/** The value of one field, `words` being the pieces it may be made of, the first one without its `field:`. */
function readValue(
  index: VocabularyIndex,
  field: FieldDefinition,
  words: readonly Piece[],
  scope: Scope,
): { readings: Reading[]; count: number; exact: boolean; form?: FormReading } {
  const [head] = words as [Piece];
  const isForm = (word: string) => readForm(index, word, scope) !== null;
  if (field.kind === 'term' || field.kind === 'flag') {
    if (head.valueQuoted) {
      const entries = exactEntries(index, head.words, field.key);
      if (field.kind === 'term')
        return { readings: entries.map((e) => entryReading(index, e)), count: 1, exact: true };
    } else if (field.kind === 'term') {
      const phrase = findPhrase(index, words, isForm, field.key);
      const readings = (phrase?.entries ?? []).map((entry) => entryReading(index, entry));
      return { readings, count: phrase?.count ?? 1, exact: phrase?.exact ?? false };
    }
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

/** `field:value`, where the beginning of a field's name may stand for several fields. */
function readNamed(index: VocabularyIndex, line: string, pieces: readonly Piece[], scope: Scope): Step {
  const [head] = pieces as [Piece];
  const { start, end } = head;
  const named = fieldsNamed(index, head.name ?? '');
  const fields = named.filter(({ home }) => isSettable(home));
  const only = fields.length === 1 ? fields[0] : undefined;
  if (fields.length === 0) return { draft: notOfThePlay(named[0]!, head), count: 1 };
  if (head.open)
    return {
      draft: { start, end, readings: [], incomplete: { code: 'incomplete', message: 'The quote is open.' } },
      count: 1,
    };
  if (head.value === '-' && !head.valueQuoted) {
    const readings = fields.map((field) => readingOf(index, field, { kind: 'clear' }));
    return { draft: { start, end, readings }, count: 1 };
  }
  if (only?.kind === 'text' && (head.value !== '' || head.valueQuoted || pieces.length > 1))
    return readText(index, line, only, pieces);
  const empty = head.value === '' && !head.valueQuoted;
  const run = empty
    ? bareRun(pieces.slice(1))
    : [head, ...(head.valueQuoted ? [] : bareRun(pieces.slice(1)))];
  const skipped = empty ? 1 : 0;
  if (run.length === 0) {
    const message = `${fields.map(({ label }) => label).join(' or ')}: which value?`;
    const offers = fields.map((field) => ({
      kind: 'field' as const,
      field: field.key,
      display: field.label,
      insert: `${fieldName(index, field.key)}:`,
    }));
    return {
      draft: { start, end, readings: [], incomplete: { code: 'incomplete', message }, offers },
      count: 1,
    };
  }
  const values = fields
    .filter(({ kind }) => only !== undefined || kind !== 'text')
    .map((field) => readValue(index, field, run, scope));
  const found = values.filter(({ readings }) => readings.length > 0);
  const exact = found.some((value) => value.exact);
  const best = found.filter((value) => value.exact === exact);
  const count = Math.max(1, ...best.map((value) => value.count));
  const longestOnes = best.filter((value) => value.count === count);
  const form = longestOnes[0]?.form ?? (only ? values[0]?.form : undefined);
  const draftEnd = run[count - 1]!.end;
  const readings = longestOnes.flatMap((value) => value.readings);
  const word = run[0]!.value;
  return {
    draft: {
      ...(form && only ? fromForm(form, start, draftEnd, word) : { start, end: draftEnd }),
      readings,
      ...(readings.length === 0
        ? { unknown: { word, fields: fields.filter((f) => f.kind === 'term') } }
        : {}),
    },
    count: skipped + count,
  };
}

function readNote(index: VocabularyIndex, piece: Piece): Draft {
  const { start, end, value } = piece;
  const note = index.fields.get('note');
  if (!note) return { start, end, readings: [], unknown: { word: value } };
  if (!value) {
    const message = 'The note goes behind the semicolon.';
    return { start, end, readings: [], incomplete: { code: 'incomplete', message } };
  }
  return { start, end, readings: [readingOf(index, note, { kind: 'text', text: value })] };
}

/** The line, divided; every character that is not blank belongs to one draft. */
export function draftLine(index: VocabularyIndex, line: string, scope: Scope): Draft[] {
  const pieces = cutLine(line, (name) => fieldsNamed(index, name).length > 0);
  const drafts: Draft[] = [];
  let at = 0;
  while (at < pieces.length) {
    const piece = pieces[at]!;
    const rest = pieces.slice(at);
    let step: Step;
    if (piece.kind === 'note') step = { draft: readNote(index, piece), count: 1 };
    else if (piece.name !== undefined) step = readNamed(index, line, rest, scope);
    else if (piece.kind === 'quoted') step = { draft: readQuoted(index, piece), count: 1 };
    else step = readBare(index, line, rest, scope);
    drafts.push(step.draft);
    at += step.count;
  }
  return drafts;
}
