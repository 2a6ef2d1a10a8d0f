import { describe, expect, it } from 'vitest';
import { type CompletionWords, completeQuestion } from '../../../football/question/complete.ts';
import { parseQuestion } from '../../../football/question/parse.ts';
import { BUILT_IN_FIELDS } from '../../../football/vocabulary/fields.ts';

const VALUES: Readonly<Record<string, readonly string[]>> = {
  coverage: ['Cover 1', 'Cover 3', 'Cover 3 sky', "coach's special"],
  concept: ['stick', 'slant-flat'],
  down: ['1', '2', '3', '4'],
};
const WORDS: CompletionWords = {
  fields: BUILT_IN_FIELDS,
  valuesFor: (field, typed) =>
    (VALUES[field.key] ?? [])
      .filter((value) => value.toLowerCase().startsWith(typed.toLowerCase()))
      .map((value) => ({ value, aside: '' })),
};

/** The caret stands where the bar is. */
function complete(marked: string) {
  const caret = marked.indexOf('|');
  const text = marked.replace('|', '');
  const { offers, start, end } = completeQuestion(text, caret, WORDS);
  const taken = offers[0] ? text.slice(0, start) + offers[0].insert + text.slice(end) : null;
  return { labels: offers.map((offer) => offer.label), taken };
}

describe('completion of a question', () => {
  it.each([
    ['cov|', 'coverage '],
    ['ball|', 'yardsToGoal '],
    ['down = 3 AND con|', 'down = 3 AND concept '],
    ['NOT touch|', 'NOT touchdown '],
    ['exact|', 'EXACTLY('],
    ['EXACTLY(cov|', 'EXACTLY(coverage'],
    ['EXACTLY(coverage|', null],
    ['EXACTLY(coverage |', 'EXACTLY(coverage ) '],
    ['EXACTLY(coverage) = c|', "EXACTLY(coverage) = 'Cover 1' "],
    ['coverage|', null],
    ['coverage |', 'coverage = '],
    ['coverage is|', 'coverage IS NULL '],
    ['coverage IS n|', 'coverage IS NULL '],
    ['coverage IS NOT |', 'coverage IS NOT NULL '],
    ['coverage not |', 'coverage not IN ('],
    ["coverage = 'Cover 3 s|", "coverage = 'Cover 3 sky' "],
    ['coverage = cover 3 s|', "coverage = 'Cover 3 sky' "],
    ['coverage = co|', "coverage = 'Cover 1' "],
    ['coverage = coach|', "coverage = 'coach''s special' "],
    ["concept = 'st|' AND down = 3", "concept = 'stick'  AND down = 3"],
    ["concept = 'stick'|", null],
    ["coverage IN ('Cover 1', 'Cover 3 s|", "coverage IN ('Cover 1', 'Cover 3 sky' "],
    ["coverage IN ('Cover 1'|", null],
    ["coverage IN ('Cover 1' |", "coverage IN ('Cover 1' , "],
    ['down BETWEEN 1 |', 'down BETWEEN 1 AND '],
    ['down BETWEEN 1 AND |', 'down BETWEEN 1 AND 1 '],
    ['down BETWEEN 1 AND 2 |', 'down BETWEEN 1 AND 2 AND '],
    ['touchdown = t|', 'touchdown = TRUE '],
    ['touchdown a|', 'touchdown AND '],
    ['touchdown IS NOT f|', 'touchdown IS NOT FALSE '],
    ['down = 3 a|', 'down = 3 AND '],
    ["note LIKE '%x' o|", "note LIKE '%x' OR "],
    ['gain > |', null],
    ['down = 3 down |', null],
    ['; |', null],
    ['weather = |', null],
  ])('%s', (marked, taken) => {
    expect(complete(marked).taken).toBe(taken);
  });

  it('closes a bracket only where one is open', () => {
    expect(complete('(down = 3 |').labels).toEqual(['AND', 'OR', ')']);
    expect(complete('(down = 3) |').labels).toEqual(['AND', 'OR']);
    expect(complete('(touchdown |').labels).toContain(')');
  });

  it('offers a field only what it can be compared by', () => {
    expect(complete('down |').labels).not.toContain('LIKE');
    expect(complete('coverage |').labels).not.toContain('<');
    expect(complete('EXACTLY(coverage) |').labels).toEqual(['=', '<>', 'IN (', 'NOT IN (']);
    expect(complete('EXACTLY(|').labels).not.toContain('down');
    for (const { key } of BUILT_IN_FIELDS) {
      for (const word of complete(`${key} |`).labels) {
        const value = word.endsWith('(') ? '1)' : /NULL|TRUE|FALSE/.test(word) ? '' : '1 AND 1';
        if (word === 'AND' || word === 'OR' || word.includes('LIKE')) continue;
        const text = `${key} ${word} ${word.includes('BETWEEN') ? value : value.replace(' AND 1', '')}`;
        expect(parseQuestion(text, BUILT_IN_FIELDS), text).toMatchObject({ ok: true });
      }
    }
  });
});
