import { describe, expect, it } from 'vitest';
import { parseQuestion } from '../../../../../football/question/parse.ts';
import { printQuestion } from '../../../../../football/question/print.ts';
import { BUILT_IN_FIELDS } from '../../../../../football/vocabulary/fields.ts';
import { type CellSide, cellQuestion } from '../../../../../renderer/rooms/ask/table/cell-question.ts';

const term = (field: string, key: CellSide['key'], family: boolean): CellSide => ({
  field,
  key,
  family,
  isTerm: true,
});
const DOWN: CellSide = { field: 'down', key: 3, family: false, isTerm: false };

describe('the question of a cell', () => {
  it.each([
    ['a term alone', '', [term('coverage', 'Cover 3', false)], "EXACTLY(coverage) = 'Cover 3'"],
    ['a family', '', [term('coverage', 'Cover 3', true)], "coverage = 'Cover 3'"],
    ['what is not tagged', '', [term('concept', null, false)], 'concept IS NULL'],
    [
      'row and column, under what was asked',
      'gain > 5 OR touchdown IS TRUE',
      [term('concept', 'stick', true), DOWN],
      "(gain > 5 OR touchdown IS TRUE) AND concept = 'stick' AND down = 3",
    ],
    ['the corner, as it was asked', 'gain > 5', [], 'gain > 5'],
  ])('narrows to %s', (_, where, sides, expected) => {
    const read = parseQuestion(where, BUILT_IN_FIELDS);
    if (!read.ok) throw new Error(read.problem.message);
    expect(printQuestion(cellQuestion(read.value, sides))).toBe(expected);
  });
});
