import { describe, expect, it } from 'vitest';
import type { Question } from '../../../../../football/question/ast.ts';
import { parseQuestion } from '../../../../../football/question/parse.ts';
import { printQuestion } from '../../../../../football/question/print.ts';
import { BUILT_IN_FIELDS } from '../../../../../football/vocabulary/fields.ts';
import { freed, withoutValue, withValue } from '../../../../../renderer/rooms/ask/facets/narrow.ts';

function asked(text: string): Question {
  const read = parseQuestion(text, BUILT_IN_FIELDS);
  if (!read.ok) throw new Error(read.problem.message);
  return read.value;
}

describe('the values under a question', () => {
  it.each([
    ['', "hash = 'L'", "hash = 'L'"],
    ['down = 3', "hash = 'L'", "down = 3 AND hash = 'L'"],
    ["down = 3 AND hash = 'L'", "hash = 'R'", "down = 3 AND hash IN ('L', 'R')"],
    ["hash IN ('L', 'M')", "hash = 'R'", "hash IN ('L', 'M', 'R')"],
    ["hash = 'L'", "hash = 'L'", "hash = 'L'"],
    ["hash = 'L'", 'hash IS NULL', "hash = 'L' OR hash IS NULL"],
  ])('%s with %s is %s', (question, value, expected) => {
    expect(printQuestion(withValue(asked(question), 'hash', asked(value)))).toBe(expected);
  });

  it('leave one value out, or ask no more about the field', () => {
    expect(printQuestion(withoutValue(asked('down = 3'), asked("hash = 'L'")))).toBe(
      "down = 3 AND hash <> 'L'",
    );
    expect(printQuestion(freed(asked("down = 3 AND hash = 'L'"), 'hash'))).toBe('down = 3');
    expect(printQuestion(freed(asked("hash = 'L'"), 'hash'))).toBe('');
  });
});
