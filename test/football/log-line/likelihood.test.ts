import { describe, expect, it } from 'vitest';
import { buildHistory, forgetPlay, rankTerms, recordPlay } from '../../../football/log-line/index.ts';
import { blankPlay, type PlayRecord } from '../../../football/play.ts';
import { BUILT_IN_FIELDS } from '../../../football/vocabulary/fields.ts';
import { BUILT_IN_TERMS } from '../../../football/vocabulary/terms.ts';
import { HERONS, MARINERS } from './playbook.ts';

const play = (n: number, tags: Record<string, string>, more: Partial<PlayRecord> = {}): PlayRecord => ({
  ...blankPlay(`p${n}`, 'g1'),
  ...more,
  tags,
});

describe('the likelihood of a term', () => {
  const plays = [
    ...[0, 1, 2, 3].map((n) => play(n, { coverage: 'Cover 3' }, { down: 1, distance: 10 })),
    ...[4, 5].map((n) => play(n, { coverage: 'Cover 1' }, { down: 3, distance: 2 })),
    ...[6, 7].map((n) => play(n, { coverage: 'Cover 4' }, { down: 3, distance: 12 })),
  ];

  it('is its share of all plays where nothing is known of this one', () => {
    const shares = rankTerms(buildHistory(BUILT_IN_FIELDS, plays), {})('coverage');
    expect(Object.fromEntries(shares)).toEqual({ 'cover 3': 0.5, 'cover 1': 0.25, 'cover 4': 0.25 });
  });

  it('backs off step by step from the plays most like this one', () => {
    const rank = rankTerms(buildHistory(BUILT_IN_FIELDS, plays), { play: { down: 3, distance: 1 } });
    // Worked by hand with six plays of prior: all 2/8; third down (2 + 6 * 2/8) / (4 + 6) = 0.35;
    // third and short (2 + 6 * 0.35) / (2 + 6) = 0.5125.
    expect(rank('coverage').get('cover 1')).toBeCloseTo(0.5125, 10);
    // 2/8 -> (2 + 1.5) / 10 = 0.35 -> (0 + 2.1) / 8
    expect(rank('coverage').get('cover 4')).toBeCloseTo(0.2625, 10);
  });

  it('passes over what no play has had', () => {
    const history = buildHistory(BUILT_IN_FIELDS, plays);
    const withOdd = rankTerms(history, { play: { down: 3, tags: { formation: 'never seen' } } })('coverage');
    expect([...withOdd]).toEqual([...rankTerms(history, { play: { down: 3 } })('coverage')]);
  });

  it('does not condition a field on its own value', () => {
    const history = buildHistory(BUILT_IN_FIELDS, [
      play(0, { concept: 'mesh' }),
      play(1, { concept: 'smash' }),
    ]);
    expect(rankTerms(history, { play: { tags: { concept: 'mesh' } } })('concept').get('smash')).toBe(0.5);
  });

  it('is empty for a field nobody has logged', () => {
    expect(rankTerms(buildHistory(BUILT_IN_FIELDS, plays), {})('front').size).toBe(0);
    expect(rankTerms(buildHistory(BUILT_IN_FIELDS, plays), {})('no such field').size).toBe(0);
  });

  it('follows plays that are changed and taken out, as if built anew', () => {
    const history = buildHistory(BUILT_IN_FIELDS, plays);
    recordPlay(history, play(0, { coverage: 'Cover 6' }, { down: 1, distance: 10 }));
    recordPlay(history, play(8, { coverage: 'Cover 1' }, { down: 1, distance: 10 }));
    for (const id of ['p2', 'p7', 'p8', 'nobody']) forgetPlay(history, id);
    const anew = buildHistory(BUILT_IN_FIELDS, [
      play(0, { coverage: 'Cover 6' }, { down: 1, distance: 10 }),
      ...plays.filter(({ playId }) => !['p0', 'p2', 'p7'].includes(playId)),
    ]);
    for (const down of [1, 3]) {
      const shares = (of: typeof history) =>
        Object.fromEntries(rankTerms(of, { play: { down } })('coverage'));
      expect(shares(history)).toEqual(shares(anew));
    }
  });

  it('adds up to one over 20,000 plays', () => {
    const names = (field: string) => BUILT_IN_TERMS.filter((t) => t.field === field).map((t) => t.name);
    const [concepts, coverages, formations] = [names('concept'), names('coverage'), names('formation')];
    const many = Array.from({ length: 20_000 }, (_, n) =>
      play(
        n,
        {
          personnel: ['11', '12', '21'][n % 3]!,
          formation: formations[(n * 7) % formations.length]!,
          concept: concepts[(n * 13) % concepts.length]!,
          coverage: coverages[(n * n) % coverages.length]!,
        },
        { possession: n % 2 ? HERONS : MARINERS, down: (n % 4) + 1, distance: (n % 11) + 1 },
      ),
    );
    const history = buildHistory(BUILT_IN_FIELDS, many);
    const context = {
      play: { possession: HERONS, down: 2, distance: 7, tags: { personnel: '11', formation: 'trips' } },
    };
    const shares = rankTerms(history, context)('concept');
    expect([...shares.values()].reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
  });
});
