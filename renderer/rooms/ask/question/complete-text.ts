/** What may follow at the caret in the text of a question: a field, a comparison, a value, a joining word. */

import { operatorsFor } from '../../../../football/question/kinds.ts';
import { printName, printValue } from '../../../../football/question/print.ts';
import type { FieldDefinition } from '../../../../football/vocabulary/fields.ts';
import { foundOffers, offeredValues, type ValueWords } from './value-words.ts';

export interface TextOffer {
  readonly label: string;
  readonly insert: string;
  readonly aside: string;
}

export interface TextCompletion {
  /** stretch of the text that an offer takes the place of */
  readonly start: number;
  readonly end: number;
  /** whether a part of the word is there already */
  readonly typed: boolean;
  readonly offers: readonly TextOffer[];
}

interface Word {
  readonly text: string;
  readonly start: number;
  readonly end: number;
  readonly quoted: boolean;
  /** a quoted text whose closing quote is missing */
  readonly open: boolean;
}

const JOINS = ['AND', 'OR'];
const STARTS = ['NOT', '('];
const COMPARISON = /^(=|<>|!=|<=|>=|<|>|LIKE)$/i;

export function completeText(text: string, caret: number, words: ValueWords): TextCompletion {
  const all = wordsOf(text.slice(0, caret));
  const last = all.at(-1);
  // the caret stands in a word while nothing but letters lies between its start and the caret
  const inWord = last !== undefined && last.end === caret && (last.open || /[\w'"]$/.test(last.text));
  const before = inWord ? all.slice(0, -1) : all;
  const typed = inWord ? last.text.replace(/^'|'$/g, '').replaceAll("''", "'") : '';
  const start = inWord ? last.start : caret;
  const end = inWord && last.open ? endOfQuote(text, caret) : caret;
  const offers = offersAfter(before, typed, words, start > 0 && /[^\s(]/.test(text[start - 1] ?? ' '));
  // a word that is whole already needs no list over the page
  const whole = offers.length === 1 && offers[0]!.insert.trim() === text.slice(start, end).trim();
  return { start, end, typed: inWord, offers: whole ? [] : offers };
}

function offersAfter(before: readonly Word[], typed: string, words: ValueWords, tight: boolean): TextOffer[] {
  const fields = words.vocabulary.fields;
  const gap = tight ? ' ' : '';
  const last = before.at(-1);
  const upper = last?.quoted ? '' : (last?.text.toUpperCase() ?? '');
  if (!last || JOINS.includes(upper) || upper === 'NOT' || upper === '(') {
    return [...fieldOffers(fields, typed), ...wordOffers(STARTS, typed)].map((offer) => spaced(offer, gap));
  }
  const compared = fieldBeforeValue(before, fields);
  if (compared) return valueOffers(compared, typed, words).map((offer) => spaced(offer, gap));
  const field = fields.find((each) => each.key.toLowerCase() === last.text.replaceAll('"', '').toLowerCase());
  if (field && !last.quoted) return wordOffers(comparisons(field), typed).map((offer) => spaced(offer, gap));
  if (upper === 'IS') return wordOffers(['NULL', 'NOT NULL'], typed).map((offer) => spaced(offer, gap));
  return wordOffers(JOINS, typed).map((offer) => spaced(offer, gap));
}

function spaced(offer: TextOffer, gap: string): TextOffer {
  return { ...offer, insert: `${gap}${offer.insert}` };
}

function fieldOffers(fields: readonly FieldDefinition[], typed: string): TextOffer[] {
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
    .map(({ field }) => ({ label: field.key, insert: `${printName(field.key)} `, aside: field.label }));
}

function wordOffers(words: readonly string[], typed: string): TextOffer[] {
  return words
    .filter((word) => word.toLowerCase().startsWith(typed.toLowerCase()))
    .map((word) => ({ label: word, insert: word === '(' ? word : `${word} `, aside: '' }));
}

function valueOffers(field: FieldDefinition, typed: string, words: ValueWords): TextOffer[] {
  if (field.kind === 'flag') return wordOffers(['TRUE', 'FALSE'], typed);
  const numeric = field.kind === 'number';
  return foundOffers(offeredValues(field, words), typed).map((offer) => ({
    label: offer.value,
    insert: `${printValue(numeric ? Number(offer.value) : offer.value)} `,
    aside: offer.aside,
  }));
}

function comparisons(field: FieldDefinition): string[] {
  const known = operatorsFor(field.kind);
  const signs = ['=', '<>', '<', '<=', '>', '>='].filter((sign) =>
    (known as readonly string[]).includes(sign),
  );
  const more = [
    known.includes('in') ? 'IN (' : '',
    known.includes('between') ? 'BETWEEN' : '',
    known.includes('like') ? 'LIKE' : '',
    known.includes('isTrue') ? 'IS TRUE' : '',
    'IS NULL',
    'IS NOT NULL',
  ];
  return [...signs, ...more.filter(Boolean)];
}

/** The field whose value stands next: after a comparison, within a list, after BETWEEN. */
function fieldBeforeValue(
  before: readonly Word[],
  fields: readonly FieldDefinition[],
): FieldDefinition | null {
  let at = before.length - 1;
  const word = (i: number) => (before[i]?.quoted ? '' : (before[i]?.text.toUpperCase() ?? ''));
  if (word(at) === '(' || word(at) === ',') {
    while (at >= 0 && word(at) !== 'IN') at--;
    // a bracket that no IN opened groups conditions
    if (at < 0 || before.slice(at + 1).some((_, i) => word(at + 1 + i) === ')')) return null;
  } else if (!COMPARISON.test(word(at)) && word(at) !== 'BETWEEN') return null;
  at--;
  if (word(at) === 'NOT') at--;
  // EXACTLY(field) = …
  if (word(at) === ')') at--;
  const name = before[at]?.text.replaceAll('"', '').toLowerCase();
  return fields.find((field) => field.key.toLowerCase() === name) ?? null;
}

const WORD = /'(?:[^']|'')*'?|"[^"]*"?|[A-Za-z_][\w]*|[-+]?\d+(?:\.\d+)?|<>|!=|<=|>=|[=<>(),]/g;

function wordsOf(text: string): Word[] {
  return [...text.matchAll(WORD)].map((match) => {
    const quoted = match[0].startsWith("'");
    const quotes = match[0].split("'").length - 1;
    return {
      text: match[0],
      start: match.index,
      end: match.index + match[0].length,
      quoted,
      open: quoted && quotes % 2 === 1,
    };
  });
}

/** Where an open quote that goes on behind the caret ends. */
function endOfQuote(text: string, caret: number): number {
  const rest = /^(?:[^'\n]|'')*'/.exec(text.slice(caret));
  return rest ? caret + rest[0].length : caret;
}
