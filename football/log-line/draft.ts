/** Divides a line into drafts: stretches with all that each may mean. */
import { readForm } from './forms.ts';
import { type Entry, spellingKey, type VocabularyIndex } from './index-vocabulary.ts';
import { cutLine, type Piece } from './lex.ts';
import { exactEntries, fieldsNamed } from './lookup.ts';
import { readNamed } from './named.ts';
import { findPhrase, type Phrase } from './phrases.ts';
import { type Draft, entryReading, type Reading, readingOf, type Scope } from './readings.ts';
import { bareRun, fromForm, type Step, unfinished } from './steps.ts';

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
  if (value === '!') return { draft: unfinished(start, end, 'What is not so?'), count: 1 };
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
  if (open) return unfinished(start, end, 'The quote is open.');
  const entries = exactEntries(index, piece.words);
  const readings = entries.map((entry) => entryReading(index, entry));
  return { start, end, readings, ...(readings.length === 0 ? { unknown: { word: value } } : {}) };
}

function readNote(index: VocabularyIndex, piece: Piece): Draft {
  const { start, end, value } = piece;
  const note = index.fields.get('note');
  if (!note) return { start, end, readings: [], unknown: { word: value } };
  if (!value) return unfinished(start, end, 'The note goes behind the semicolon.');
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
