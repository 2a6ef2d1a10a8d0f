import type { Question } from '../../../../football/question/ast.ts';

/** The field of a play by which a player stands in each part of the box score. */
const PLAYER_FIELDS: Readonly<Record<string, readonly string[]>> = {
  passing: ['passer'],
  rushing: ['carrier'],
  receiving: ['target'],
  defense: ['tackler', 'tackler2', 'assist', 'assist2', 'interceptor', 'brokenUpBy', 'forcedBy', 'recoverer'],
  fumbles: ['fumbler', 'carrier'],
  kicking: ['kicker'],
  punting: ['kicker'],
  kickReturns: ['returner'],
  puntReturns: ['returner'],
};

const is = (field: string, value: string): Question => ({ kind: 'rule', field, operator: '=', value });

/** The plays of a game on which a player stands in one part of its box score. */
export function playerPlays(game: string, part: string, player: string): Question {
  const rules = (PLAYER_FIELDS[part] ?? []).map((field) => is(field, player));
  return {
    kind: 'group',
    combinator: 'and',
    rules: [is('game', game), { kind: 'group', combinator: 'or', rules }],
  };
}

/** The plays of a game on which a team had the ball. */
export function teamPlays(game: string, team: string): Question {
  return { kind: 'group', combinator: 'and', rules: [is('game', game), is('possession', team)] };
}

/** `thirdDownConversions` as `third down conversions`. */
export function boxWords(key: string): string {
  return key.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`);
}
