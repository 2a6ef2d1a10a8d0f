import { describe, expect, it } from 'vitest';
import { BUILT_IN_FIELDS } from '../../../../../football/vocabulary/fields.ts';
import { completeText } from '../../../../../renderer/rooms/ask/question/complete-text.ts';

const WORDS = {
  games: [],
  vocabulary: {
    fields: BUILT_IN_FIELDS,
    terms: [
      { id: 'a', field: 'coverage', name: 'Cover 3', parentId: null, aliases: [], uses: 0 },
      { id: 'b', field: 'coverage', name: 'Cover 3 sky', parentId: 'a', aliases: [], uses: 0 },
      { id: 'c', field: 'concept', name: 'stick', parentId: null, aliases: [], uses: 0 },
    ],
    players: [{ id: 'p', number: 84, name: "Ira O'Dell", position: 'WR', team: 'Herons' }],
    readRules: [],
    teams: { ours: 'Herons', opponents: [] },
  },
};

/** The caret stands where the bar is. */
function complete(marked: string) {
  const caret = marked.indexOf('|');
  const text = marked.replace('|', '');
  const found = completeText(text, caret, WORDS);
  const first = found.offers[0];
  return {
    labels: found.offers.map((offer) => offer.label),
    taken: first ? text.slice(0, found.start) + first.insert + text.slice(found.end) : null,
  };
}

describe('completion in the text of a question', () => {
  it.each([
    ['a field from its first letters', 'cov|', 'coverage '],
    ['a field by its label', 'ball|', 'yardsToGoal '],
    ['a field after AND', 'down = 3 AND con|', 'down = 3 AND concept '],
    ['a field after a bracket', '(has|', '(hash '],
    ['a comparison after a field', 'coverage |', 'coverage = '],
    ['a term in quotes', "coverage = 'Cover 3 s|", "coverage = 'Cover 3 sky' "],
    ['a term without a quote', 'concept = st|', "concept = 'stick' "],
    ['a term inside its quotes', "concept = 'st|' AND down = 3", "concept = 'stick'  AND down = 3"],
    ['a term in a list', "coverage IN ('Cover 3', 'Cover 3 s|", "coverage IN ('Cover 3', 'Cover 3 sky' "],
    ['a player by number', 'target = 84|', "target = '#84 Ira O''Dell' "],
    ['a flag', 'touchdown = t|', 'touchdown = TRUE '],
    ['a joining word after a condition', 'down = 3 a|', 'down = 3 AND '],
    ['what a term alone is compared by', 'EXACTLY(coverage) = |', "EXACTLY(coverage) = 'Cover 3' "],
  ])('offers %s', (_, marked, taken) => {
    expect(complete(marked).taken).toBe(taken);
  });

  it('offers no more once a value is whole', () => {
    expect(complete("concept = 'stick'|").labels).toEqual([]);
  });

  it('offers no numbers that nobody knows', () => {
    expect(complete('gain > |').labels).toEqual([]);
  });
});
