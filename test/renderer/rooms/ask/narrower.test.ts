import { describe, expect, it } from 'vitest';
import { parseQuestion } from '../../../../football/question/parse.ts';
import { printQuestion } from '../../../../football/question/print.ts';
import { BUILT_IN_FIELDS } from '../../../../football/vocabulary/fields.ts';
import { conditionsOf } from '../../../../renderer/rooms/ask/narrower.ts';

function conditions(text: string) {
  const read = parseQuestion(text, BUILT_IN_FIELDS);
  if (!read.ok) throw new Error(read.problem.message);
  return conditionsOf(read.value).map((each) => [each.words, printQuestion(each.without)]);
}

describe('why an answer is empty', () => {
  it('is looked for in each condition that must hold, a group as one', () => {
    expect(conditions('down = 3 AND (gain > 90 OR touchdown IS TRUE)')).toEqual([
      ['down = 3', 'gain > 90 OR touchdown IS TRUE'],
      ['gain > 90 OR touchdown IS TRUE', 'down = 3'],
    ]);
  });

  it.each(['down = 3', 'down = 3 OR gain > 90', 'NOT (down = 3 AND gain > 90)'])(
    'cannot lie in a single condition of: %s',
    (text) => {
      expect(conditions(text)).toEqual([]);
    },
  );
});
