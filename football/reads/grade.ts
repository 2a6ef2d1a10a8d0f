/** Whether a throw went where the playbook's read rules say it should, given what the key defender did. */

import type { PlayRecord } from '../play.ts';
import { termKey } from '../vocabulary/terms.ts';

export interface ReadRule {
  readonly id: string;
  readonly concept: string;
  readonly keyDefender: string | null;
  /** what the key does; for an option route the leverage that the corner shows. Null: whatever he does */
  readonly whenKey: string | null;
  /** a route, or `#84` for a receiver; several with `or` between */
  readonly goTo: string | null;
}

export type ReadGrade = 'right' | 'wrong' | 'no rule' | 'not tagged';

export const READ_GRADES: readonly ReadGrade[] = ['right', 'wrong', 'no rule', 'not tagged'];

/** A term and its families, nearest first; the term alone where it has none. */
export type FamilyPath = (field: string, term: string) => readonly string[];

export interface GradedThrow {
  readonly grade: ReadGrade;
  /** the rules that spoke, of the concept itself or of its nearest family that has any */
  readonly rules: readonly ReadRule[];
  /** what is missing where it is not tagged: `concept`, `readKey`, `route` */
  readonly missing: readonly string[];
}

const THROWS = new Set(['complete', 'incomplete', 'interception']);

/**
 * The grade of a throw; null for what is no throw to a receiver: sacks, scrambles, throwaways, spikes, runs, and plays
 * that a penalty wiped out.
 */
export function gradeThrow(
  play: PlayRecord,
  rules: readonly ReadRule[],
  familyPath: FamilyPath,
): GradedThrow | null {
  if (play.playKind !== null && play.playKind !== 'pass') return null;
  if (play.result === null || !THROWS.has(play.result)) return null;
  const tag = (key: string) => (play.tags[key] === undefined ? null : String(play.tags[key]));
  const [concept, key, route, target] = ['concept', 'readKey', 'route', 'target'].map(tag);
  const missing = [
    ...(concept ? [] : ['concept']),
    ...(key ? [] : ['readKey']),
    ...(route || target ? [] : ['route']),
  ];
  if (!concept || !key || missing.length > 0) return { grade: 'not tagged', rules: [], missing };
  const spoken = rulesFor(concept, key, rules, familyPath);
  if (spoken.length === 0) return { grade: 'no rule', rules: [], missing: [] };
  const places = spoken.flatMap((rule) => placesOf(rule));
  const named = places.filter((place) => !place.startsWith('#'));
  // a rule that names a route can't be judged by the target, nor the other way about
  if (!route && named.length === places.length)
    return { grade: 'not tagged', rules: spoken, missing: ['route'] };
  const isRight = places.some((place) =>
    place.startsWith('#')
      ? target !== null && target !== undefined && numberOf(target) === place
      : route !== null && route !== undefined && isOf('route', route, place, familyPath),
  );
  return { grade: isRight ? 'right' : 'wrong', rules: spoken, missing: [] };
}

/** Leverage that a corner shows; a rule for one of these is an option route. */
const LEVERAGE = new Set(['leverage', 'pressed', 'off inside', 'off outside'].map(termKey));

export function isOptionRoute(rule: Pick<ReadRule, 'whenKey'>): boolean {
  return rule.whenKey !== null && LEVERAGE.has(termKey(rule.whenKey));
}

function rulesFor(
  concept: string,
  key: string,
  rules: readonly ReadRule[],
  familyPath: FamilyPath,
): ReadRule[] {
  const complete = rules.filter((rule) => placesOf(rule).length > 0);
  for (const name of familyPath('concept', concept)) {
    const own = complete.filter((rule) => same(rule.concept, name));
    for (const does of familyPath('readKey', key)) {
      const found = own.filter((rule) => rule.whenKey !== null && same(rule.whenKey, does));
      if (found.length > 0) return found;
    }
    const whatever = own.filter((rule) => rule.whenKey === null);
    if (whatever.length > 0) return whatever;
  }
  return [];
}

function placesOf(rule: ReadRule): string[] {
  return (rule.goTo ?? '')
    .split(/\s+or\s+|\s*[/,]\s*/i)
    .map((place) => place.trim())
    .filter((place) => place !== '');
}

function isOf(field: string, term: string, family: string, familyPath: FamilyPath): boolean {
  return familyPath(field, term).some((name) => same(name, family));
}

const same = (a: string, b: string) => termKey(a) === termKey(b);

/** `#84 Ira Novak` and `84` as `#84`. */
function numberOf(target: string): string {
  return `#${/^#?(\d+)/.exec(target.trim())?.[1] ?? ''}`;
}
