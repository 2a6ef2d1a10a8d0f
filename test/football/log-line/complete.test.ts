import { describe, expect, it } from 'vitest';
import { buildHistory, completeLogLine, rankTerms, readLogLine } from '../../../football/log-line/index.ts';
import { blankPlay, type PlayRecord } from '../../../football/play.ts';
import { BUILT_IN_FIELDS } from '../../../football/vocabulary/fields.ts';
import { HERONS, index } from './playbook.ts';

const logged = (n: number, tags: Record<string, string>, more: Partial<PlayRecord> = {}): PlayRecord => ({
  ...blankPlay(`p${n}`, 'g1'),
  possession: HERONS,
  down: 3,
  distance: 7,
  ...more,
  tags,
});

const history = buildHistory(BUILT_IN_FIELDS, [
  ...[0, 1, 2].map((n) => logged(n, { formation: 'trips', concept: 'snag', target: '#84 Ira Novak' })),
  ...[3, 4, 5, 6].map((n) =>
    logged(n, { formation: 'doubles', concept: 'smash', target: '#22 Cole Tanaka' }),
  ),
  logged(7, { formation: 'trips', concept: 'slant-flat' }),
]);
const complete = (line: string, context = {}, cursor = line.length) =>
  completeLogLine(line, cursor, index, context, (on) => rankTerms(history, on));
const inserts = (line: string, context = {}) => complete(line, context).map((s) => s.insert);

const shareOf = (line: string, name: string) =>
  complete(line).find(({ value }) => value?.kind === 'term' && value.name === name)?.share ?? 0;

describe('completing a word', () => {
  it('puts first what plays like this one had, by the words already on the line', () => {
    expect(complete('s')[0]).toMatchObject({ field: 'concept', insert: 'smash' });
    expect(complete('trips s')[0]).toMatchObject({ field: 'concept', insert: 'c:snag' });
    expect(shareOf('trips s', 'snag')).toBeGreaterThan(shareOf('s', 'snag'));
  });

  it('takes the beginnings of several words', () => {
    expect(inserts('cover 3 s')[0]).toBe('Cover 3 sky');
    expect(inserts('c3 inside z')[0]).toBe('inside zone');
  });

  it('names the field where the word alone would ask', () => {
    expect(inserts('scree').sort()).toEqual(['c:screen', 'pro:screen', 'ro:screen', 'slip screen']);
  });

  it('leaves out the fields the line has said', () => {
    expect(complete('mesh st').map((s) => s.field)).not.toContain('concept');
  });

  it('stays within a named field', () => {
    const offers = complete('v:cover 3 s');
    expect(offers.map((s) => s.field)).toEqual(['coverage']);
    expect(complete('front:').map((s) => s.field)).toEqual(Array(8).fill('front'));
  });

  it('offers players of the team with the ball by number and by name', () => {
    expect(inserts('us t8')).toEqual(['t84']);
    expect(inserts('us t:nov')).toEqual(['t84']);
    expect(complete('us trips t:')[0]).toMatchObject({ display: 'Target: #84 Ira Novak' });
  });

  it('offers the name of a field', () => {
    expect(complete('rush').some((s) => s.insert === 'r:' && s.field === 'rushers')).toBe(true);
  });

  it('offers what is likely next where nothing is typed, and nothing that the play has', () => {
    expect(inserts('')[0]).toBe(HERONS);
    expect(inserts('', { play: { possession: HERONS } })).toContain('smash');
    expect(complete('', { play: { tags: { concept: 'smash' } } }).map((s) => s.field)).not.toContain(
      'concept',
    );
  });

  it('keeps quiet in the note', () => {
    expect(inserts('mesh ; sma')).toEqual([]);
    expect(inserts('mesh ; ')).toEqual([]);
  });

  it('replaces the word in the middle of a line', () => {
    const line = '2&7 sma g9';
    const [first] = complete(line, {}, 7);
    expect(first).toMatchObject({ insert: 'smash', start: 4, end: 7 });
  });

  it('gives words that read as what they offer', () => {
    const lines = [
      's',
      'sc',
      'cov',
      'in',
      'ze',
      'f',
      'jet s',
      'no',
      'i',
      'trips st',
      'us b2',
      'v:c',
      'pen:',
      'tou',
      'run i',
    ];
    for (const line of lines)
      for (const { insert, start, end, field, value } of complete(line)) {
        if (!value) continue;
        const whole = line.slice(0, start) + insert + line.slice(end);
        const said = readLogLine(whole, index).changes.find((change) => change.field === field);
        expect([whole, said?.value]).toEqual([whole, value]);
      }
  });
});
