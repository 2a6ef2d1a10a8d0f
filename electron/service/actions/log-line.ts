import { loadPlays } from '../../../db/repositories/play-records.ts';
import {
  buildHistory,
  completeLogLine,
  forgetPlay,
  type History,
  indexVocabulary,
  type LogLineReading,
  rankTerms,
  readLogLine,
  recordPlay,
  type Suggestion,
  type VocabularyIndex,
} from '../../../football/log-line/index.ts';
import type { PlayRecord } from '../../../football/play.ts';
import { ProblemError } from '../../../football/result.ts';
import { termId } from '../../../football/vocabulary/terms.ts';
import type { Station } from '../station.ts';
import type { ChangedView, FilmTimeView, PlayView } from '../views.ts';
import { type NewTerm, termFieldOrProblem } from './field-changes.ts';
import { playOrProblem, tagPlay } from './tags.ts';

const indexes = new WeakMap<object, Map<string, VocabularyIndex>>();

/** The words that a line of this game may use, indexed once per vocabulary and opponent; with new terms, for this line alone. */
function lineIndex(station: Station, gameId: string, newTerms: readonly NewTerm[] = []): VocabularyIndex {
  const vocabulary = station.vocabulary();
  const known = indexes.get(vocabulary) ?? new Map<string, VocabularyIndex>();
  indexes.set(vocabulary, known);
  const row = station.library.db.prepare('SELECT opponent FROM games WHERE id = ?').get(gameId) as
    | { opponent: string | null }
    | undefined;
  const opponent = row?.opponent ?? otherTeam(station, gameId);
  const make = (more: readonly NewTerm[]) =>
    indexVocabulary({
      fields: vocabulary.fields.all,
      terms: [
        ...vocabulary.terms,
        ...more.map((t) => ({ ...t, id: termId(t.field, t.name), parentId: null, aliases: [] })),
      ],
      players: vocabulary.players.map((p) => ({ ...p, name: p.name ?? '', team: p.team ?? '' })),
      teams: { ours: vocabulary.ours, opponent },
    });
  if (newTerms.length > 0) return make(newTerms);
  const key = opponent ?? '';
  const index = known.get(key) ?? make([]);
  known.set(key, index);
  return index;
}

/** A game whose opponent is not named may still have plays of another team. */
function otherTeam(station: Station, gameId: string): string | null {
  const row = station.library.db
    .prepare(
      'SELECT possession FROM plays WHERE game_id = ? AND removed = 0 AND possession IS NOT NULL AND possession <> ? LIMIT 1',
    )
    .get(gameId, station.team) as { possession: string } | undefined;
  return row?.possession ?? null;
}

/** The play as the line finds it: what is stored, over what is predicted. */
function linePlay(play: PlayView): Partial<PlayRecord> {
  const filled: Record<string, unknown> = { ...play.record };
  for (const [key, value] of Object.entries(play.prediction ?? {})) {
    if (value !== null && (filled[key] ?? null) === null) filled[key] = value;
  }
  return filled as Partial<PlayRecord>;
}

export interface LogRequest {
  readonly playId: string;
  readonly line: string;
  readonly film?: FilmTimeView | null;
  /** terms that the person adds to the playbook with this line */
  readonly newTerms?: readonly NewTerm[];
}

export interface Logged {
  readonly tokens: LogLineReading['tokens'];
  readonly changed: ChangedView;
}

/**
 * Tags a play with a log line, in one gesture.
 * @throws ProblemError `log-line-unclear` naming the words that are not understood; nothing is stored then
 */
export function logPlay(station: Station, request: LogRequest): Logged {
  const play = playOrProblem(station, request.playId);
  const newTerms = (request.newTerms ?? [])
    .filter((t) => !station.vocabulary().findTerm(t.field, t.name))
    .map(({ field, name }) => ({ field: termFieldOrProblem(station, field, name).key, name: name.trim() }));
  const index = lineIndex(station, play.gameId, newTerms);
  const reading = readLogLine(request.line, index, { play: linePlay(play) });
  if (!reading.ready) throw unclear(reading);
  const changed = tagPlay(
    station,
    {
      playId: play.playId,
      changes: reading.changes.map(({ field, value }) => ({ field, value })),
      film: request.film ?? null,
      label: `log play ${play.record.playNumber ?? ''}`,
    },
    newTerms,
  );
  return { tokens: reading.tokens, changed };
}

function unclear(reading: LogLineReading): ProblemError {
  const said = reading.problems.filter((p) => p.blocks);
  const [first] = said;
  return new ProblemError({
    code: 'log-line-unclear',
    message: said.length ? said.map((p) => p.message).join(' ') : 'The line is not complete.',
    kept: 'Nothing was stored.',
    next: first?.next ?? 'Write the word out, or name its field, as in coverage:sky.',
    ...(first?.at ? { at: first.at } : {}),
  });
}

const histories = new WeakMap<Station, History>();

/** What the plays logged so far make likely; built once, then kept in step with the journal. */
function historyOf(station: Station): History {
  const known = histories.get(station);
  if (known) return known;
  const history = buildHistory(
    station.vocabulary().fields.all,
    loadPlays(station.library.db).map((p) => p.record),
  );
  histories.set(station, history);
  station.onPlays((plays, gone) => {
    for (const play of plays) recordPlay(history, play);
    for (const playId of gone) forgetPlay(history, playId);
  });
  return history;
}

/** Suggestions for the word at the cursor, ranked by what this play makes likely. */
export function completeLine(station: Station, playId: string, text: string, cursor: number): Suggestion[] {
  const play = playOrProblem(station, playId);
  const index = lineIndex(station, play.gameId);
  const context = { play: linePlay(play) };
  return completeLogLine(text, cursor, index, context, (on) => rankTerms(historyOf(station), on));
}
