import { ProblemError } from '../../../football/result.ts';
import { type ContextField, contextFields } from '../../../football/tendencies/contexts.ts';
import type { FieldDefinition } from '../../../football/vocabulary/fields.ts';
import { situationLimits } from '../columns.ts';
import type { Station } from '../station.ts';
import type { TendencyRequest } from '../tendency-views.ts';
import { readQuestion } from './answers.ts';

/** A play on which a team made a call. */
export interface CalledPlay {
  readonly playId: string;
  readonly gameId: string;
  readonly call: string;
  contextValue(context: ContextField): string | null;
}

export interface CalledPlays {
  /** in the order of play */
  readonly rows: readonly CalledPlay[];
  /** plays of the team's side on which the call is not tagged */
  readonly untagged: number;
}

/** The contexts of these keys in their order, or all. @throws ProblemError `field-unknown` */
export function contextsOf(station: Station, keys: readonly string[] | null): ContextField[] {
  const all = contextFields(station.vocabulary().fields.all, situationLimits(station.library));
  if (keys === null) return all;
  return keys.map((key) => {
    const context = all.find((c) => c.key === key);
    if (context) return context;
    throw new ProblemError({
      code: 'field-unknown',
      message: `Plays cannot be counted by ${key}.`,
      next: `They can by ${all.map((c) => c.key).join(', ')}.`,
    });
  });
}

/** @throws ProblemError `field-unknown` */
export function callField(station: Station, key: string): FieldDefinition {
  const { fields } = station.vocabulary();
  const field = fields.get(key);
  if (field && (field.kind === 'term' || field.key === 'rushers')) return field;
  const near = fields.nearest(key);
  throw new ProblemError({
    code: 'field-unknown',
    message: `${key} is no field that is called.`,
    next: `Ask for playKind, concept, formation, coverage, front, pressure or another field of terms${near && near !== key ? `; did you mean ${near}?` : '.'}`,
  });
}

/** Every team of the library. */
export function teamsOf(station: Station): string[] {
  const { ours, opponents } = station.vocabulary();
  const seen = station.library.db
    .prepare('SELECT DISTINCT possession FROM plays WHERE removed = 0 AND possession IS NOT NULL ORDER BY 1')
    .pluck()
    .all() as string[];
  return [...new Set([...(ours ? [ours] : []), ...opponents, ...seen])];
}

/** The plays of a team's side on which a call is tagged. @throws ProblemError `team-unknown`, `field-unknown`, why the question cannot be read */
export function calledPlays(
  station: Station,
  request: Pick<TendencyRequest, 'team' | 'side' | 'families' | 'where'>,
  call: string,
): CalledPlays {
  const field = callField(station, call);
  const team = teamsOf(station).find((name) => name.toLowerCase() === request.team.trim().toLowerCase());
  if (team === undefined) {
    throw new ProblemError({
      code: 'team-unknown',
      message: `No play of ${request.team || 'a team without a name'} is in the library.`,
      next: `The teams are ${teamsOf(station).join(', ')}.`,
    });
  }
  const gameOf = playsOfSide(station, team, request.side);
  const columns = station.columns();
  const { families } = columns;
  const fieldOf = (playId: string, key: string) => columns.valueOf(playId, key);
  const rooted = (key: string, value: string) =>
    request.families && hasFamilies(station, key) ? families.rootOf(key, value) : value;
  const rows: CalledPlay[] = [];
  let untagged = 0;
  for (const playId of columns.playIds(readQuestion(station, request.where))) {
    const gameId = gameOf.get(playId);
    if (gameId === undefined) continue;
    // kicks, tries and plays that serve the clock are nobody's tendency
    const kind = fieldOf(playId, 'playKind');
    if (kind !== null && kind !== 'pass' && kind !== 'run') {
      if (kind !== 'noPlay' || field.key === 'playKind') continue;
    }
    const value = fieldOf(playId, call);
    if (value === null) {
      untagged++;
      continue;
    }
    rows.push({
      playId,
      gameId,
      call: rooted(call, String(value)),
      contextValue: (context) => {
        const said = context.valueOf((key) => fieldOf(playId, key));
        return said === null ? null : rooted(context.key, said);
      },
    });
  }
  return { rows, untagged };
}

/** Terms of the playbook are counted by their families; the red zone and the goal line are told apart all the same. */
export function hasFamilies(station: Station, key: string): boolean {
  const field = station.vocabulary().fields.get(key);
  return field?.kind === 'term' && field.home !== 'derived';
}

/** Per play of the side its game. The other team's plays count as this team's defense where this team played the game. */
function playsOfSide(station: Station, team: string, side: 'offense' | 'defense'): Map<string, string> {
  const sql =
    side === 'offense'
      ? 'SELECT id, game_id AS gameId FROM plays WHERE removed = 0 AND possession = $team'
      : `SELECT id, game_id AS gameId FROM plays WHERE removed = 0 AND possession IS NOT NULL AND possession <> $team
         AND game_id IN (
           SELECT game_id FROM plays WHERE removed = 0 AND possession = $team
           UNION SELECT id FROM games WHERE removed = 0 AND (opponent = $team OR ($team = $ours AND opponent IS NOT NULL)))`;
  const given = side === 'offense' ? { team } : { team, ours: station.team };
  const rows = station.library.db.prepare(sql).all(given) as { id: string; gameId: string }[];
  return new Map(rows.map((row) => [row.id, row.gameId]));
}
