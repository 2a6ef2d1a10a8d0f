import { createHash } from 'node:crypto';
import { appendFile, mkdir, readdir, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, extname, join, resolve } from 'node:path';
import { ok, type Result } from '../../football/result.ts';
import { QUIET } from '../film/ffmpeg-input.ts';
import { probeFilm } from '../film/probe.ts';
import { runProgram } from '../film/run.ts';
import { neededBytes } from './reel/estimate.ts';
import { checkFailed, makeReel } from './reel/make-reel.ts';
import { asProblem, reportOf } from './reel.ts';
import { CANCELLED, fromEncoder, ReelFailure, targetUnwritable } from './reel-failure.ts';
import { type PlannedSegment, planReel, type ReelPlan } from './reel-plan.ts';
import type { PlaylistReport, ReelOptions, ReelProblem, ReelSegment } from './reel-types.ts';
import { putFolderInPlace, putInPlace, syncFile, type WorkFolder, withWorkFolder } from './work-folder.ts';

/** Names of the files in the folder of segments: one per clip, in order. */
const SEGMENT_NAME = /^\d{4,}\.ts$/;

function segmentName(segment: PlannedSegment): string {
  return `${String(segment.index + 1).padStart(4, '0')}.ts`;
}

/**
 * Name of the folder of segments. Some players take the lines of a playlist as plain names, others as addresses in which
 * a space is written %20; a name of plain letters is right for both. A sum keeps names apart that would come out alike.
 */
function folderNameFor(target: string): string {
  const name = basename(target, extname(target));
  const plain = name.replace(/[^A-Za-z0-9._-]+/g, '-').replace(/^[-.]+|-+$/g, '');
  if (plain === name) return `${name}-segments`;
  const sum = createHash('sha256').update(name).digest('hex').slice(0, 8);
  return `${plain === '' ? sum : `${plain}-${sum}`}-segments`;
}

function lengthSeconds(plan: ReelPlan, segment: PlannedSegment): number {
  const from = plan.startsMicros[segment.firstFrame]!;
  return (plan.startsMicros[segment.firstFrame + segment.frames]! - from) / 1e6;
}

/**
 * A media playlist (RFC 8216) of clips that have been cut already: one segment each, its title in EXTINF. The clips share
 * one encoding and one clock, so no discontinuity is marked.
 */
export function playlistText(plan: ReelPlan, folderName: string): string {
  const longest = Math.max(...plan.segments.map((segment) => lengthSeconds(plan, segment)));
  const lines = [
    '#EXTM3U',
    '#EXT-X-VERSION:3',
    `#EXT-X-TARGETDURATION:${Math.max(1, Math.ceil(longest))}`,
    '#EXT-X-MEDIA-SEQUENCE:0',
    '#EXT-X-PLAYLIST-TYPE:VOD',
  ];
  for (const segment of plan.segments) {
    const title = (segment.title ?? `Clip ${segment.index + 1}`).replace(/\s+/g, ' ').trim();
    lines.push(`#EXTINF:${lengthSeconds(plan, segment).toFixed(6)},${title}`);
    lines.push(`${folderName}/${segmentName(segment)}`);
  }
  lines.push('#EXT-X-ENDLIST', '');
  return lines.join('\n');
}

const TS_PACKET_BYTES = 188;
/** Fewer packets than this and readers that go by content take the file for another kind. */
const FEWEST_PACKETS = 128;

/** Lengthens a very short transport stream by null packets (ISO/IEC 13818-1: PID 0x1FFF, passed over by every reader). */
async function padSegment(path: string): Promise<void> {
  const { size } = await stat(path);
  const missing = FEWEST_PACKETS - Math.floor(size / TS_PACKET_BYTES);
  if (missing <= 0) return;
  const packet = Buffer.alloc(TS_PACKET_BYTES, 0xff);
  packet.set([0x47, 0x1f, 0xff, 0x10]);
  await appendFile(path, Buffer.concat(Array.from({ length: missing }, () => packet)));
}

/** Cuts a finished reel at the starts of its clips, by copying: every clip begins with a key frame of its own. */
async function cutIntoSegments(
  plan: ReelPlan,
  reel: string,
  folder: string,
  work: WorkFolder,
  options: ReelOptions,
): Promise<number> {
  await mkdir(folder);
  const cuts = plan.segments.slice(1).map(({ firstFrame }) => firstFrame);
  const end = await runProgram(
    options.tools.ffmpeg.path,
    [
      ...QUIET,
      'error',
      '-y',
      ...['-protocol_whitelist', 'file,pipe', '-i', `file:${reel}`],
      ...['-map', '0', '-c', 'copy', '-f', 'segment', '-segment_format', 'mpegts'],
      // a list of cuts may not be empty; a frame after the last one cuts nothing
      ...['-segment_frames', [...cuts, plan.frames + 1].join(',')],
      ...['-segment_start_number', '1', `file:${join(folder.replaceAll('%', '%%'), '%04d.ts')}`],
    ],
    { signal: options.signal },
  );
  if (end.code !== 0) throw new ReelFailure(fromEncoder(end, work.beside));
  let bytes = 0;
  for (const segment of plan.segments) {
    const path = join(folder, segmentName(segment));
    await padSegment(path);
    const probe = await probeFilm(path, { tools: options.tools, signal: options.signal });
    if (options.signal?.aborted) throw new ReelFailure(CANCELLED);
    const frames = probe.ok ? probe.value.frames : 0;
    if (frames !== segment.frames) {
      throw checkFailed(`clip ${segment.index + 1} holds ${frames} frames instead of ${segment.frames}`);
    }
    bytes += (await stat(path)).size;
    await syncFile(path);
  }
  return bytes;
}

/** A folder of that name from an earlier export is replaced; one that holds anything else is not ours to remove. */
async function checkOldFolder(folder: string, target: string): Promise<void> {
  const names = await readdir(folder).catch(() => [] as string[]);
  if (names.every((name) => SEGMENT_NAME.test(name))) return;
  throw new ReelFailure(
    targetUnwritable(target, `${basename(folder)} beside it holds files of something else`),
  );
}

/**
 * Renders the segments as a playlist: an M3U8 and, in `<name>-segments/` beside it, one file per clip that holds exactly
 * its frames. (A playlist has no tag that trims a film to a frame, so it can't point into the films themselves.) Both
 * take their names when all is made and checked.
 */
export async function renderPlaylist(
  segments: readonly ReelSegment[],
  target: string,
  options: ReelOptions,
): Promise<Result<PlaylistReport, ReelProblem>> {
  const planned = planReel(segments, options);
  if (!planned.ok) return planned;
  const plan = planned.value;
  const path = resolve(target);
  const folderName = folderNameFor(path);
  const segmentFolder = join(dirname(path), folderName);
  try {
    return await withWorkFolder(path, neededBytes(plan, options.quality), async (work) => {
      await checkOldFolder(segmentFolder, path);
      const reel = await makeReel(plan, work, options);
      const made = join(work.path, 'segments');
      const bytes = await cutIntoSegments(plan, reel.path, made, work, options);
      const list = join(work.path, 'list.m3u8');
      await writeFile(list, playlistText(plan, folderName), 'utf8');
      await putFolderInPlace(made, segmentFolder, work);
      await putInPlace(list, path);
      options.onProgress?.(1);
      return ok({ ...reportOf(plan, reel.segments, path, bytes), segmentFolder });
    });
  } catch (error) {
    return asProblem(error);
  }
}
