import { PREDICTED_SNAP } from '../../../db/journal/entities.ts';
import { clipsOfPlays, type MomentRow, momentsOfPlays } from '../../../db/repositories/film.ts';
import { loadPlaysById, type StoredPlay } from '../../../db/repositories/play-records.ts';
import type { Hash, MomentKind } from '../../../football/play.ts';
import { rulesFor } from '../../../football/rules/index.ts';
import { predictNext, type Teams } from '../../../football/situation/predict.ts';
import type { Station } from '../station.ts';
import type { Angle, ChangedView, PlayView, PredictedSituation } from '../views.ts';

/** The fields that the rules can work out from the plays before. */
export const PREDICTED_FIELDS = [
  'quarter',
  'possession',
  'down',
  'distance',
  'yardsToGoal',
  'hash',
  'scoreFor',
  'scoreAgainst',
] as const satisfies readonly (keyof PredictedSituation)[];

export function isLogged({ record }: StoredPlay): boolean {
  return record.playKind !== null || record.result !== null;
}

/** All plays of a game in order, each with its film, its moments and what the play before leads to. */
export function playsOfGame(station: Station, gameId: string): PlayView[] {
  return views(station, station.playsOf(gameId), null);
}

/** Plays in the order in which they were asked for; unknown ids are left out. */
export function playsByIds(station: Station, playIds: readonly string[]): PlayView[] {
  const byGame = new Map<string, Set<string>>();
  for (const { record } of loadPlaysById(station.library.db, playIds)) {
    const wanted = byGame.get(record.gameId) ?? new Set<string>();
    wanted.add(record.playId);
    byGame.set(record.gameId, wanted);
  }
  const found = new Map<string, PlayView>();
  for (const [gameId, wanted] of byGame) {
    for (const view of views(station, station.playsOf(gameId), wanted)) found.set(view.playId, view);
  }
  return playIds.map((id) => found.get(id)).filter((v): v is PlayView => v !== undefined);
}

/** What a gesture changed, with the play that follows each changed play, because its prediction may differ. */
export function changedView(station: Station, playIds: readonly string[]): ChangedView {
  const games = new Set(loadPlaysById(station.library.db, playIds).map((p) => p.record.gameId));
  const plays: PlayView[] = [];
  for (const gameId of games) {
    const stored = station.playsOf(gameId);
    const wanted = new Set(playIds);
    stored.forEach((play, i) => {
      const before = stored[i - 1];
      if (before && playIds.includes(before.record.playId)) wanted.add(play.record.playId);
    });
    plays.push(...views(station, stored, wanted));
  }
  return { plays, ...undoLabels(station) };
}

export function undoLabels(station: Station): { undo: string | null; redo: string | null } {
  const { journal } = station.library;
  return { undo: journal.nextUndo()?.label ?? null, redo: journal.nextRedo()?.label ?? null };
}

function views(
  station: Station,
  stored: readonly StoredPlay[],
  only: ReadonlySet<string> | null,
): PlayView[] {
  const wanted = stored.filter((p) => !only || only.has(p.record.playId));
  const ids = wanted.map((p) => p.record.playId);
  const clips = group(clipsOfPlays(station.library, ids));
  const moments = group(momentsOfPlays(station.library, ids));
  const place = new Map(stored.map((p, i) => [p.record.playId, i]));
  return wanted.map((play) => {
    const { record, predicted } = play;
    return {
      playId: record.playId,
      gameId: record.gameId,
      record,
      predicted,
      ...predictionFor(station, stored, place.get(record.playId) ?? 0),
      clips: (clips.get(record.playId) ?? []).map((c) => ({
        clipId: c.id,
        filmId: c.filmId,
        angle: c.angle as Angle,
        inFrame: c.inFrame,
        outFrame: c.outFrame,
        lock:
          c.lockFrame === null || c.lockFilmId === null || c.lockFilmFrame === null
            ? null
            : { frame: c.lockFrame, filmId: c.lockFilmId, filmFrame: c.lockFilmFrame },
      })),
      ...momentsOf(moments.get(record.playId) ?? []),
      logged: isLogged(play),
    };
  });
}

function momentsOf(rows: readonly MomentRow[]): Pick<PlayView, 'stamped' | 'predictedSnaps'> {
  const stamped = rows
    .filter((m) => m.kind !== PREDICTED_SNAP)
    .map((m) => ({
      kind: m.kind as MomentKind,
      filmId: m.filmId,
      frame: m.frame,
      seconds: m.ptsMicros / 1e6,
    }));
  const predictedSnaps = rows
    .filter((m) => m.kind === PREDICTED_SNAP)
    .filter((m) => !stamped.some((s) => s.kind === 'snap' && s.filmId === m.filmId))
    .map((m) => ({ filmId: m.filmId, frame: m.frame, seconds: m.ptsMicros / 1e6 }));
  return predictedSnaps.length > 0 ? { stamped, predictedSnaps } : { stamped };
}

type Predicted = Pick<PlayView, 'prediction' | 'predictionReason'>;

function predictionFor(station: Station, stored: readonly StoredPlay[], at: number): Predicted {
  const play = stored[at];
  const missing = play ? PREDICTED_FIELDS.filter((f) => play.record[f] === null) : [];
  if (!play || missing.length === 0 || at === 0) return { prediction: null, predictionReason: null };
  const before = stored.slice(0, at).map((p) => p.record);
  const next = predictNext(before, rulesFor(station.level), teamsOf(station, play.record.gameId));
  if (!next.ok) return { prediction: null, predictionReason: next.reason };
  const s = next.situation;
  const open = <T>(field: (typeof PREDICTED_FIELDS)[number], value: T): T | null =>
    missing.includes(field) ? value : null;
  return {
    prediction: {
      quarter: open('quarter', s.quarter),
      clock: null,
      possession: open('possession', s.possession),
      down: open('down', s.down),
      distance: open('distance', s.distance),
      yardsToGoal: open('yardsToGoal', s.yardsToGoal),
      hash: open('hash', s.hash as Hash | null),
      scoreFor: open('scoreFor', s.scoreFor),
      scoreAgainst: open('scoreAgainst', s.scoreAgainst),
    },
    predictionReason: null,
  };
}

export function teamsOf(station: Station, gameId: string): Teams {
  const row = station.library.db.prepare('SELECT opponent FROM games WHERE id = ?').get(gameId) as
    | { opponent: string | null }
    | undefined;
  return {
    ...(station.team ? { home: station.team } : {}),
    ...(row?.opponent ? { away: row.opponent } : {}),
  };
}

function group<T extends { playId: string }>(rows: readonly T[]): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const list = groups.get(row.playId);
    if (list) list.push(row);
    else groups.set(row.playId, [row]);
  }
  return groups;
}
