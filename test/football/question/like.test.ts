import { describe, expect, it } from 'vitest';
import {
  canonicalPattern,
  escapeLike,
  likeTest,
  patternFor,
  readPattern,
} from '../../../football/question/like.ts';

describe('a pattern of LIKE', () => {
  it.each([
    ['%', '', true],
    ['', '', true],
    ['', 'a', false],
    ['_', '', false],
    ['_', '🏈', true],
    ['__', '🏈', false],
    ['%open%', 'Wide OPEN late', true],
    ['open%', 'wide open', false],
    ['%open', 'wide open', true],
    ['w_de%', 'wide open', true],
    ['%a%b%c', 'xxaxxbxxbxxc', true],
    ['%a%b%c', 'xxaxxcxxb', false],
    ['%ab', 'aab', true],
    ['50\\%', '50%', true],
    ['50\\%', '500', false],
    ['a\\_b', 'a_b', true],
    ['a\\_b', 'axb', false],
    ['a\\\\b', 'a\\b', true],
    ['check-down', 'check-down', true],
    ['.*', 'anything', false],
    ['ünruhe', 'ÜNRUHE', false],
    ['a%', 'a\nb', true],
  ])('%j and the text %j: %s', (pattern, text, expected) => {
    expect(likeTest(pattern)(text)).toBe(expected);
  });

  it('of many wildcards is settled at once', () => {
    const started = performance.now();
    expect(likeTest(`${'%a'.repeat(200)}%b`)('a'.repeat(2_000))).toBe(false);
    expect(performance.now() - started).toBeLessThan(1_000);
  });

  it.each([
    ['contains', '50%', '%50\\%%'],
    ['starts', 'a_b', 'a\\_b%'],
    ['ends', 'a\\b', '%a\\\\b'],
    ['whole', 'plain', 'plain'],
  ] as const)('that %s %j is %j, and is read as such', (shape, text, pattern) => {
    expect(patternFor(shape, text)).toBe(pattern);
    expect(readPattern(pattern)).toEqual({ shape, text });
    expect(likeTest(pattern)(text)).toBe(true);
  });

  it.each(['%', '%%', 'a%b', '_%', '%a_'])('%j has no plain shape', (pattern) => {
    expect(readPattern(pattern)).toBeNull();
  });

  it('with another escape is written with ours', () => {
    expect(canonicalPattern('50!%!!\\', '!')).toBe('50\\%!\\\\');
    expect(canonicalPattern('a\\%', null)).toBe('a\\\\%');
    expect(escapeLike('a%_\\')).toBe('a\\%\\_\\\\');
  });
});
