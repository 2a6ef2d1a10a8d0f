import { describe, expect, it } from 'vitest';
import { blankPlay, type PlayRecord } from '../../../football/play.ts';
import { type FamilyPath, gradeThrow, isOptionRoute, type ReadRule } from '../../../football/reads/grade.ts';

const rule = (concept: string, whenKey: string | null, goTo: string): ReadRule => ({
  id: `${concept}/${whenKey}`,
  concept,
  keyDefender: 'flat defender',
  whenKey,
  goTo,
});

const RULES = [
  rule('stick', 'expands', 'stick'),
  rule('stick', 'drops', 'flat or #22'),
  rule('quick game', 'blitzes', 'slant'),
  rule('fade-stop', 'pressed', 'fade'),
  rule('fade-stop', 'off inside', 'comeback'),
];

const FAMILIES: Readonly<Record<string, string>> = { stick: 'quick game', arrow: 'flat', fade: 'go' };
const path: FamilyPath = (_, term) => (FAMILIES[term] ? [term, FAMILIES[term]] : [term]);

const pass = (tags: Record<string, string>, result = 'complete'): PlayRecord => ({
  ...blankPlay('p', 'g'),
  playKind: 'pass',
  result,
  tags,
});

describe('a throw graded by the read rules', () => {
  it.each([
    ['stick', 'expands', 'stick', 'right'],
    ['stick', 'expands', 'flat', 'wrong'],
    ['stick', 'drops', 'arrow', 'right'],
    ['stick', 'blitzes', 'slant', 'right'],
    ['stick', 'blitzes', 'stick', 'wrong'],
    ['stick', 'carries', 'stick', 'no rule'],
    ['mesh', 'drops', 'shallow', 'no rule'],
    ['fade-stop', 'pressed', 'fade', 'right'],
    ['fade-stop', 'off inside', 'fade', 'wrong'],
  ])('%s, the key %s, the ball to %s: %s', (concept, readKey, route, grade) => {
    expect(gradeThrow(pass({ concept, readKey, route }), RULES, path)?.grade).toBe(grade);
  });

  it('is right by the receiver where the rule names him', () => {
    const tags = { concept: 'stick', readKey: 'drops', route: 'wheel', target: '#22 Dante Okafor' };
    expect(gradeThrow(pass(tags), RULES, path)?.grade).toBe('right');
  });

  it.each(['concept', 'readKey', 'route'])('says that %s is not tagged', (key) => {
    const { [key]: _, ...tags } = { concept: 'stick', readKey: 'expands', route: 'stick' } as Record<
      string,
      string
    >;
    expect(gradeThrow(pass(tags), RULES, path)).toMatchObject({ grade: 'not tagged', missing: [key] });
  });

  it.each(['sack', 'scramble', 'throwaway', 'rush'])('a %s is no throw and has no grade', (result) => {
    expect(gradeThrow(pass({ concept: 'stick', readKey: 'drops' }, result), RULES, path)).toBeNull();
  });

  it('rules for what the corner shows are option routes', () => {
    expect(RULES.filter(isOptionRoute).map((r) => r.goTo)).toEqual(['fade', 'comeback']);
  });
});
