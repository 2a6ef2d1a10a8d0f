import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { indexVocabulary, readLogLine, type VocabularyTerm } from '../../../football/log-line/index.ts';
import { termId } from '../../../football/vocabulary/terms.ts';
import { HERONS, index, MARINERS, vocabulary } from './playbook.ts';

const herons = { play: { possession: HERONS } };
const statuses = (line: string, context = {}) =>
  readLogLine(line, index, context).tokens.map((t) => t.status);
const changes = (line: string, context = {}) =>
  Object.fromEntries(readLogLine(line, index, context).changes.map(({ field, value }) => [field, value]));

describe('a word of the line', () => {
  it('means the same wherever it stands', () => {
    const words = ['2&7', '-35', 'trips', 'jet', 'c:stick', 'sky', 'r4', 'pass', 'c', 'g9', '12@84', 'fd'];
    const expected = changes(words.join(' '), herons);
    expect(Object.keys(expected)).toHaveLength(14);
    fc.assert(
      fc.property(fc.shuffledSubarray(words, { minLength: words.length }), (shuffled) => {
        expect(changes(shuffled.join(' '), herons)).toEqual(expected);
      }),
      { seed: 7, numRuns: 50 },
    );
  });

  it('means the same in capitals', () => {
    expect(changes('INSIDE ZONE Q2 L TD')).toEqual(changes('inside zone q2 l td'));
  });

  it('belongs to one token, and what lies between two tokens is blank', () => {
    const bits = fc.constantFrom(
      ...[
        '2&7',
        '-35',
        '7:42',
        'cover',
        '3',
        'sky',
        'stick',
        'c:',
        'c:"',
        '"',
        ';',
        ',',
        ' ',
        '  ',
        '@',
        '!',
        '!td',
      ],
      ...[
        'zebra',
        'note:',
        'field',
        'goal',
        'line',
        'g',
        '12@',
        'd10',
        'season:1',
        'jet',
        'sw',
        '-',
        ':',
        'x:y',
      ],
    );
    fc.assert(
      fc.property(fc.array(fc.oneof(bits, fc.string({ maxLength: 6 })), { maxLength: 12 }), (parts) => {
        const line = parts.join(' ');
        const { tokens, ready, problems } = readLogLine(line, index);
        let at = 0;
        for (const { start, end, text } of tokens) {
          expect(line.slice(at, start)).toMatch(/^[\s,]*$/);
          expect(end).toBeGreaterThan(start);
          expect(text).toBe(line.slice(start, end));
          at = end;
        }
        expect(line.slice(at)).toMatch(/^[\s,]*$/);
        expect(ready).toBe(tokens.every(({ status }) => status === 'understood'));
        expect(problems.filter(({ blocks }) => blocks)).toHaveLength(
          tokens.filter(({ status }) => status !== 'understood').length,
        );
      }),
      { seed: 11, numRuns: 500 },
    );
  });
});

describe('a doubt', () => {
  it('is settled by putting any of its candidates in the place of the word', () => {
    const doubtful = [
      'screen',
      'stick',
      'over',
      'none',
      'i',
      'd10',
      'cov',
      'hold',
      'field goal line',
      'jet sw',
      'tk84',
    ];
    for (const line of doubtful) {
      const [token] = readLogLine(line, index, herons).tokens;
      expect([line, token!.status]).toEqual([line, 'ambiguous']);
      for (const candidate of token!.candidates) {
        const settled = readLogLine(candidate.insert, index, herons);
        const said = settled.changes.map(({ field, value }) => ({ field, value }));
        expect([candidate.insert, said]).toEqual([
          candidate.insert,
          expect.arrayContaining([{ field: candidate.field, value: candidate.value }]),
        ]);
      }
    }
  });

  it('is settled by what the play already is, but not by what it already has', () => {
    expect(statuses('screen', { play: { playKind: 'run' } })).toEqual(['understood']);
    expect(statuses('screen', { play: { result: 'rush' } })).toEqual(['understood']);
    expect(statuses('stick', { play: { tags: { concept: 'stick' } } })).toEqual(['ambiguous']);
    expect(statuses('d10', { play: { penalty: 'holding' } })).toEqual(['understood']);
  });

  it('never takes the last meaning from a word', () => {
    expect(changes('run slant')).toMatchObject({ route: { name: 'slant' } });
  });

  it('blocks the line, and the rest of the line is still understood', () => {
    const reading = readLogLine('2&7 screen r4', index);
    expect(reading.ready).toBe(false);
    expect(reading.changes.map(({ field }) => field)).toEqual(['down', 'distance', 'rushers']);
    expect(reading.problems).toMatchObject([
      { code: 'word-ambiguous', at: { start: 4, end: 10 }, blocks: true },
    ]);
  });
});

describe('an unknown word', () => {
  it('is offered as a new term of the fields that can take one, and not of those already said', () => {
    const fields = (line: string) =>
      readLogLine(line, index)
        .tokens.at(-1)!
        .candidates.filter((c) => c.kind === 'newTerm')
        .map((c) => c.field);
    expect(fields('zebra')).toContain('concept');
    expect(fields('zebra')).not.toContain('hash');
    expect(fields('mesh zebra')).not.toContain('concept');
    expect(fields('c:zebra')).toEqual(['concept']);
    expect(fields('4x2')[0]).toBe('receivers');
  });

  it('is understood once it is a term', () => {
    const offer = readLogLine('zebra', index).tokens[0]!.candidates.find((c) => c.field === 'concept')!;
    const zebra = { id: termId('concept', 'zebra'), field: 'concept', name: 'zebra', aliases: [] };
    const grown = indexVocabulary({ ...vocabulary, terms: [...vocabulary.terms, zebra] });
    for (const line of ['zebra', offer.insert])
      expect(readLogLine(line, grown).changes).toMatchObject([
        { field: 'concept', value: { termId: zebra.id } },
      ]);
  });

  it.each([
    ['slnt', 'slant'],
    ['msh', 'mesh'],
    ['smahs', 'smash'],
  ])('that is nearly one of the playbook finds it: %s', (typed, meant) => {
    const token = readLogLine(typed, index).tokens.find(({ status }) => status === 'unknown')!;
    const near = token.candidates.filter((c) => c.kind === 'value').map((c) => c.insert);
    expect(near).toContain(meant);
  });

  it('that is a number offers the fields it may be of', () => {
    const inserts = readLogLine('7', index).tokens[0]!.candidates.map((c) => c.insert);
    expect(inserts).toEqual(expect.arrayContaining(['g7', 'r7', 'a7', 'y7']));
  });

  it('in a field that takes no new term shows the terms it has', () => {
    const offers = readLogLine('h:x', index).tokens[0]!.candidates;
    expect(offers.map((c) => [c.kind, c.display])).toEqual([
      ['value', 'Hash: L'],
      ['value', 'Hash: M'],
      ['value', 'Hash: R'],
    ]);
    expect(readLogLine('h:x', index).problems[0]!.next).not.toContain('new term');
  });

  it('before a colon finds the field that was meant', () => {
    expect(readLogLine('rusehrs:4', index).tokens[0]!.candidates?.slice(0, 1)).toMatchObject([
      { field: 'rushers', insert: 'r:4' },
    ]);
  });
});

describe('two words for one field', () => {
  it('stand together where they say the same, or the one is of the family of the other', () => {
    expect(changes('1&10 1&10')).toMatchObject({ down: { number: 1 } });
    expect(changes('sky c3')).toEqual(changes('cover 3 sky'));
    expect(changes('gap run power')).toMatchObject({ concept: { name: 'power' } });
  });

  it('are a conflict else, and neither counts', () => {
    const reading = readLogLine('c1 c3 r4', index);
    expect(reading.tokens.map((t) => t.status)).toEqual(['conflict', 'conflict', 'understood']);
    expect(reading.changes.map((c) => c.field)).toEqual(['rushers']);
    expect(reading.ready).toBe(false);
  });

  it('are a conflict where the one takes away what the other gives', () => {
    expect(statuses('c:mesh c:-')).toEqual(['conflict', 'conflict']);
  });
});

describe('numbers', () => {
  it.each([
    ['5&3', 'number-out-of-range'],
    ['r15', 'number-out-of-range'],
    ['-60', 'not-a-spot'],
    ['clock:16:00', 'not-a-clock'],
    ['gain:far', 'not-a-number'],
    ['td:maybe', 'not-a-flag'],
    ['season:2025', 'field-not-of-the-play'],
  ])('%s is refused with its reason (%s)', (line, code) => {
    const reading = readLogLine(line, index);
    expect(reading.ready).toBe(false);
    expect(reading.problems[0]).toMatchObject({ code });
  });

  it('goal to go takes the distance from the spot of the line or of the play', () => {
    expect(changes('1&g +4')).toMatchObject({ distance: { number: 4 }, yardsToGoal: { number: 4 } });
    expect(changes('1&g', { play: { yardsToGoal: 8 } })).toMatchObject({ distance: { number: 8 } });
    expect(statuses('1&g')).toEqual(['incomplete']);
  });
});

describe('players', () => {
  it('are looked for on the roster of the team with the ball', () => {
    expect(changes('t84', herons)).toMatchObject({ target: { playerId: 'h84' } });
    expect(changes('them t84', herons)).toMatchObject({ target: { playerId: 'm84', team: MARINERS } });
    expect(statuses('t84')).toEqual(['ambiguous']);
    expect(changes('interceptor:84', herons)).toMatchObject({ interceptor: { playerId: 'm84' } });
  });

  it('nobody on the roster wears are taken as they are, and said so', () => {
    const reading = readLogLine('us t17', index);
    expect(reading.ready).toBe(true);
    expect(reading.changes.at(-1)!.value).toEqual({
      kind: 'player',
      playerId: null,
      number: 17,
      name: null,
      team: HERONS,
    });
    expect(reading.problems).toMatchObject([{ code: 'player-not-on-roster', blocks: false }]);
  });

  it('are found by the beginnings of their names', () => {
    expect(changes('t:ira novak')).toMatchObject({ target: { playerId: 'h84' } });
    expect(changes('@nov')).toMatchObject({ target: { playerId: 'h84' } });
    expect(statuses('t:nobody')).toEqual(['unknown']);
    expect(changes('t:"Bo Lee"')).toMatchObject({ target: { playerId: null, name: 'Bo Lee' } });
  });
});

describe('the staff’s own playbook', () => {
  const field = (key: string, label: string, kind: 'term' | 'number' | 'text') =>
    ({ key, label, kind, home: 'tag', group: 'calls', help: '' }) as const;
  const term = (of: string, name: string, aliases: string[] = []): VocabularyTerm => ({
    id: termId(of, name),
    field: of,
    name,
    aliases,
  });
  const own = indexVocabulary({
    ...vocabulary,
    fields: [
      ...vocabulary.fields,
      field('tempo', 'Tempo', 'term'),
      field('split', 'Split', 'number'),
      field('tip', 'Tip', 'text'),
    ],
    terms: [
      ...vocabulary.terms,
      term('tempo', 'muddle huddle'),
      term('concept', '94'),
      term('coverage', 'c3'),
      term('front', 'r5'),
    ],
  });
  const say = (line: string) =>
    Object.fromEntries(readLogLine(line, own).changes.map(({ field: key, value }) => [key, value]));

  it('is read like the built-in one', () => {
    expect(say('muddle split6 tip:guard is light c:94')).toMatchObject({
      tempo: { name: 'muddle huddle' },
      split: { number: 6 },
      tip: { text: 'guard is light' },
      concept: { name: '94' },
    });
    expect(say('94')).toMatchObject({ concept: { name: '94' } });
  });

  it('has a name before another term’s alias, and asks where a name is also a number', () => {
    expect(say('c3')).toMatchObject({ coverage: { name: 'c3' } });
    expect(readLogLine('r5', own).tokens[0]).toMatchObject({
      status: 'ambiguous',
      candidates: [{ field: 'front' }, { field: 'rushers' }],
    });
  });
});
