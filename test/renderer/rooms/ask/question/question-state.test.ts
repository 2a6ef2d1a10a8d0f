import { describe, expect, it } from 'vitest';
import { BUILT_IN_FIELDS } from '../../../../../football/vocabulary/fields.ts';
import { BUILT_IN_TERMS } from '../../../../../football/vocabulary/terms.ts';
import {
  arityOf,
  operatorChoices,
  valueFor,
} from '../../../../../renderer/rooms/ask/question/operator-words.ts';
import {
  EVERY_PLAY_STATE,
  editText,
  editTree,
} from '../../../../../renderer/rooms/ask/question/question-state.ts';
import { foundOffers, offeredValues } from '../../../../../renderer/rooms/ask/question/value-words.ts';

const WORDS = { fields: BUILT_IN_FIELDS, terms: BUILT_IN_TERMS };
const rule = (field: string, operator: string, value: unknown) => ({ field, operator, value });

describe('a question under the hands', () => {
  it('says in text what the builder says', () => {
    const tree = {
      combinator: 'and',
      rules: [
        rule('down', '=', '3'),
        { combinator: 'or', rules: [rule('yardsToGoal', '<=', '+20'), rule('clock', '<', '2:00')] },
      ],
    };
    expect(editTree(EVERY_PLAY_STATE, tree, WORDS).text).toBe(
      'down = 3 AND (yardsToGoal <= 20 OR clock < 120)',
    );
  });

  it('says in the builder what the text says, and leaves the text as it was typed', () => {
    const state = editText(EVERY_PLAY_STATE, "coverage='Cover 3'  and gain>=12", WORDS);
    expect(state.text).toBe("coverage='Cover 3'  and gain>=12");
    expect(state.where).toBe("coverage = 'Cover 3' AND gain >= 12");
    expect(state.tree.rules).toHaveLength(2);
  });

  it('keeps the last whole question while a condition has no value yet', () => {
    const whole = editText(EVERY_PLAY_STATE, 'down = 3', WORDS);
    const half = editTree(
      whole,
      { combinator: 'and', rules: [...whole.tree.rules, rule('concept', '=', '')] },
      WORDS,
    );
    expect(half.where).toBe('down = 3');
    expect(half.tree.rules).toHaveLength(2);
    expect(half.problem?.message).toBe('Concept has no value yet.');
    expect(half.path).toEqual([1]);
  });

  it.each([
    ["coverage = 'Cover 3' AND concept = 'stik'", "'stik'", 'Did you mean stick?'],
    ["concept IN ('mesh', 'zzz')", "'zzz'", 'Choose one of the playbook.'],
  ])('tells a term that the playbook does not have: %s', (text, word, next) => {
    const state = editText(EVERY_PLAY_STATE, text, WORDS);
    const { at } = state.problem!;
    expect(text.slice(at!.start, at!.end)).toBe(word);
    expect(state.problem?.next).toBe(next);
  });

  it.each([["concept LIKE 'sti%'"], ["coverage = 'c3'"], ["possession = 'Herons'"]])(
    'asks %s, which names no unknown term',
    (text) => {
      expect(editText(EVERY_PLAY_STATE, text, WORDS).problem).toBeNull();
    },
  );

  it('points at the condition whose term is being typed', () => {
    const tree = { combinator: 'and', rules: [rule('down', '=', '3'), rule('concept', '=', 'st')] };
    expect(editTree(EVERY_PLAY_STATE, tree, WORDS).path).toEqual([1]);
  });

  it('points at the word that it does not know', () => {
    const state = editText(EVERY_PLAY_STATE, 'coverge = 1', WORDS);
    expect(state.problem?.at).toEqual({ start: 0, end: 7 });
    expect(state.where).toBe('');
  });
});

describe('operators in the builder', () => {
  it.each([
    ['notNull', 'none'],
    ['=', 'one'],
    ['contains', 'one'],
    ['beginsWith', 'one'],
    ['between', 'two'],
    ['exactlyIn', 'list'],
    ['in', 'list'],
  ] as const)('%s takes %s', (operator, arity) => {
    expect(arityOf(operator)).toBe(arity);
  });

  it('offer words for every comparison that a field knows', () => {
    for (const kind of ['term', 'number', 'clock', 'spot', 'text', 'player', 'flag'] as const)
      for (const choice of operatorChoices(kind)) expect(choice.label).not.toBe(choice.name);
  });

  it('keep the value when the operator changes', () => {
    expect(valueFor('in', 'stick')).toEqual(['stick']);
    expect(valueFor('=', ['stick', 'mesh'])).toBe('stick');
    expect(valueFor('between', '3')).toEqual(['3', '']);
    expect(valueFor('null', 'stick')).toBeNull();
  });
});

describe('values offered in the builder', () => {
  const words = {
    games: [],
    vocabulary: {
      fields: BUILT_IN_FIELDS,
      terms: [
        { id: 'a', field: 'coverage', name: 'Cover 3', parentId: null, aliases: ['c3'], uses: 0 },
        { id: 'b', field: 'coverage', name: 'Cover 3 sky', parentId: 'a', aliases: [], uses: 0 },
      ],
      players: [{ id: 'p', number: 84, name: 'Ira Novak', position: 'WR', team: 'Herons' }],
      readRules: [],
      teams: { ours: 'Herons', opponents: ['Stags'] },
    },
  };
  const field = (key: string) => BUILT_IN_FIELDS.find((each) => each.key === key)!;

  it('show which family a term is of', () => {
    const offers = offeredValues(field('coverage'), words);
    expect(offers.map((offer) => [offer.value, offer.depth])).toEqual([
      ['Cover 3', 0],
      ['Cover 3 sky', 1],
    ]);
  });

  it.each([
    ['coverage', 'sky', ['Cover 3 sky']],
    ['coverage', 'c3', ['Cover 3']],
    ['target', '84', ['#84 Ira Novak']],
    ['target', 'nov', ['#84 Ira Novak']],
    ['possession', 'st', ['Stags']],
    ['target', 'zz', []],
  ])('of %s find by %s', (key, typed, expected) => {
    const found = foundOffers(offeredValues(field(key), words), typed);
    expect(found.map((offer) => offer.value)).toEqual(expected);
  });
});
