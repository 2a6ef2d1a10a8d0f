import { v7 as uuidv7 } from 'uuid';
import type { Change, EditValue, Gesture } from '../../../db/journal/edit.ts';
import { momentId } from '../../../db/journal/entities.ts';
import type { Committed } from '../../../db/journal/journal.ts';
import { findClip } from '../../../db/repositories/film.ts';
import { listGames } from '../../../db/repositories/games.ts';
import type { MomentKind, PlayRecord } from '../../../football/play.ts';
import { ProblemError } from '../../../football/result.ts';
import { type Deduced, deduceOutcome } from '../../../football/situation/deduce.ts';
import type { FieldValue } from '../../../football/values.ts';
import { BUILT_IN_FIELDS } from '../../../football/vocabulary/fields.ts';
import { startMicros } from '../../film/frame-table.ts';
import { filmOrProblem, frameTableOf } from '../film/shelf.ts';
import { type Station, touchedPlays } from '../station.ts';
import type { Angle, ChangedView, FilmTimeView, PlayView, TagRequest } from '../views.ts';
import { fieldChanges, type NewTerm, newTermChanges } from './field-changes.ts';
import { changedView, PREDICTED_FIELDS, playsByIds } from './play-views.ts';

/** The fields that make a play a logged one, so that its predicted situation is kept with it. */
const LOGS_A_PLAY: ReadonlySet<string> = new Set(['playKind', 'result']);

/** @throws ProblemError `play-unknown` */
export function playOrProblem(station: Station, playId: string): PlayView {
  const [play] = playsByIds(station, [playId]);
  if (!play) throw playUnknown();
  return play;
}

export function playUnknown(): ProblemError {
  return new ProblemError({
    code: 'play-unknown',
    message: 'This play is not in the library; it may have been removed.',
    kept: 'Nothing was changed.',
    next: 'Undo brings a removed play back.',
  });
}

/**
 * Gives a play values of fields, in one gesture, with the terms that the playbook gets by it. When that logs the play, the situation that the rules
 * predicted for it, and that nobody contradicted, is kept with it, marked as predicted.
 * @throws ProblemError `play-unknown`, `film-unknown` and those of `fieldChanges`
 */
export function tagPlay(
  station: Station,
  request: TagRequest,
  newTerms: readonly NewTerm[] = [],
): ChangedView {
  const play = playOrProblem(station, request.playId);
  if (request.film) filmOrProblem(station.library, request.film.filmId);
  const made = new Map<string, string>();
  const changes = [
    ...newTermChanges(station, newTerms, made),
    ...changesOf(station, play, request.changes, request.film ?? null, made),
  ];
  const gesture: Gesture = {
    label: request.label ?? labelOf(station, play, request.changes),
    film: request.film ?? null,
  };
  station.library.journal.commit(gesture, changes);
  return changedView(station, [request.playId]);
}

function changesOf(
  station: Station,
  play: PlayView,
  values: TagRequest['changes'],
  film: FilmTimeView | null,
  made: Map<string, string>,
): Change[] {
  const context = { film, at: new Date().toISOString() };
  const changes = values.flatMap((c) => fieldChanges(station, play.playId, c.field, c.value, context, made));
  const given = new Set(values.filter((c) => c.value.kind !== 'clear').map((c) => c.field));
  if (play.prediction && [...given].some((f) => LOGS_A_PLAY.has(f))) {
    for (const field of PREDICTED_FIELDS) {
      const value = play.prediction[field];
      if (value !== null && !values.some((c) => c.field === field)) {
        changes.push({ entity: 'play', id: play.playId, field, value, origin: 'predicted' });
      }
    }
  }
  changes.push(...deducedChanges(play, changes));
  return changes;
}

/** What follows from the outcome as it will stand, marked as predicted; what a person entered stays. */
function deducedChanges(play: PlayView, changes: readonly Change[]): Change[] {
  const after: Record<string, unknown> = { ...play.record };
  for (const key of play.predicted) if (key in DEDUCED) after[key] = null;
  for (const change of changes) {
    if (change.entity === 'play')
      after[change.field] =
        FLAGS.has(change.field) && change.value !== null ? change.value === 1 : change.value;
  }
  const touched = new Set(changes.filter((c) => c.entity === 'play').map((c) => c.field));
  if (![...touched].some((field) => MAKES_OUTCOME.has(field))) return [];
  const deduced = deduceOutcome(after as unknown as PlayRecord);
  return Object.keys(DEDUCED).flatMap((field): Change[] => {
    const value = deduced[field as keyof Deduced];
    if (touched.has(field)) return [];
    if (value === undefined) {
      // an outcome that no longer says it takes its deduction back
      return play.predicted.includes(field) ? [{ entity: 'play', id: play.playId, field, value: null }] : [];
    }
    return [{ entity: 'play', id: play.playId, field, value: Number(value), origin: 'predicted' as const }];
  });
}

const DEDUCED: Readonly<Record<keyof Deduced, true>> = {
  firstDown: true,
  turnover: true,
  yardsAfterCatch: true,
};
const MAKES_OUTCOME: ReadonlySet<string> = new Set([
  'playKind',
  'result',
  'gain',
  'airYards',
  'distance',
  'fumble',
  'penalty',
]);
const FLAGS: ReadonlySet<string> = new Set(
  BUILT_IN_FIELDS.filter((f) => f.kind === 'flag').map((f) => f.key),
);

function labelOf(station: Station, play: PlayView, changes: TagRequest['changes']): string {
  const number = play.record.playNumber ?? '';
  const [only] = changes;
  if (changes.length !== 1 || !only) return `log play ${number}`;
  const label = station.vocabulary().fields.get(only.field)?.label ?? only.field;
  return `${only.value.kind === 'clear' ? 'clear' : 'set'} ${label.toLowerCase()} of play ${number}`;
}

/** One value for many plays, in one gesture, with what follows from it on each. */
export function tagMany(
  station: Station,
  playIds: readonly string[],
  field: string,
  value: FieldValue,
): ChangedView {
  const context = { film: null, at: new Date().toISOString() };
  const made = new Map<string, string>();
  const plays = playsByIds(station, playIds);
  const known = plays.map((p) => p.playId);
  const changes = plays.flatMap((play) => {
    const given = fieldChanges(station, play.playId, field, value, context, made);
    return [...given, ...deducedChanges(play, given)];
  });
  const label = station.vocabulary().fields.get(field)?.label.toLowerCase() ?? field;
  station.library.journal.commit({ label: `set ${label} of ${known.length} plays` }, changes);
  return changedView(station, known);
}

/**
 * Adds an empty play after another (or at the end), numbering on; later plays keep their order.
 * @throws ProblemError `game-unknown`, `play-unknown`
 */
export function addPlay(
  station: Station,
  gameId: string,
  after: string | null,
): { playId: string; changed: ChangedView } {
  const { db } = station.library;
  if (!listGames(station.library).some((g) => g.id === gameId)) {
    throw new ProblemError({
      code: 'game-unknown',
      message: 'This game is not in the library.',
      kept: 'No play was added.',
      next: 'Choose another game, or make one.',
    });
  }
  const plays = db
    .prepare(
      'SELECT id, play_number AS n FROM plays WHERE game_id = ? AND removed = 0 ORDER BY play_number, id',
    )
    .all(gameId) as { id: string; n: number | null }[];
  const at = after === null ? plays.length : plays.findIndex((p) => p.id === after) + 1;
  if (after !== null && at === 0) throw playUnknown();
  const before = plays[at - 1];
  const number = (before?.n ?? 0) + 1;
  const changes: Change[] = [];
  let free = number;
  for (const later of plays.slice(at)) {
    if (later.n === null || later.n > free) break;
    free = later.n + 1;
    changes.push({ entity: 'play', id: later.id, field: 'playNumber', value: free });
  }
  const playId = uuidv7();
  changes.push(...newPlayChanges(playId, gameId, number));
  station.library.journal.commit({ label: `add play ${number}` }, changes);
  return { playId, changed: changedView(station, [playId, ...changes.map((c) => c.id)]) };
}

export function newPlayChanges(playId: string, gameId: string, playNumber: number): Change[] {
  return [
    { entity: 'play', id: playId, field: 'removed', value: 0 },
    { entity: 'play', id: playId, field: 'gameId', value: gameId },
    { entity: 'play', id: playId, field: 'playNumber', value: playNumber },
  ];
}

export function removePlay(station: Station, playId: string): ChangedView {
  const play = playOrProblem(station, playId);
  station.library.journal.commit({ label: `remove play ${play.record.playNumber ?? ''}` }, [
    { entity: 'play', id: playId, field: 'removed', value: 1 },
  ]);
  return { ...changedView(station, []) };
}

/**
 * Stamps a moment on the exact frame shown, or takes the stamp away (frame null).
 * @throws ProblemError `play-unknown`, `film-unknown`, `frame-range`, or why the film's frame times cannot be read
 */
export async function stampMoment(
  station: Station,
  stamp: { playId: string; kind: MomentKind; filmId: string; frame: number | null },
): Promise<ChangedView> {
  const play = playOrProblem(station, stamp.playId);
  const value = stamp.frame === null ? null : await frameTime(station, stamp.filmId, stamp.frame);
  const film = stamp.frame === null ? null : { filmId: stamp.filmId, frame: stamp.frame };
  const word = stamp.frame === null ? 'take away' : 'stamp';
  station.library.journal.commit(
    { label: `${word} ${stamp.kind} of play ${play.record.playNumber ?? ''}`, film },
    [{ entity: 'moment', id: momentId(stamp.playId, stamp.filmId, stamp.kind), field: 'at', value }],
  );
  return changedView(station, [stamp.playId]);
}

async function frameTime(station: Station, filmId: string, frame: number): Promise<EditValue> {
  const { name, frames } = filmOrProblem(station.library, filmId);
  if (frame < frames) return [frame, startMicros(await frameTableOf(station.library, filmId), frame)];
  throw new ProblemError({
    code: 'frame-range',
    message: `${name} has frames 0 to ${frames - 1}, and no frame ${frame}.`,
    kept: 'Nothing was stamped.',
    next: 'Stamp a frame that the film shows.',
  });
}

export interface ClipRequest {
  readonly playId: string;
  readonly clipId?: string | null;
  readonly filmId: string;
  readonly angle: Angle;
  /** first frame */
  readonly inFrame: number;
  /** first frame after the clip */
  readonly outFrame: number;
}

/**
 * Makes a clip of a play, or changes it. Without a clip id, a clip of the same play, film and angle is changed.
 * @throws ProblemError `clip-range`, `film-unknown`, `play-unknown`
 */
export function setClip(station: Station, request: ClipRequest): ChangedView & { clipId: string } {
  const play = playOrProblem(station, request.playId);
  const film = filmOrProblem(station.library, request.filmId);
  const { inFrame, outFrame } = request;
  if (inFrame < 0 || outFrame <= inFrame || outFrame > film.frames) {
    throw new ProblemError({
      code: 'clip-range',
      message: `${film.name} has frames 0 to ${film.frames - 1}; a clip from ${inFrame} up to ${outFrame} does not lie in it.`,
      kept: 'The clip was not changed.',
      next: `Give an in-frame from 0 and an out-frame after it, at most ${film.frames}.`,
    });
  }
  const same = play.clips.find((c) => c.filmId === request.filmId && c.angle === request.angle);
  const clipId = request.clipId ?? same?.clipId ?? uuidv7();
  station.library.journal.commit(
    {
      label: `clip of play ${play.record.playNumber ?? ''}`,
      film: { filmId: request.filmId, frame: inFrame },
    },
    clipChanges(clipId, request),
  );
  return { clipId, ...changedView(station, [request.playId]) };
}

export function clipChanges(clipId: string, clip: Omit<ClipRequest, 'clipId'>): Change[] {
  const at = { entity: 'clip', id: clipId };
  return [
    { ...at, field: 'removed', value: 0 },
    { ...at, field: 'playId', value: clip.playId },
    { ...at, field: 'filmId', value: clip.filmId },
    { ...at, field: 'angle', value: clip.angle },
    { ...at, field: 'range', value: [clip.inFrame, clip.outFrame] },
  ];
}

export function removeClip(station: Station, clipId: string): ChangedView {
  const clip = findClip(station.library, clipId);
  if (!clip) return changedView(station, []);
  station.library.journal.commit({ label: 'remove clip' }, [
    { entity: 'clip', id: clipId, field: 'removed', value: 1 },
  ]);
  return changedView(station, [clip.playId]);
}

export function undo(station: Station): ChangedView & { label: string | null } {
  return afterTakingBack(station, station.library.journal.undo());
}

export function redo(station: Station): ChangedView & { label: string | null } {
  return afterTakingBack(station, station.library.journal.redo());
}

function afterTakingBack(
  station: Station,
  committed: Committed | null,
): ChangedView & { label: string | null } {
  const playIds = touchedPlays(station.library, committed?.edits ?? []);
  return { label: committed?.label ?? null, ...changedView(station, playIds) };
}
