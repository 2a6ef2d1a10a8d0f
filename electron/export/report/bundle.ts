import { createWriteStream } from 'node:fs';
import { mkdir, readdir, writeFile } from 'node:fs/promises';
import { basename, extname, join, resolve } from 'node:path';
import { pipeline } from 'node:stream/promises';
import yazl from 'yazl';
import type { Report } from '../../../football/report/report.ts';
import { type Problem, ProblemError } from '../../../football/result.ts';
import { renderReel } from '../reel.ts';
import { CANCELLED, ReelFailure } from '../reel-failure.ts';
import type { ReelOptions, ReelSegment } from '../reel-types.ts';
import { putFolderInPlace, putInPlace, syncFile, withWorkFolder } from '../work-folder.ts';
import { type BundleClip, filmPage, reportPage } from './page.ts';

/** A play that goes into the folder: its stretches of film in the order they are shown. */
export interface BundlePlay {
  readonly playId: string;
  readonly label: string;
  readonly segments: readonly ReelSegment[];
}

export interface BundleReport {
  readonly path: string;
  readonly format: 'folder' | 'zip';
  readonly clips: number;
}

const OURS = /^(index|film)\.html$|^clips$/;

/** A rough size of cut film, to refuse a full disk before the work: bytes a second, twice over for folder and archive. */
const BYTES_PER_SECOND = 1_500_000;

function seconds(plays: readonly BundlePlay[]): number {
  return plays.flatMap((p) => p.segments).reduce((sum, s) => sum + (s.outFrame - s.inFrame) / 25, 0);
}

/** A folder of an earlier report is replaced; one that holds anything else is not ours to remove. */
async function checkOld(folder: string): Promise<void> {
  const names = await readdir(folder).catch(() => [] as string[]);
  if (names.every((name) => OURS.test(name))) return;
  const problem: Problem = {
    code: 'target-unwritable',
    message: `${folder} holds files of something else.`,
    kept: 'Nothing in it was changed.',
    next: 'Choose another name.',
  };
  throw new ProblemError(problem);
}

/**
 * Writes the report as a folder, or as a .zip of that folder, that opens from disk without a network. Each play's film
 * is cut once, exact at both ends. It takes its name when all of it is there.
 * @param plays the plays whose film goes in; none for numbers only
 * @throws ProblemError as `renderReel`, or `target-unwritable`
 */
export async function writeBundle(
  report: Report,
  plays: readonly BundlePlay[],
  target: string,
  options: ReelOptions,
): Promise<BundleReport> {
  const path = resolve(target);
  const zipped = extname(path).toLowerCase() === '.zip';
  if (!zipped) await checkOld(path);
  try {
    // the work folder stands beside a name that is no folder yet, because an old report's folder may hold the other
    return await withWorkFolder(
      zipped ? path : `${path}.html`,
      seconds(plays) * BYTES_PER_SECOND + 2_000_000,
      async (work) => {
        const folder = join(work.path, 'report');
        await mkdir(folder);
        const clips = await cutClips(folder, plays, options);
        await writeSynced(join(folder, 'index.html'), reportPage(report, clips));
        if (clips.length > 0) await writeSynced(join(folder, 'film.html'), filmPage(report, clips));
        if (zipped) {
          const archive = join(work.path, 'report.zip');
          await zip(folder, basename(path, extname(path)), archive, clips, report.made);
          await putInPlace(archive, path);
        } else await putFolderInPlace(folder, path, work);
        options.onProgress?.(1);
        return { path, format: zipped ? 'zip' : 'folder', clips: clips.length } as const;
      },
    );
  } catch (error) {
    if (error instanceof ReelFailure) throw new ProblemError(error.problem);
    throw error;
  }
}

async function cutClips(
  folder: string,
  plays: readonly BundlePlay[],
  options: ReelOptions,
): Promise<BundleClip[]> {
  if (plays.length === 0) return [];
  await mkdir(join(folder, 'clips'));
  const clips: BundleClip[] = [];
  for (const [i, play] of plays.entries()) {
    if (options.signal?.aborted) throw new ReelFailure(CANCELLED);
    const file = `clips/${String(i + 1).padStart(4, '0')}.mp4`;
    const { onProgress, ...rest } = options;
    const made = await renderReel(play.segments, join(folder, file), rest);
    if (!made.ok) throw new ProblemError(made.problem);
    clips.push({ playId: play.playId, file, label: play.label });
    onProgress?.((i + 1) / (plays.length + 1));
  }
  return clips;
}

async function writeSynced(path: string, text: string): Promise<void> {
  await writeFile(path, text, 'utf8');
  await syncFile(path);
}

/** Film does not get smaller, so it is stored as it is. */
async function zip(
  folder: string,
  name: string,
  target: string,
  clips: readonly BundleClip[],
  made: string,
): Promise<void> {
  const archive = new yazl.ZipFile();
  const mtime = new Date(`${made}T12:00:00Z`);
  const add = (file: string, compress: boolean) =>
    archive.addFile(join(folder, file), `${name}/${file}`, { mtime, compress, mode: 0o100644 });
  add('index.html', true);
  if (clips.length > 0) add('film.html', true);
  for (const clip of clips) add(clip.file, false);
  archive.end();
  await pipeline(archive.outputStream, createWriteStream(target));
}
