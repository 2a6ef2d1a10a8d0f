/** What may stand next in an unfinished clause, word by word: the grammar of parse.ts without its problems. */

import type { FieldDefinition } from '../vocabulary/fields.ts';
import { isKeyword, isLiteral, isSymbol } from './cursor.ts';
import type { FieldSet } from './fieldset.ts';
import { comparisonAt } from './parse-rule.ts';
import type { Token } from './tokens.ts';

export type Expected =
  | 'operand'
  | 'comparison'
  | 'value'
  | 'low'
  | 'and'
  | 'high'
  | 'list'
  | 'item'
  | 'after item'
  | 'pattern'
  | 'after pattern'
  | 'escape'
  | 'is'
  | 'is not'
  | 'not'
  | 'join'
  | 'exactly'
  | 'exactly field'
  | 'exactly end'
  /** the words so far make no sense */
  | 'nothing';

export interface ClausePlace {
  readonly expected: Expected;
  /** the field of the condition that has begun */
  readonly field: FieldDefinition | null;
  readonly exact: boolean;
  /** brackets that are open */
  readonly depth: number;
  /** where a value without quotes began that is not whole yet */
  readonly bareFrom: number | null;
}

export const CLAUSE_START: ClausePlace = {
  expected: 'operand',
  field: null,
  exact: false,
  depth: 0,
  bareFrom: null,
};

/** After these a value comes, and then that. */
const AFTER_VALUE = { value: 'join', low: 'and', high: 'join', item: 'after item' } as const;

export function isValuePlace(expected: Expected): expected is keyof typeof AFTER_VALUE {
  return expected in AFTER_VALUE;
}

export function afterToken(place: ClausePlace, token: Token, fields: FieldSet): ClausePlace {
  const to = (expected: Expected, more: Partial<ClausePlace> = {}): ClausePlace => ({
    ...place,
    expected,
    bareFrom: null,
    ...more,
  });
  const { expected } = place;
  if (isValuePlace(expected)) return afterValue(place, expected, token, to);
  switch (expected) {
    case 'operand':
      return afterOperand(place, token, fields, to);
    case 'comparison':
      if (comparisonAt(token)) return to('value');
      if (isKeyword(token, 'NOT')) return to('not');
      if (isKeyword(token, 'IS')) return to('is');
      // a flag is a condition by itself
      return place.field?.kind === 'flag' && !word(token)
        ? afterJoin(place, token, to)
        : to(word(token) ?? 'nothing');
    case 'not':
      return to(word(token) ?? 'nothing');
    case 'and':
      return to(isKeyword(token, 'AND') ? 'high' : 'nothing');
    case 'list':
      return to(isSymbol(token, '(') ? 'item' : 'nothing');
    case 'after item':
      return to(isSymbol(token, ',') ? 'item' : isSymbol(token, ')') ? 'join' : 'nothing');
    case 'pattern':
      return to(token.type === 'string' ? 'after pattern' : 'nothing');
    case 'after pattern':
      return isKeyword(token, 'ESCAPE') ? to('escape') : afterJoin(place, token, to);
    case 'escape':
      return to(token.type === 'string' ? 'join' : 'nothing');
    case 'is':
    case 'is not': {
      if (expected === 'is' && isKeyword(token, 'NOT')) return to('is not');
      const isWhole = isKeyword(token, 'NULL') || isKeyword(token, 'TRUE') || isKeyword(token, 'FALSE');
      return to(isWhole ? 'join' : 'nothing');
    }
    case 'join':
      return afterJoin(place, token, to);
    case 'exactly':
      return to(isSymbol(token, '(') ? 'exactly field' : 'nothing');
    case 'exactly field': {
      const field = token.type === 'word' ? fields.find(token.text) : undefined;
      return field ? to('exactly end', { field }) : to('nothing');
    }
    case 'exactly end':
      return to(isSymbol(token, ')') ? 'comparison' : 'nothing');
    default:
      return place;
  }
}

type To = (expected: Expected, more?: Partial<ClausePlace>) => ClausePlace;

function word(token: Token): Expected | null {
  if (isKeyword(token, 'IN')) return 'list';
  if (isKeyword(token, 'BETWEEN')) return 'low';
  return isKeyword(token, 'LIKE') ? 'pattern' : null;
}

function afterOperand(place: ClausePlace, token: Token, fields: FieldSet, to: To): ClausePlace {
  if (isSymbol(token, '(')) return to('operand', { depth: place.depth + 1 });
  if (isKeyword(token, 'NOT')) return to('operand');
  if (isKeyword(token, 'EXACTLY')) return to('exactly', { exact: true });
  if (isKeyword(token, 'TRUE') || isKeyword(token, 'FALSE')) return to('join');
  const field = token.type === 'word' ? fields.find(token.text) : undefined;
  return field ? to('comparison', { field, exact: false }) : to('nothing');
}

function afterValue(
  place: ClausePlace,
  expected: keyof typeof AFTER_VALUE,
  token: Token,
  to: To,
): ClausePlace {
  const ends =
    isKeyword(token, 'AND') || isKeyword(token, 'OR') || isSymbol(token, ',') || isSymbol(token, ')');
  if (place.bareFrom === null && isLiteral(token)) return to(AFTER_VALUE[expected]);
  if (!ends && (token.type === 'word' || token.type === 'number')) {
    return { ...place, bareFrom: place.bareFrom ?? token.start };
  }
  return to('nothing');
}

function afterJoin(place: ClausePlace, token: Token, to: To): ClausePlace {
  if (isKeyword(token, 'AND') || isKeyword(token, 'OR')) return to('operand', { field: null, exact: false });
  if (isSymbol(token, ')') && place.depth > 0) return to('join', { depth: place.depth - 1 });
  return to('nothing');
}
