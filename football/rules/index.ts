import type { Level } from '../play.ts';
import { ncaaRules } from './ncaa.ts';
import { nfhsRules } from './nfhs.ts';
import { nflRules } from './nfl.ts';
import type { Rules } from './types.ts';

export type { Rules } from './types.ts';

/** The newest season whose changes are in the tables. */
export const NEWEST_SEASON = 2025;

const cache = new Map<string, Rules>();

/** The rules of a level in a season; without a season, the newest known here. The same object every time. */
export function rulesFor(level: Level, season: number = NEWEST_SEASON): Rules {
  const key = `${level} ${season}`;
  let rules = cache.get(key);
  if (!rules) {
    rules = level === 'nfl' ? nflRules(season) : level === 'ncaa' ? ncaaRules(season) : nfhsRules(season);
    cache.set(key, rules);
  }
  return rules;
}
