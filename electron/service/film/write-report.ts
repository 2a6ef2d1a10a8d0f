import { extname } from 'node:path';
import { type ClipRow, clipsOfPlays } from '../../../db/repositories/film.ts';
import { loadPlaysById } from '../../../db/repositories/play-records.ts';
import { EVERY_PLAY } from '../../../football/question/ast.ts';
import { situationWords, tagWords } from '../../../football/report/play-words.ts';
import { playsOfReport, type Report } from '../../../football/report/report.ts';
import { ProblemError } from '../../../football/result.ts';
import { type BundlePlay, type BundleReport, writeBundle } from '../../export/report/bundle.ts';
import { reportPdf } from '../../export/report/pdf.ts';
import { writeWhole } from '../../export/tables/write-file.ts';
import { makeReport, type ReportRequest } from '../actions/report.ts';
import type { JobContext } from '../jobs/jobs.ts';
import type { Station } from '../station.ts';
import { filmPathOrProblem, frameTableOf } from './shelf.ts';
import { filmTools } from './stills.ts';

export interface WriteReport extends ReportRequest {
  /** ends in .pdf, .zip, or is a folder */
  readonly to: string;
  /** whether film leaves the library with it: never unless a person said so */
  readonly film: boolean;
}

export type WrittenReport = { readonly path: string; readonly format: 'pdf' } | BundleReport;

/** @throws ProblemError as `makeReport`, as `renderReel`, and where the target cannot be written */
export async function writeReport(
  station: Station,
  input: WriteReport,
  context: Partial<JobContext> = {},
): Promise<WrittenReport> {
  const report = makeReport(station, input);
  if (extname(input.to).toLowerCase() === '.pdf') {
    const written = await writeWhole(input.to, await reportPdf(report));
    if (!written.ok) throw new ProblemError(written.problem);
    context.progress?.(1);
    return { path: input.to, format: 'pdf' };
  }
  const plays = input.film ? await filmOf(station, report) : [];
  return writeBundle(report, plays, input.to, {
    tools: await filmTools(),
    ...(context.progress ? { onProgress: context.progress } : {}),
    ...(context.signal ? { signal: context.signal } : {}),
  });
}

/** The film of every play that the report stands on, where there is any. */
async function filmOf(station: Station, report: Report): Promise<BundlePlay[]> {
  const playIds = playsOfReport(report);
  const clips = new Map<string, ClipRow[]>();
  for (const clip of clipsOfPlays(station.library, playIds)) {
    const known = clips.get(clip.playId);
    if (known) known.push(clip);
    else clips.set(clip.playId, [clip]);
  }
  const plays: BundlePlay[] = [];
  // in the order of the games, so that links to many plays name few ranges
  const ordered = station
    .columns()
    .playIds(EVERY_PLAY)
    .filter((id) => clips.has(id));
  for (const { record } of loadPlaysById(station.library.db, ordered)) {
    const segments = await Promise.all(
      (clips.get(record.playId) ?? []).map(async (clip) => ({
        path: filmPathOrProblem(station.library, clip.filmId),
        table: await frameTableOf(station.library, clip.filmId),
        inFrame: clip.inFrame,
        outFrame: clip.outFrame,
      })),
    );
    const game = station.columns().valueOf(record.playId, 'game') ?? '';
    const label = [
      `${game} ${record.playNumber ?? ''}`.trim(),
      situationWords(record),
      tagWords(record, ['concept', 'coverage']),
    ];
    plays.push({ playId: record.playId, label: label.filter(Boolean).join(' · '), segments });
  }
  return plays;
}
