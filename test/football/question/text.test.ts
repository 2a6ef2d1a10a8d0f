import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Question } from '../../../football/question/ast.ts';
import { parseQuestion } from '../../../football/question/parse.ts';
import { printQuestion } from '../../../football/question/print.ts';
import { BUILT_IN_FIELDS, type FieldDefinition } from '../../../football/vocabulary/fields.ts';
import { anyQuestion } from './any-question.ts';

const STAFF_FIELDS: readonly FieldDefinition[] = [
  ...BUILT_IN_FIELDS,
  { key: 'in', label: 'In', kind: 'number', home: 'tag', group: 'notes', help: '' },
  { key: 'box count', label: 'Box count', kind: 'number', home: 'tag', group: 'calls', help: '' },
  { key: 'say "hey"', label: 'Hey', kind: 'term', home: 'tag', group: 'calls', help: '' },
  { key: 'exactly', label: 'Exactly', kind: 'flag', home: 'tag', group: 'notes', help: '' },
];

function parsed(text: string): Question {
  const result = parseQuestion(text, STAFF_FIELDS);
  if (!result.ok) throw new Error(`${text}: ${result.problem.message}`);
  return result.value;
}

/** The canonical text of a text: what the question was understood as. */
function understood(text: string): string {
  return printQuestion(parsed(text));
}

describe('the text of a question', () => {
  it.each([
    ['', ''],
    ['  \n ', ''],
    ["coverage = 'Cover 3'", "coverage = 'Cover 3'"],
    ['DOWN = 3 and Distance >= 7', 'down = 3 AND distance >= 7'],
    ['3 = down', 'down = 3'],
    ['3 < down', 'down > 3'],
    ['10 >= distance', 'distance <= 10'],
    ["'Cover 3' <> coverage", "coverage <> 'Cover 3'"],
    ['down != 3', 'down <> 3'],
    ["PREVIOUS.Result = 'sack'", "previous.result = 'sack'"],
    ['formation = previous.formation', 'formation = previous.formation'],
    ['next."box count" >= distance', 'next."box count" >= distance'],
    ['NOT previous.explosive', 'NOT (previous.explosive = TRUE)'],
    ['previous.drivePlay IS NULL', 'previous.drivePlay IS NULL'],
    ['gain = -3', 'gain = -3'],
    ['gain>-3', 'gain > -3'],
    ['gain = +2.50', 'gain = 2.5'],
    ['gain = -0', 'gain = 0'],
    ['timeToThrow > .5', 'timeToThrow > 0.5'],
    ['down in (1,2 , 3)', 'down IN (1, 2, 3)'],
    ["hash NOT IN ('L')", "hash NOT IN ('L')"],
    ['distance between 3 and 6', 'distance BETWEEN 3 AND 6'],
    ['distance not between 3 and 6 and down = 2', 'distance NOT BETWEEN 3 AND 6 AND down = 2'],
    ["note LIKE '%wide open%'", "note LIKE '%wide open%'"],
    ["note NOT LIKE 'a_b'", "note NOT LIKE 'a_b'"],
    ["note LIKE '50!%' ESCAPE '!'", "note LIKE '50\\%' ESCAPE '\\'"],
    ["note LIKE 'a\\b'", "note LIKE 'a\\\\b' ESCAPE '\\'"],
    ["note = 'it''s'", "note = 'it''s'"],
    ['coverage IS NULL', 'coverage IS NULL'],
    ['coverage is not null', 'coverage IS NOT NULL'],
    ['touchdown', 'touchdown = TRUE'],
    ['not touchdown', 'NOT (touchdown = TRUE)'],
    ['touchdown = 1', 'touchdown = TRUE'],
    ['touchdown IS NOT TRUE', 'touchdown IS NOT TRUE'],
    ['touchdown IS FALSE', 'touchdown IS FALSE'],
    ['(touchdown)', 'touchdown = TRUE'],
    ["EXACTLY(coverage) = 'Cover 3'", "EXACTLY(coverage) = 'Cover 3'"],
    ["exactly ( coverage ) not in ('Cover 3', 'palms')", "EXACTLY(coverage) NOT IN ('Cover 3', 'palms')"],
    ['down = 1 OR down = 2 AND gain > 5', 'down = 1 OR (down = 2 AND gain > 5)'],
    ['(down = 1 OR down = 2) AND gain > 5', '(down = 1 OR down = 2) AND gain > 5'],
    ['NOT down = 1 AND gain > 5', 'NOT (down = 1) AND gain > 5'],
    ['NOT (down = 1 AND gain > 5)', 'NOT (down = 1 AND gain > 5)'],
    ['NOT NOT down = 1', 'NOT (NOT (down = 1))'],
    ['((down = 1))', 'down = 1'],
    ['down = 1 AND (down = 2 AND down = 3)', 'down = 1 AND (down = 2 AND down = 3)'],
    ['TRUE', ''],
    ['FALSE', 'FALSE'],
    ['down = 1 OR TRUE', 'down = 1 OR TRUE'],
    ['TRUE = touchdown', 'touchdown = TRUE'],
    ['"yardsToGoal" <= 20', 'yardsToGoal <= 20'],
    ["yardsToGoal = '-35'", 'yardsToGoal = 65'],
    ["yardsToGoal <= '+20'", 'yardsToGoal <= 20'],
    ["yardsToGoal = '50'", 'yardsToGoal = 50'],
    ["clock < '2:00'", 'clock < 120'],
    ["clock BETWEEN ':30' AND 90", 'clock BETWEEN 30 AND 90'],
    ['personnel = 11', "personnel = '11'"],
    ['personnel IN (00, 10)', "personnel IN ('00', '10')"],
    ['target = 84', "target = '84'"],
    ["target = '#84'", "target = '#84'"],
    ['"in" = 3 AND "box count" = 7', '"in" = 3 AND "box count" = 7'],
    [`"say ""hey""" = 'x' AND NOT "exactly"`, `"say ""hey""" = 'x' AND NOT ("exactly" = TRUE)`],
  ])('understands %s', (text, canonical) => {
    expect(understood(text)).toBe(canonical);
    expect(understood(canonical)).toBe(canonical);
  });

  it('comes back as the same question, whatever the question', () => {
    fc.assert(
      fc.property(anyQuestion(STAFF_FIELDS), (question) => {
        expect(parsed(printQuestion(question))).toEqual(question);
      }),
      { seed: 20250906, numRuns: 2_000 },
    );
  });
});

/** The text with a mark below: the problem must point at the marked word. */
const REFUSED: readonly [text: string, points: string, code: string, next: RegExp][] = [
  ["covrage = 'Cover 3'", 'covrage', 'question-field', /Did you mean coverage\?/],
  ['ball on = 3', 'ball', 'question-field', /./],
  ['"ball on" = 3', '"ball on"', 'question-field', /Did you mean yardsToGoal\?/],
  ['toString = 3', 'toString', 'question-field', /./],
  ['__proto__ = 3', '__proto__', 'question-field', /./],
  ['p.down = 3', '.', 'question-character', /./],
  ['down = 3; DROP TABLE plays', ';', 'question-character', /./],
  ['down = 3 -- and more', '-', 'question-character', /./],
  ['down = three', 'three', 'question-value', /'three'/],
  ['down = coverage', 'coverage', 'question-value', /Numbers go with numbers/],
  ['down IN (distance)', 'distance', 'question-value', /stand alone on the other side/],
  ['previous.formtion = 3', 'previous.formtion', 'question-field', /previous\.formation/],
  ['previous.game = 3', 'previous.game', 'question-field', /./],
  ['EXACTLY(coverage) = previous.coverage', 'EXACTLY(coverage)', 'question-operator', /without EXACTLY/],
  ["question = 'Red zne'", "'Red zne'", 'question-saved-unknown', /./],
  ["question LIKE 'x'", 'LIKE', 'question-operator', /NOT IN/],
  ['down = NULL', 'NULL', 'question-null', /IS NULL/],
  ["down = 'x'", "'x'", 'question-value', /digits/],
  ['3 = 4', '4', 'question-value-alone', /One side is a field/],
  ['3', '3', 'question-value-alone', /./],
  ['coverage', 'coverage', 'question-field-alone', /IS NOT NULL/],
  ["coverage < 'Cover 3'", '<', 'question-operator', /IN/],
  ["down LIKE '3'", 'LIKE', 'question-operator', /BETWEEN/],
  ['touchdown > 1', '>', 'question-operator', /IS/],
  ['down IS TRUE', 'IS TRUE', 'question-operator', /./],
  ['down IS 3', '3', 'question-syntax', /down = and the value/],
  ['EXACTLY(down) = 3', 'down', 'question-operator', /without EXACTLY/],
  ["EXACTLY(coverage) LIKE 'x'", 'LIKE', 'question-operator', /family/],
  ["EXACTLY coverage = 'x'", 'coverage', 'question-syntax', /^$/],
  ['yardsToGoal = -35', '-35', 'question-value', /'-35'/],
  ["yardsToGoal = '35'", "'35'", 'question-value', /'-35'/],
  ["clock = '2:75'", "'2:75'", 'question-value', /'2:00'/],
  ['down = 3 gain > 5', 'gain', 'question-syntax', /AND or OR/],
  ['(down = 3', '', 'question-syntax', /^$/],
  ['down = 3)', ')', 'question-syntax', /Take it out/],
  ['down IN ()', ')', 'question-value', /^$/],
  ['down IN 3', '3', 'question-syntax', /^$/],
  ['down BETWEEN 1', '', 'question-syntax', /BETWEEN 3 AND 6/],
  ['down = 3 AND', '', 'question-syntax', /./],
  ['AND down = 3', 'AND', 'question-syntax', /./],
  ['down 3', '3', 'question-syntax', /Comparisons are/],
  ["note = 'open", "'open", 'question-quote-open', /Close it/],
  ["note LIKE 'x' ESCAPE 'ab'", "'ab'", 'question-syntax', /ESCAPE/],
  ['(down = 1) IS TRUE', 'IS', 'question-syntax', /./],
];

describe('a text that is no question', () => {
  it.each(REFUSED)('%s is refused at “%s”', (text, points, code, next) => {
    const result = parseQuestion(text, STAFF_FIELDS);
    if (result.ok) throw new Error(`understood as ${printQuestion(result.value)}`);
    const { problem } = result;
    expect(problem.code).toBe(code);
    expect(text.slice(problem.at?.start, problem.at?.end)).toBe(points);
    expect(problem.next ?? '').toMatch(next);
  });

  it('is bounded in length, depth and conditions', () => {
    const refused = (text: string) => {
      const result = parseQuestion(text, STAFF_FIELDS);
      return result.ok ? 'understood' : result.problem.code;
    };
    expect(refused(`down = 1${' '.repeat(20_000)}`)).toBe('question-long');
    expect(refused(`${'('.repeat(9_000)}down = 1${')'.repeat(9_000)}`)).toBe('question-deep');
    expect(refused(`${'NOT '.repeat(4_000)}touchdown`)).toBe('question-deep');
    expect(refused(Array.from({ length: 401 }, () => 'down = 1').join(' OR '))).toBe('question-long');
    expect(refused(`down IN (${Array.from({ length: 1_001 }, () => '1').join(',')})`)).toBe('question-long');
    expect(refused(Array.from({ length: 400 }, () => 'down = 1').join(' OR '))).toBe('understood');
  });

  it('never breaks the parser, whatever is typed', () => {
    const pieces = fc.constantFrom(
      'down',
      'coverage',
      'touchdown',
      'NOT',
      'AND',
      'OR',
      'IN',
      'BETWEEN',
      'LIKE',
      'IS',
      'NULL',
      'TRUE',
      'EXACTLY',
      'ESCAPE',
      '(',
      ')',
      ',',
      '=',
      '<>',
      '3',
      "'x'",
      "'",
      '"',
    );
    fc.assert(
      fc.property(fc.array(fc.oneof(pieces, fc.string({ maxLength: 3 })), { maxLength: 12 }), (words) => {
        const text = words.join(' ');
        const result = parseQuestion(text, STAFF_FIELDS);
        if (result.ok) expect(understood(printQuestion(result.value))).toBe(printQuestion(result.value));
        else {
          const { start, end } = result.problem.at!;
          expect(start).toBeGreaterThanOrEqual(0);
          expect(end).toBeLessThanOrEqual(text.length);
          expect(start).toBeLessThanOrEqual(end);
        }
      }),
      { seed: 20250907, numRuns: 3_000 },
    );
  });
});
