import { extname, join } from 'node:path';
import { clipsOfPlays } from '../../../db/repositories/film.ts';
import { ProblemError } from '../../../football/result.ts';
import { renderPlaylist } from '../../export/playlist.ts';
import { estimateReel } from '../../export/reel/estimate.ts';
import { renderReel } from '../../export/reel.ts';
import { planReel } from '../../export/reel-plan.ts';
import type { ReelOptions, ReelReport, ReelSegment } from '../../export/reel-types.ts';
import { cutupDetail } from '../actions/cutups.ts';
import { exportPlays } from '../actions/sheets/export.ts';
import type { JobContext } from '../jobs/jobs.ts';
import type { Station } from '../station.ts';
import type { Angle, CutupDetailView, ReelChoices, ReelEstimateView } from '../views.ts';
import { type Dressed, dressReel } from './reel-dressing.ts';
import { reelSpeeds, rememberSpeed } from './reel-speeds.ts';
import { filmPathOrProblem, frameTableOf } from './shelf.ts';
import { filmTools } from './stills.ts';

export interface ExportCutup {
  readonly cutupId: string;
  /** target file; its ending says the format: .mp4, .m3u8, .csv, .xlsx */
  readonly to: string;
  /** null: as the cut-up says */
  readonly angles: readonly Angle[] | null;
  readonly choices?: ReelChoices;
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
      /** what was drawn into the pictures: clips with tags, drawings */
      readonly burnt: Dressed['burnt'];
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

/** Where the edges of clips are kept, to be found by the next reel. */
export function edgeFolderOf(station: Station): string {
  return join(station.library.cacheFolder, 'edges');
}

const SIZES = { '1080': 1080, '720': 720, '540': 540 } as const;

/** The reel's size for a number of lines; film is never made larger than it is. */
function sizeFor(reel: readonly ReelSegment[], size: ReelChoices['size']): ReelOptions['size'] {
  if (size === undefined || size === 'source') return undefined;
  const planned = planReel(reel, {});
  if (!planned.ok) return undefined;
  const { width, height } = planned.value;
  const scale = SIZES[size] / Math.min(width, height);
  return scale >= 1 ? undefined : { width: width * scale, height: height * scale };
}

interface Prepared {
  readonly cutup: CutupDetailView;
  readonly clips: readonly CutupSegment[];
  readonly without: readonly string[];
  readonly dressed: Dressed;
  readonly options: ReelOptions;
}

/** @throws ProblemError `cutup-empty`, `film-missing`, `field-unknown` */
async function prepare(
  station: Station,
  { cutupId, angles, choices = {} }: Omit<ExportCutup, 'to'>,
): Promise<Prepared> {
  const cutup = cutupDetail(station, cutupId);
  const { segments: clips, without } = cutupSegments(station, cutup, angles);
  if (clips.length === 0) {
    throw new ProblemError({
      code: 'cutup-empty',
      message: `The cut-up ${cutup.name} has no film to write${angles ? ` of the angles ${angles.join(' and ')}` : ''}.`,
      kept: 'Nothing was written.',
      next: 'Add plays that have film, or choose other angles.',
    });
  }
  const reel: ReelSegment[] = [];
  for (const { filmId, inFrame, outFrame } of clips) {
    const path = filmPathOrProblem(station.library, filmId);
    reel.push({ path, table: await frameTableOf(station.library, filmId), inFrame, outFrame, filmId });
  }
  const { burn = [], fields = null, titleCard = false, quality = 'standard' } = choices;
  const size = sizeFor(reel, choices.size);
  return {
    cutup,
    clips,
    without,
    dressed: dressReel(station, cutup, clips, reel, { burn, fields, titleCard }),
    options: {
      tools: await filmTools(),
      quality,
      edgeFolder: edgeFolderOf(station),
      ...(size ? { size } : {}),
    },
  };
}

/** What writing a cut-up as a reel will cost, about. @throws as `exportCutup` */
export async function estimateCutup(
  station: Station,
  input: Omit<ExportCutup, 'to'>,
): Promise<ReelEstimateView> {
  const { dressed, options, cutup } = await prepare(station, input);
  const estimate = await estimateReel(dressed.segments, options, reelSpeeds(station.library));
  if (estimate) return estimate;
  throw new ProblemError({
    code: 'reel-bad-segment',
    message: `A clip of ${cutup.name} asks for frames that its film does not have.`,
    next: 'Correct its in and its out, or take it out of the cut-up.',
  });
}

/** @throws ProblemError `cutup-empty`, `film-missing`, and those of the reel */
export async function exportCutup(
  station: Station,
  input: ExportCutup,
  context: Partial<JobContext> = {},
): Promise<ExportReport> {
  const format = exportFormat(input.to);
  if (format === 'csv' || format === 'xlsx') {
    const cutup = cutupDetail(station, input.cutupId);
    const rows = await exportPlays(station, { playIds: cutup.list.map((i) => i.playId), to: input.to });
    return { format, path: input.to, rows };
  }
  const { cutup, clips, without, dressed, options } = await prepare(station, input);
  const render = format === 'mp4' ? renderReel : renderPlaylist;
  const speeds = reelSpeeds(station.library);
  const estimate = await estimateReel(dressed.segments, options, speeds);
  const started = performance.now();
  const made = await render(dressed.segments, input.to, {
    ...options,
    ...(context.progress ? { onProgress: context.progress } : {}),
    ...(context.signal ? { signal: context.signal } : {}),
  });
  if (!made.ok) throw new ProblemError(made.problem);
  if (estimate) rememberSpeed(station.library, estimate, (performance.now() - started) / 1000);
  const numbers = new Map(cutup.list.map((i, at) => [i.playId, at + 1]));
  return {
    format,
    ...made.value,
    clips,
    without: without.map((id) => numbers.get(id) ?? 0),
    burnt: dressed.burnt,
  };
}
