import { extname } from 'node:path';
import { clipsOfPlays } from '../../../db/repositories/film.ts';
import { ProblemError } from '../../../football/result.ts';
import { renderPlaylist } from '../../export/playlist.ts';
import { renderReel } from '../../export/reel.ts';
import type { ReelReport, ReelSegment } from '../../export/reel-types.ts';
import { cutupDetail } from '../actions/cutups.ts';
import { exportPlays } from '../actions/sheets/export.ts';
import type { JobContext } from '../jobs/jobs.ts';
import type { Station } from '../station.ts';
import type { Angle, CutupDetailView } from '../views.ts';
import { filmPathOrProblem, frameTableOf } from './shelf.ts';
import { filmTools } from './stills.ts';

export interface ExportCutup {
  readonly cutupId: string;
  /** target file; its ending says the format: .mp4, .m3u8, .csv, .xlsx */
  readonly to: string;
  /** null: as the cut-up says */
  readonly angles: readonly Angle[] | null;
}

export interface CutupSegment {
  readonly playId: string;
  readonly playNumber: number | null;
  readonly angle: Angle;
  readonly filmId: string;
  readonly inFrame: number;
  readonly outFrame: number;
}

export type ExportReport =
  | (ReelReport & {
      readonly format: 'mp4' | 'm3u8';
      readonly clips: readonly CutupSegment[];
      readonly without: readonly number[];
    })
  | { readonly format: 'csv' | 'xlsx'; readonly path: string; readonly rows: number };

/**
 * The stretches of film of a cut-up, in order: per item its angles in order, trimmed where it says so. `without` lists
 * the plays of which there is no film of any of the angles.
 */
export function cutupSegments(
  station: Station,
  cutup: CutupDetailView,
  angles: readonly Angle[] | null,
): { segments: CutupSegment[]; without: string[] } {
  const clips = clipsOfPlays(
    station.library,
    cutup.list.map((i) => i.playId),
  );
  const numbers = new Map(
    (
      station.library.db
        .prepare('SELECT id, play_number AS n FROM plays WHERE id IN (SELECT value FROM json_each(?))')
        .all(JSON.stringify(cutup.list.map((i) => i.playId))) as { id: string; n: number | null }[]
    ).map((r) => [r.id, r.n]),
  );
  const segments: CutupSegment[] = [];
  const without: string[] = [];
  for (const item of cutup.list) {
    let found = false;
    for (const angle of angles ?? item.angles ?? cutup.angles) {
      const clip = clips.find((c) => c.playId === item.playId && c.angle === angle);
      if (!clip) continue;
      found = true;
      const [inFrame, outFrame] = item.trims[angle] ?? [clip.inFrame, clip.outFrame];
      segments.push({
        playId: item.playId,
        playNumber: numbers.get(item.playId) ?? null,
        angle,
        filmId: clip.filmId,
        inFrame,
        outFrame,
      });
    }
    if (!found) without.push(item.playId);
  }
  return { segments, without };
}

/** Where a cut-up may be written to. @throws ProblemError `export-format` */
export function exportFormat(to: string): 'mp4' | 'm3u8' | 'csv' | 'xlsx' {
  const ending = extname(to).slice(1).toLowerCase();
  if (ending === 'mp4' || ending === 'm3u8' || ending === 'csv' || ending === 'xlsx') return ending;
  throw new ProblemError({
    code: 'export-format',
    message: `${to} does not end in a format that a cut-up can be written in.`,
    kept: 'Nothing was written.',
    next: 'End the name in .mp4 (one reel), .m3u8 (a playlist), .csv or .xlsx (its plays).',
  });
}

/** @throws ProblemError `cutup-empty`, `film-missing`, and those of the reel */
export async function exportCutup(
  station: Station,
  input: ExportCutup,
  context: Partial<JobContext> = {},
): Promise<ExportReport> {
  const format = exportFormat(input.to);
  const cutup = cutupDetail(station, input.cutupId);
  if (format === 'csv' || format === 'xlsx') {
    const rows = await exportPlays(station, { playIds: cutup.list.map((i) => i.playId), to: input.to });
    return { format, path: input.to, rows };
  }
  const { segments, without } = cutupSegments(station, cutup, input.angles);
  if (segments.length === 0) {
    throw new ProblemError({
      code: 'cutup-empty',
      message: `The cut-up ${cutup.name} has no film to write${input.angles ? ` of the angles ${input.angles.join(' and ')}` : ''}.`,
      kept: 'Nothing was written.',
      next: 'Add plays that have film, or choose other angles.',
    });
  }
  const reel: ReelSegment[] = [];
  for (const s of segments) {
    reel.push({
      path: filmPathOrProblem(station.library, s.filmId),
      table: await frameTableOf(station.library, s.filmId),
      inFrame: s.inFrame,
      outFrame: s.outFrame,
    });
  }
  const render = format === 'mp4' ? renderReel : renderPlaylist;
  const made = await render(reel, input.to, {
    tools: await filmTools(),
    ...(context.progress ? { onProgress: context.progress } : {}),
    ...(context.signal ? { signal: context.signal } : {}),
  });
  if (!made.ok) throw new ProblemError(made.problem);
  const numbers = new Map(cutup.list.map((i, at) => [i.playId, at + 1]));
  return { format, ...made.value, clips: segments, without: without.map((id) => numbers.get(id) ?? 0) };
}
