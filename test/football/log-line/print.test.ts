import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  indexVocabulary,
  printLogLine,
  readLogLine,
  type VocabularyIndex,
  type VocabularyPlayer,
  type VocabularyTerm,
} from '../../../football/log-line/index.ts';
import { spellingKey } from '../../../football/log-line/index-vocabulary.ts';
import { isSettable } from '../../../football/log-line/shorthand.ts';
import { type PlainValue, plainValue, playerLabel } from '../../../football/values.ts';
import type { FieldDefinition } from '../../../football/vocabulary/fields.ts';
import { BUILT_IN_FIELDS, PLAY_COLUMN_KEYS } from '../../../football/vocabulary/fields.ts';
import { termId } from '../../../football/vocabulary/terms.ts';
import { builtInTerms, HERONS, index, MARINERS } from './playbook.ts';

type Play = Parameters<typeof printLogLine>[0];

function playOf(values: ReadonlyMap<string, PlainValue>): Play {
  const columns = [...values].filter(([key]) => PLAY_COLUMN_KEYS.includes(key));
  const tags = [...values].filter(([key]) => !PLAY_COLUMN_KEYS.includes(key));
  return {
    ...Object.fromEntries(columns),
    tags: Object.fromEntries(tags) as Record<string, string | number>,
  };
}

/** Flags of the staff's own are kept as yes or no by tags; a play record holds them as they are read. */
const readBack = (line: string, by: VocabularyIndex) => {
  const reading = readLogLine(line, by);
  return {
    ready: reading.ready,
    values: new Map(reading.changes.map((c) => [c.field, plainValue(c.value)])),
  };
};

describe('a printed line', () => {
  it.each([
    [
      new Map<string, PlainValue>([
        ['down', 2],
        ['distance', 7],
        ['yardsToGoal', 65],
        ['hash', 'L'],
        ['personnel', '11'],
        ['formation', 'I'],
        ['concept', 'stick'],
        ['coverage', 'Cover 3 sky'],
        ['result', 'complete'],
        ['gain', 9],
        ['possession', HERONS],
        ['passer', '#12 Dale Orcutt'],
        ['target', '#84 Ira Novak'],
        ['firstDown', true],
        ['touchdown', false],
        ['note', 'late read'],
      ]),
      'us 2&7 -35 L 11 f:I c:stick sky c g9 12@84 fd !td ; late read',
    ],
    [
      new Map<string, PlainValue>([
        ['scoreFor', 14],
        ['scoreAgainst', 10],
        ['penalty', 'holding'],
        ['penaltyOn', 'offense'],
        ['penaltyYards', 10],
      ]),
      's14-10 holding o10',
    ],
    [new Map<string, PlainValue>([['target', '#84 Sam Whitlock']]), 't:them84'],
    [new Map<string, PlainValue>([['concept', 'zebra']]), 'c:"zebra"'],
    [new Map<string, PlainValue>([['playNumber', 12]]), ''],
  ])('is the shortest that says the play (%#)', (values, line) => {
    expect(printLogLine(playOf(values), index)).toBe(line);
  });

  const oddText = fc.oneof(
    fc.string({ unit: 'grapheme', minLength: 1, maxLength: 10 }),
    fc.constantFrom(
      ...[
        '2&7',
        '-35',
        '50',
        '7:42',
        'g7',
        '@84',
        'd10',
        's1-2',
        '!td',
        'td',
        'us',
        'c:x',
        '"',
        '""',
        'a"b',
        ';',
        '; a',
      ],
      ...[
        '-',
        '...',
        '#84',
        'a, b',
        'sky',
        'Cover 3',
        'field',
        'goal line',
        'goal',
        'line',
        'In',
        'zone',
        'no Huddle',
      ],
      ...[
        'trips left',
        'jet sweep',
        'c3',
        'über',
        'ﬁeld',
        '１１',
        'İ',
        'a:b',
        'note:',
        '12@84',
        '\\',
        "o'neil",
        '+',
        '()',
      ],
    ),
  );
  const oddName = oddText.map((text) => text.trim()).filter((text) => text !== '');

  const ownFields: FieldDefinition[] = (
    [
      ['tag', 'Tag word', 'term'],
      ['blitzer', 'Blitzer', 'player'],
      ['depth', 'Depth', 'number'],
      ['tip', 'Tip: the read', 'text'],
      ['c', 'Clever key', 'term'],
      ['rpo', 'RPO', 'flag'],
    ] as const
  ).map(([key, label, kind]) => ({ key, label, kind, home: 'tag', group: 'calls', help: '' }));

  const fields = [...BUILT_IN_FIELDS, ...ownFields];
  const termFields = fields.filter((f) => f.kind === 'term' && f.key !== 'possession');

  const termArbitrary = fc
    .record({
      field: fc.constantFrom(...termFields.map((f) => f.key)),
      name: oddName,
      aliases: fc.array(oddName, { maxLength: 2 }),
    })
    .map(({ field, name, aliases }): VocabularyTerm => ({ id: termId(field, name), field, name, aliases }));

  const playerArbitrary = fc
    .record({
      number: fc.option(fc.integer({ min: 0, max: 30 }), { nil: null }),
      name: oddName.filter((name) => /^\p{L}/u.test(name)),
      team: fc.constantFrom(HERONS, MARINERS),
    })
    .map(
      ({ number, name, team }): VocabularyPlayer => ({ id: `${team} ${number} ${name}`, number, name, team }),
    );

  const playbookArbitrary = fc
    .record({
      own: fc.uniqueArray(termArbitrary, {
        maxLength: 25,
        selector: ({ field, name }) => `${field}:${spellingKey(name)}`,
      }),
      players: fc.uniqueArray(playerArbitrary, {
        maxLength: 12,
        selector: (player) => spellingKey(playerLabel(player)),
      }),
    })
    .map(({ own, players }) => {
      const built = builtInTerms.filter(
        (term) => !own.some((o) => o.field === term.field && spellingKey(o.name) === spellingKey(term.name)),
      );
      return indexVocabulary({
        fields,
        terms: [...built, ...own],
        players,
        teams: { ours: HERONS, opponent: MARINERS },
      });
    });

  function valueArbitrary(by: VocabularyIndex, field: FieldDefinition): fc.Arbitrary<PlainValue> {
    const whole = (min: number, max: number) => fc.integer({ min, max });
    switch (field.kind) {
      case 'term': {
        const names = (by.entriesByField.get(field.key) ?? []).flatMap(({ value }) =>
          value.kind === 'term' ? [value.name] : [],
        );
        // An own term is as likely as a built-in one, though there are few of them.
        const own = names.slice(-10);
        return names.length > 0
          ? fc.oneof(fc.constantFrom(...names), fc.constantFrom(...own))
          : fc.constant(null);
      }
      case 'player': {
        const labels = by.vocabulary.players.map(playerLabel);
        const stranger = whole(31, 99).map((number) => `#${number}`);
        return labels.length > 0 ? fc.oneof(fc.constantFrom(...labels), stranger) : stranger;
      }
      case 'flag':
        return fc.boolean();
      case 'text':
        return fc.oneof(oddText, fc.string({ maxLength: 30 }));
      case 'clock':
        return whole(0, 900);
      case 'spot':
        return whole(1, 99);
      default:
        if (field.key === 'depth') return fc.oneof(whole(-20, 400), fc.constantFrom(1.5, -0.25));
        return field.key === 'quarter' || field.key === 'down' ? whole(1, 4) : whole(1, 11);
    }
  }

  const playArbitrary = playbookArbitrary.chain((by) => {
    const sayable = fields.filter((f) => isSettable(f.home) && !['playNumber', 'drive'].includes(f.key));
    return fc
      .subarray(sayable)
      .chain((chosen) =>
        fc.tuple(...chosen.map((f) => valueArbitrary(by, f).map((v) => [f.key, v] as const))),
      )
      .map((entries) => ({
        by,
        values: new Map(entries.filter(([, value]) => value !== null)),
        // The whole playbook would bury the counterexample.
        [fc.toStringMethod]: () =>
          JSON.stringify({
            values: entries,
            own: by.vocabulary.terms.filter(({ id }) => !builtInTerms.some((term) => term.id === id)),
            players: by.vocabulary.players,
          }),
      }));
  });

  it('reads back as the same values, whatever a staff calls its terms and its players', () => {
    fc.assert(
      fc.property(playArbitrary, ({ by, values }) => {
        const line = printLogLine(playOf(values), by);
        const read = readBack(line, by);
        expect({ line, ...read, values: Object.fromEntries([...read.values].sort()) }).toEqual({
          line,
          ready: true,
          values: Object.fromEntries([...values].sort()),
        });
      }),
      { seed: 20250906, numRuns: 200 },
    );
  });

  it('is printed again as it was, once it has been read', () => {
    fc.assert(
      fc.property(playArbitrary, ({ by, values }) => {
        const line = printLogLine(playOf(values), by);
        expect(printLogLine(playOf(readBack(line, by).values), by)).toBe(line);
      }),
      { seed: 1107, numRuns: 60 },
    );
  });
});
