/** What may follow at the caret in the text of a question: a field, a comparison, a value, a joining word. */

import type { FieldDefinition } from '../vocabulary/fields.ts';
import { afterToken, CLAUSE_START, type ClausePlace, isValuePlace } from './clause-place.ts';
import { FieldSet } from './fieldset.ts';
import { operatorsOf } from './kinds.ts';
import { STEPS, splitStep, stepKey } from './neighbour.ts';
import { printName, printValue } from './print.ts';
import { SAVED_FIELD } from './saved.ts';
import { type Token, tokenise } from './tokens.ts';

export interface Offer {
  readonly label: string;
  /** what comes into the text in place of the stretch from `start` to `end` */
  readonly insert: string;
  /** what stands beside it: a label, a family, a team */
  readonly aside: string;
}

export interface Completion {
  /** stretch of the text that an offer takes the place of */
  readonly start: number;
  readonly end: number;
  /** whether a part of the word is there already */
  readonly typed: boolean;
  /** the best first */
  readonly offers: readonly Offer[];
}

export interface CompletionWords {
  readonly fields: readonly FieldDefinition[] | FieldSet;
  /** values of a field that what is typed so far may mean, the best first; all when nothing is typed */
  valuesFor(
    field: FieldDefinition,
    typed: string,
  ): readonly { readonly value: string; readonly aside: string }[];
}

export function completeQuestion(text: string, caret: number, words: CompletionWords): Completion {
  const fields = FieldSet.of(words.fields);
  const tokens = tokensBefore(text, caret);
  if (!tokens) return { start: caret, end: caret, typed: false, offers: [] };
  const last = tokens.at(-1);
  const inWord = last !== undefined && last.type !== 'symbol' && last.end === caret;
  const before = inWord ? tokens.slice(0, -1) : tokens;
  let place = CLAUSE_START;
  for (const token of before) place = afterToken(place, token, fields);
  // a value of several words without quotes is completed as a whole
  const isBare = place.bareFrom !== null && (inWord || last?.end === caret - 1);
  const start = isBare ? place.bareFrom! : inWord ? last.start : caret;
  const typed = isBare ? text.slice(start, caret) : inWord ? last.text : '';
  const end = inWord && last.type === 'string' ? endOfQuote(text, caret) : caret;
  const isTight = start > 0 && /[^\s(]/.test(text[start - 1]!);
  const offers = offersAt(place, typed, words, fields).map((offer) => ({
    ...offer,
    insert: `${isTight && !/^[),]/.test(offer.insert) ? ' ' : ''}${offer.insert}`,
  }));
  // a word that is whole already needs no list over the page
  const isWhole = offers.length === 1 && offers[0]!.insert.trim() === text.slice(start, end).trim();
  return { start, end, typed: inWord || isBare, offers: isWhole ? [] : offers };
}

/** The tokens up to the caret, an open quote as a string to its end; null where a character means nothing. */
function tokensBefore(text: string, caret: number): Token[] | null {
  const before = text.slice(0, caret);
  const whole = tokenise(before);
  if (whole.ok) return whole.value.slice(0, -1);
  const { code, at } = whole.problem;
  if (code !== 'question-quote-open' || !at || before[at.start] !== "'") return null;
  const closed = tokenise(before.slice(0, at.start));
  if (!closed.ok) return null;
  const said = before.slice(at.start + 1).replaceAll("''", "'");
  return [...closed.value.slice(0, -1), { type: 'string', text: said, start: at.start, end: caret }];
}

/** Where the quote around the caret ends, if it does on this line. */
function endOfQuote(text: string, caret: number): number {
  if (text[caret - 1] === "'" && tokenise(text.slice(0, caret)).ok) return caret;
  const rest = /^(?:[^'\n]|'')*'/.exec(text.slice(caret));
  return rest ? caret + rest[0].length : caret;
}

function offersAt(place: ClausePlace, typed: string, words: CompletionWords, fields: FieldSet): Offer[] {
  const { expected, field, depth } = place;
  const close = depth > 0 ? [')'] : [];
  if (isValuePlace(expected)) return field ? valueOffers(field, typed, words) : [];
  switch (expected) {
    case 'operand':
      return [
        ...fieldOffers(fieldsToOffer(fields, typed), typed),
        ...wordOffers(['NOT', 'EXACTLY(', '('], typed),
        ...(splitStep(typed.toLowerCase()).step ? [] : stepOffers(typed)),
      ];
    case 'exactly field':
      return fieldOffers(
        fields.all.filter((each) => each.kind === 'term'),
        typed,
        '',
      );
    case 'exactly end':
      return wordOffers([')'], typed);
    case 'exactly':
      return wordOffers(['('], typed);
    case 'comparison': {
      if (!field) return [];
      const alone = field.kind === 'flag' ? ['AND', 'OR', ...close] : [];
      return wordOffers([...comparisonsOf(field, place.exact), ...alone], typed);
    }
    case 'not':
      return wordOffers(
        comparisonsOf(field!, place.exact)
          .filter((word) => word.startsWith('NOT '))
          .map((word) => word.slice(4)),
        typed,
      );
    case 'and':
      return wordOffers(['AND'], typed);
    case 'list':
      return wordOffers(['('], typed);
    case 'after item':
      return wordOffers([',', ')'], typed);
    case 'is':
      return wordOffers(
        field?.kind === 'flag' ? ['TRUE', 'FALSE', 'NULL', 'NOT'] : ['NULL', 'NOT NULL'],
        typed,
      );
    case 'is not':
      return wordOffers(field?.kind === 'flag' ? ['TRUE', 'FALSE', 'NULL'] : ['NULL'], typed);
    case 'join':
    case 'after pattern':
      return wordOffers(['AND', 'OR', ...close], typed);
    default:
      return [];
  }
}

/** The play's own fields and saved questions; those of a neighbour once it is named. */
function fieldsToOffer(fields: FieldSet, typed: string): readonly FieldDefinition[] {
  const { step } = splitStep(typed.toLowerCase());
  if (step) return fields.all.flatMap((field) => fields.get(stepKey(step, field.key)) ?? []);
  return fields.saved.length > 0 ? [...fields.all, SAVED_FIELD] : fields.all;
}

function stepOffers(typed: string): Offer[] {
  const asides = { previous: 'field of the play before', next: 'field of the play after' };
  return STEPS.filter((step) => typed !== '' && step.startsWith(typed.toLowerCase())).map((step) => ({
    label: `${step}.`,
    insert: `${step}.`,
    aside: asides[step],
  }));
}

function fieldOffers(fields: readonly FieldDefinition[], typed: string, after = ' '): Offer[] {
  const wanted = typed.toLowerCase();
  const rank = (field: FieldDefinition) => {
    const names = [field.key.toLowerCase(), field.label.toLowerCase()];
    if (names.some((name) => name.startsWith(wanted))) return 0;
    return wanted !== '' && names.some((name) => name.includes(wanted)) ? 1 : 2;
  };
  return fields
    .map((field) => ({ field, rank: rank(field) }))
    .filter((each) => each.rank < 2)
    .sort((a, b) => a.rank - b.rank)
    .map(({ field }) => ({
      label: field.key,
      insert: `${printName(field.key)}${after}`,
      aside: field.label,
    }));
}

function wordOffers(words: readonly string[], typed: string): Offer[] {
  return words
    .filter((word) => word.toLowerCase().startsWith(typed.toLowerCase()))
    .map((word) => ({ label: word, insert: word.endsWith('(') ? word : `${word} `, aside: '' }));
}

function valueOffers(field: FieldDefinition, typed: string, words: CompletionWords): Offer[] {
  if (field.kind === 'flag') return wordOffers(['TRUE', 'FALSE'], typed);
  return words.valuesFor(field, typed).map(({ value, aside }) => ({
    label: value,
    insert: `${printValue(field.kind === 'number' ? Number(value) : value)} `,
    aside,
  }));
}

/** In the order of use. A term alone is compared by fewer. */
function comparisonsOf(field: FieldDefinition, exact: boolean): string[] {
  if (exact) return ['=', '<>', 'IN (', 'NOT IN ('];
  const known: readonly string[] = operatorsOf(field);
  const words: readonly [string, string][] = [
    ...['=', '<>', '<', '<=', '>', '>='].map((sign): [string, string] => [sign, sign]),
    ['in', 'IN ('],
    ['between', 'BETWEEN'],
    ['like', 'LIKE'],
    ['isTrue', 'IS TRUE'],
    ['isFalse', 'IS FALSE'],
    ['isNull', 'IS NULL'],
    ['isNotNull', 'IS NOT NULL'],
    ['notIn', 'NOT IN ('],
    ['notBetween', 'NOT BETWEEN'],
    ['notLike', 'NOT LIKE'],
  ];
  return words.filter(([operator]) => known.includes(operator)).map(([, word]) => word);
}
