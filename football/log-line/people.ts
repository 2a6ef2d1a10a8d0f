/** Reads players: by number, by name, with `us` or `them` before it where both rosters have one. */
import { type PlayerValue, playerLabel } from '../values.ts';
import type { FieldDefinition } from '../vocabulary/fields.ts';
import { spellingKey, spellingWords, type VocabularyIndex } from './index-vocabulary.ts';
import type { VocabularyPlayer } from './types.ts';

/** Fields of a player of the team that puts the ball in play, and of the other team; for the rest either. */
const OFFENSE_FIELDS = new Set(['passer', 'target', 'carrier', 'kicker']);
const DEFENSE_FIELDS = new Set(['interceptor', 'brokenUpBy', 'returner']);

/** The team whose roster the field's players are on, where the field and the possession tell. */
export function teamOf(
  index: VocabularyIndex,
  field: FieldDefinition,
  possession: string | null,
): string | null {
  const { ours, opponent } = index.vocabulary.teams;
  if (possession === null || OFFENSE_FIELDS.has(field.key)) return possession;
  if (!DEFENSE_FIELDS.has(field.key)) return null;
  return possession === ours ? opponent : ours;
}

export interface PlayersFound {
  /** one where it is clear, more where it is not */
  readonly players: readonly PlayerValue[];
  /** the player is on no roster, and is taken as he was typed */
  readonly isNew: boolean;
}

const asValue = ({ id, number, name, team }: VocabularyPlayer): PlayerValue => ({
  kind: 'player',
  playerId: id,
  number,
  name,
  team,
});

function namedPlayers(
  players: readonly VocabularyPlayer[],
  name: string,
  literal: boolean,
): VocabularyPlayer[] {
  const words = spellingWords(name);
  const key = words.join(' ');
  const exact = players.filter((player) => spellingWords(player.name).join(' ') === key);
  if (exact.length > 0 || literal) return exact;
  return players.filter((player) => {
    const parts = spellingWords(player.name);
    let at = 0;
    return words.every((word) => {
      while (at < parts.length && !parts[at]!.startsWith(word)) at += 1;
      at += 1;
      return at <= parts.length;
    });
  });
}

/**
 * `text` is `84`, `#84`, `us84`, `them 84`, `novak`, `#84 Ira Novak` and the like. The roster is
 * that of `teamOf`, or both. `literal` takes a name nobody has as a new player.
 */
export function findPlayers(
  index: VocabularyIndex,
  field: FieldDefinition,
  text: string,
  possession: string | null,
  literal: boolean,
): PlayersFound | null {
  const { teams, players } = index.vocabulary;
  const match = /^(?:(us|them)(?=[\s#\d]|$))?\s*(?:#?(\d{1,3})(?=\s|$))?\s*(.*)$/i.exec(text.trim());
  if (!match) return null;
  const [, side, digits, name = ''] = match;
  const number = digits === undefined ? null : Number(digits);
  if (number === null && !name) return null;
  const team = side
    ? side.toLowerCase() === 'us'
      ? teams.ours
      : teams.opponent
    : teamOf(index, field, possession);
  const pool = number === null ? players : (index.playersByNumber.get(number) ?? []);
  const onTeam = team === null ? pool : pool.filter((player) => player.team === team);
  const named = name ? namedPlayers(onTeam, name, literal) : onTeam;
  // In quotes, a namesake without a number is told from one with a number.
  const label = spellingKey(playerLabel({ number, name: name || null }));
  const labelled = literal ? named.filter((player) => spellingKey(playerLabel(player)) === label) : [];
  const found = labelled.length > 0 ? labelled : named;
  if (found.length > 0) return { players: found.map(asValue), isNew: false };
  if (number === null && !literal) return null;
  return {
    players: [{ kind: 'player', playerId: null, number, name: name || null, team }],
    isNew: true,
  };
}
