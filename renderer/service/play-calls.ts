import type { Angle, ClipLock, FilmTimeView } from '../../electron/service/views.ts';
import type { MomentKind } from '../../football/play.ts';
import type { FieldValue } from '../../football/values.ts';
import { answer, api } from './api.ts';

/** Gestures on plays, their clips and their moments. */
export const playCalls = {
  log: (request: {
    readonly playId: string;
    readonly line: string;
    readonly film: FilmTimeView | null;
    readonly newTerms: readonly { readonly field: string; readonly name: string }[];
  }) => answer(api.log.$post({ json: { ...request, newTerms: [...request.newTerms] } })),

  complete: (playId: string, text: string, cursor: number) =>
    answer(api.log.complete.$post({ json: { playId, text, cursor } })),

  tag: (request: {
    readonly playId: string;
    readonly changes: readonly { readonly field: string; readonly value: FieldValue }[];
    readonly film?: FilmTimeView | null;
    readonly label?: string;
  }) =>
    answer(
      api.tags.$post({
        json: { ...request, film: request.film ?? null, changes: [...request.changes] },
      }),
    ),

  tagMany: (playIds: readonly string[], field: string, value: FieldValue) =>
    answer(api.tags.many.$post({ json: { playIds: [...playIds], field, value } })),

  stamp: (playId: string, kind: MomentKind, filmId: string, frame: number | null) =>
    answer(api.moments.$post({ json: { playId, kind, filmId, frame } })),

  add: (gameId: string, after: string | null) => answer(api.plays.$post({ json: { gameId, after } })),

  remove: (playId: string) => answer(api.plays[':playId'].remove.$post({ param: { playId } })),

  /** Holds two angles to one instant by hand; null lets the snap, the time code or the clips' starts decide. */
  lockClip: (clipId: string, lock: ClipLock | null) =>
    answer(api.clips[':clipId'].lock.$post({ param: { clipId }, json: { lock } })),

  setClip: (clip: {
    readonly playId: string;
    readonly clipId?: string | null;
    readonly filmId: string;
    readonly angle: Angle;
    readonly inFrame: number;
    readonly outFrame: number;
  }) => answer(api.clips.$post({ json: clip })),
};
