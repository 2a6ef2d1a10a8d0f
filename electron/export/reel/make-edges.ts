import { mkdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { everyFrame, filmInput, QUIET } from '../../film/ffmpeg-input.ts';
import type { FilmTools } from '../../film/film-types.ts';
import type { FrameRate } from '../../film/frame-table.ts';
import { runProgram } from '../../film/run.ts';
import { CANCELLED, fromEncoder, ReelFailure } from '../reel-failure.ts';
import type { SequenceFacts } from './avc.ts';
import type { Piece } from './cut-plan.ts';
import { type FedEdge, writeFeed } from './edge-feed.ts';
import { openPacketFilm, type PacketFilm } from './packet-film.ts';
import { compareThumbs, readThumbs, splitThumbs, THUMB_FILTER } from './thumbs.ts';

export interface EdgeSettings {
  readonly tools: FilmTools;
  readonly rate: FrameRate;
  /** x264's constant quantiser */
  readonly qp: number;
  /** number that the encoder gives its parameter sets, so that they can stand beside the film's */
  readonly setId: number;
  /** gives way to everything else on the machine */
  readonly background: boolean;
  readonly signal?: AbortSignal;
}

/** An edge that is encoded and was looked at: packets first..first + count - 1 of `made`, in order of presentation. */
export interface MadeEdge {
  readonly edge: Piece;
  readonly made: PacketFilm;
  readonly first: number;
  /** small pictures of its first and its last frame as they decode, and of the film's frame behind it */
  readonly firstThumb: Buffer;
  readonly lastThumb: Buffer;
  readonly behindThumb: Buffer;
}

/** Edges that could not be made right, and why: their segments go another way. */
export class EdgeFailure extends Error {}

export interface FailedEdge {
  readonly edge: Piece;
  readonly failed: string;
}

const COLORS = new Map([
  [1, 'bt709'],
  [4, 'bt470m'],
  [5, 'bt470bg'],
  [6, 'smpte170m'],
  [7, 'smpte240m'],
]);

/** x264's words for the colors of the film; what it has no word for stays unsaid. */
export function colorParams({ fullRange, primaries, transfer, matrix }: SequenceFacts): string[] {
  const words: string[] = [];
  if (fullRange) words.push('fullrange=on');
  if (COLORS.has(primaries)) words.push(`colorprim=${COLORS.get(primaries)}`);
  if (COLORS.has(transfer)) words.push(`transfer=${COLORS.get(transfer)}`);
  if (COLORS.has(matrix) && matrix !== 4) words.push(`colormatrix=${COLORS.get(matrix)}`);
  return words;
}

/** Runs ffmpeg, behind everything else on the machine where that is asked for. */
export function runFfmpeg(
  { tools, background, signal }: Pick<EdgeSettings, 'tools' | 'background' | 'signal'>,
  args: readonly string[],
  onOutput?: (chunk: Buffer) => void,
) {
  const { path } = tools.ffmpeg;
  const gentle = background && process.platform !== 'win32';
  return runProgram(gentle ? 'nice' : path, gentle ? ['-n', '19', path, ...args] : args, {
    signal,
    onOutput,
  });
}

function encoderArgs(
  fed: readonly FedEdge[],
  feed: string,
  target: string,
  settings: EdgeSettings,
): string[] {
  const { rate, qp, setId, background, tools } = settings;
  const pictures = fed.map(({ first, after, behind }) => ({
    select: `between(pts,${first * rate.den},${(after - 1) * rate.den})+eq(pts,${behind * rate.den})`,
    frames: after - first,
  }));
  const starts: string[] = [];
  let frame = 0;
  for (const { frames } of pictures) {
    for (const start of [frame, frame + 1]) {
      starts.push(Math.max(0, ((start - 0.25) * rate.den) / rate.num).toFixed(6));
    }
    frame += frames + 1;
  }
  const { sps } = fed[0]!.edge.film;
  const params = [`sps-id=${setId}`, 'scenecut=0', 'keyint=infinite', 'rc-lookahead=0', ...colorParams(sps)];
  const graph = [
    `[0:v:0]select='${pictures.map(({ select }) => select).join('+')}'`,
    `settb=${rate.den}/${rate.num},setpts=N,split[full][small];[small]${THUMB_FILTER}[thumbs]`,
  ].join(',');
  const passThrough = everyFrame(tools.ffmpeg.version);
  return [
    ...QUIET,
    'error',
    '-y',
    ...(background ? ['-threads', '1'] : []),
    ...filmInput(feed, ['-copyts']),
    '-filter_complex',
    graph,
    ...['-map', '[full]', ...passThrough, '-c:v', 'libx264', '-preset', 'ultrafast', '-qp', String(qp)],
    // one thread, so that the same film gives the same bytes on any machine
    ...['-profile:v', 'high', '-bf', '0', '-threads', '1', '-forced-idr', '1'],
    ...['-force_key_frames', starts.join(','), '-x264-params', params.join(':')],
    ...['-fflags', '+bitexact', '-flags:v', '+bitexact', '-f', 'mp4', `file:${target}`],
    ...['-map', '[thumbs]', ...passThrough, '-f', 'rawvideo', `file:${target}.thumbs`],
  ];
}

/** Decodes a film from start to end into small pictures; words on stderr count as a failure. */
export async function decodeThumbs(
  path: string,
  settings: Pick<EdgeSettings, 'tools' | 'background' | 'signal'>,
): Promise<Buffer[] | string> {
  const parts: Buffer[] = [];
  const end = await runFfmpeg(
    settings,
    [
      ...QUIET,
      'error',
      ...filmInput(path, ['-copyts']),
      ...['-map', '0:v:0', '-vf', THUMB_FILTER, ...everyFrame(settings.tools.ffmpeg.version)],
      ...['-f', 'rawvideo', 'pipe:1'],
    ],
    (chunk) => parts.push(chunk),
  );
  if (end.stopped === 'cancelled') throw new ReelFailure(CANCELLED);
  if (end.code !== 0 || end.errors.trim() !== '')
    return end.errors.trim().split('\n')[0] ?? 'it does not decode';
  return splitThumbs(Buffer.concat(parts));
}

/** Encodes edges of films that share their parameter sets in one run, decodes them again, and compares every frame. */
export async function makeEdges(
  edges: readonly Piece[],
  folder: string,
  settings: EdgeSettings,
): Promise<(MadeEdge | FailedEdge)[]> {
  await mkdir(folder, { recursive: true });
  const feed = join(folder, 'feed.mp4');
  const target = join(folder, 'edges.mp4');
  const fed = await writeFeed(edges, settings.rate, feed);
  const end = await runFfmpeg(settings, encoderArgs(fed, feed, target, settings));
  await rm(feed, { force: true });
  if (end.stopped === 'cancelled') throw new ReelFailure(CANCELLED);
  if (end.code !== 0) {
    const problem = fromEncoder(end, folder);
    if (problem.code === 'disk-full') throw new ReelFailure(problem);
    throw new EdgeFailure(problem.message);
  }
  const made = await openPacketFilm(target, null);
  if (!('setup' in made)) throw new EdgeFailure(`what was encoded can't be read back: ${made.why}`);
  const wanted = await readThumbs(`${target}.thumbs`);
  const seen = await decodeThumbs(target, settings);
  if (typeof seen === 'string') throw new EdgeFailure(`what was encoded does not decode: ${seen}`);
  const frames = fed.reduce((sum, { first, after }) => sum + after - first + 1, 0);
  if (made.packetOf.length !== frames || wanted.length !== frames || seen.length !== frames) {
    throw new EdgeFailure(`${seen.length} frames were encoded instead of ${frames}`);
  }
  const { sps } = made;
  const film = edges[0]!.film.sps;
  if (sps.width !== film.width || sps.height !== film.height || sps.id === film.id) {
    throw new EdgeFailure('the encoder chose other parameters than asked for');
  }
  let frame = 0;
  return fed.map(({ edge, first, after }) => {
    const behind = frame;
    const [from, to] = [frame + 1, frame + 1 + after - first];
    frame = to;
    for (let one = from; one < to; one++) {
      const inside = (at: number) => (at >= from && at < to ? wanted[at] : undefined);
      const wrong = compareThumbs(seen[one]!, wanted[one]!, [inside(one - 1), inside(one + 1)]);
      if (wrong) return { edge, failed: `frame ${edge.from + one - from}: ${wrong}` };
    }
    if (made.isKey[made.packetOf[from]!] !== 1) return { edge, failed: 'it does not start with a key frame' };
    return {
      edge,
      made,
      first: from,
      firstThumb: seen[from]!,
      lastThumb: seen[to - 1]!,
      behindThumb: wanted[behind]!,
    };
  });
}
