import { type OpenRow, text } from './open-row.ts';

/** Columns that name a player, and our field for each; the first that is filled counts. */
const PLAYERS: readonly (readonly [field: string, columns: readonly string[]])[] = [
  ['passer', ['passer_player_name']],
  ['target', ['receiver_player_name']],
  ['carrier', ['rusher_player_name']],
  ['kicker', ['kicker_player_name', 'punter_player_name']],
  ['returner', ['punt_returner_player_name', 'kickoff_returner_player_name']],
  ['interceptor', ['interception_player_name']],
  ['tackler', ['sack_player_name', 'solo_tackle_1_player_name', 'assist_tackle_1_player_name']],
  ['forcedBy', ['forced_fumble_player_1_player_name']],
  ['fumbler', ['fumbled_1_player_name']],
  ['recoverer', ['fumble_recovery_1_player_name']],
  ['brokenUpBy', ['pass_defense_1_player_name']],
];

export function playersOf(row: OpenRow): Record<string, string> {
  const players: Record<string, string> = {};
  for (const [field, columns] of PLAYERS)
    for (const column of columns) {
      const name = text(row, column);
      if (name === null) continue;
      players[field] = name;
      break;
    }
  const assist = text(row, 'solo_tackle_1_player_name') ? null : text(row, 'assist_tackle_2_player_name');
  if (assist !== null) players.assist = assist;
  return players;
}
