import type { Level } from '../play.ts';
import { type Rules, ruled } from './types.ts';

export type { Rules } from './types.ts';

/** The rules of a level in a season; without a season, the newest known here. */
export function rulesFor(level: Level, season = 2025): Rules {
  return {
    level,
    season,
    kickoffOwnYardLine: ruled(level === 'nfhs' ? 40 : 35, 'kickoff', 'read'),
    safetyKickOwnYardLine: ruled(20, 'free kick after a safety', 'read'),
    kickoffTouchbackOwnYardLine: ruled(
      level === 'nfhs' ? 20 : level === 'ncaa' ? 25 : season >= 2025 ? 35 : season === 2024 ? 30 : 25,
      'kickoff touchback',
      'memory',
    ),
    touchbackOwnYardLine: ruled(20, 'touchback', 'memory'),
    tryKickYardsToGoal: ruled(
      level === 'nfl' && season >= 2015 ? 15 : level === 'nfl' ? 2 : 3,
      'try',
      'read',
    ),
    tryTwoPointYardsToGoal: ruled(level === 'nfl' ? 2 : 3, 'try', 'read'),
    quarterSeconds: ruled(level === 'nfhs' ? 720 : 900, 'quarter', 'read'),
  };
}
