import { mkdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { CANCELLED, ReelFailure } from '../reel-failure.ts';
import { encodePicture, Mistimed } from '../reel-picture.ts';
import type { PlannedSegment, ReelPlan } from '../reel-plan.ts';
import { encodeSound } from '../reel-sound.ts';
import type { ReelOptions, SegmentReport } from '../reel-types.ts';
import type { WorkFolder } from '../work-folder.ts';
import { layPicture, type PicturesMade, type Run, runsOf, setsOf } from './assemble.ts';
import { readPps } from './avc.ts';
import { checkReel } from './check-reel.ts';
import { copySound } from './copy-sound.ts';
import { PacketFilms, planCuts, type SegmentCut } from './cut-plan.ts';
import { type EdgesMade, edgesFor } from './edges.ts';
import { colorParams, decodeThumbs } from './make-edges.ts';
import { openPacketFilm, openSound } from './packet-film.ts';
import { compareThumbs, thumbOfFrame } from './thumbs.ts';
import { type SoundTrack, writeMp4 } from './write-mp4.ts';

export interface ReelMade {
  readonly path: string;
  readonly segments: readonly Pick<SegmentReport, 'how' | 'why'>[];
}

/** What is done on the way, for the progress bar: as many frames each, weighed by what they cost. */
const COST = { edge: 0.5, picture: 1, copied: 0.01 } as const;

export function checkFailed(detail: string): ReelFailure {
  return new ReelFailure({
    code: 'reel-check-failed',
    message: `The finished reel did not pass its check: ${detail}.`,
    kept: 'Nothing was written under its name.',
    next: 'Export it again; if it stays, report which clips the cut-up holds.',
  });
}

/** Why a segment has to be encoded whatever its film allows; null when nothing speaks against copying. */
export function mustEncode(segment: PlannedSegment, options: ReelOptions): string | null {
  if (segment.card) return 'it is a title card';
  if (options.encodeAll) return 'encoding was asked for';
  if (options.quality === 'small') return 'a small file was asked for';
  if ((segment.overlays?.length ?? 0) > 0) return 'something is drawn over it';
  return null;
}

class Progress {
  private told = 0;
  private readonly parts = new Map<string, number>();
  constructor(
    private readonly total: number,
    private readonly tell: ReelOptions['onProgress'],
  ) {}

  at(part: string, cost: number): void {
    this.parts.set(part, cost);
    const done = [...this.parts.values()].reduce((sum, one) => sum + one, 0) / this.total;
    // a picture that has to be made anew does not take the bar back
    if (done <= this.told) return;
    this.told = Math.min(1, done);
    this.tell?.(this.told);
  }
}

async function makePictures(
  plan: ReelPlan,
  cuts: readonly SegmentCut[],
  edges: EdgesMade,
  folder: string,
  work: WorkFolder,
  options: ReelOptions,
  byCount: Set<string>,
  progress: Progress,
): Promise<PicturesMade | null> {
  const segments = plan.segments.filter(({ index }) => cuts[index]!.pieces.length === 0);
  if (segments.length === 0) return null;
  const copied = cuts.flatMap(({ pieces }) => pieces.map(({ film }) => film));
  const used = new Set(
    [...copied, ...[...edges.made.values()].map(({ made }) => made)].flatMap(({ setup, sps }) => [
      sps.id,
      ...setup.pps.map((set) => readPps(set)?.id ?? 0),
    ]),
  );
  let setId = 0;
  while (used.has(setId)) setId += 1;
  const target = join(folder, 'picture.mp4');
  const ends = new Map<PlannedSegment, { first?: Buffer; last?: Buffer }>();
  for (;;) {
    try {
      await encodePicture({
        ...{ plan, segments, target, folder: work.beside, options },
        params: copied[0] ? [`sps-id=${setId}`, ...colorParams(copied[0].sps)] : [],
        findingOf: ({ path }) => (byCount.has(path) ? 'by-count' : 'by-time'),
        onFrames: (done) => progress.at('pictures', done * COST.picture),
        onEnds: (segment, end, picture) =>
          ends.set(segment, { ...ends.get(segment), [end]: thumbOfFrame(picture, plan.width, plan.height) }),
      });
      break;
    } catch (error) {
      // a film whose clock misleads is found out while its frames are read; the picture is then made anew
      if (!(error instanceof Mistimed)) throw error;
      byCount.add(error.segment.path);
    }
  }
  const made = await openPacketFilm(target, null);
  if (!('setup' in made)) throw checkFailed(`what was encoded can't be read back: ${made.why}`);
  const seen = await decodeThumbs(target, {
    tools: options.tools,
    background: false,
    signal: options.signal,
  });
  if (typeof seen === 'string') throw checkFailed(`what was encoded does not decode: ${seen}`);
  const frames = segments.reduce((sum, segment) => sum + segment.frames, 0);
  if (made.packetOf.length !== frames || seen.length !== frames) {
    throw checkFailed(`${seen.length} frames were encoded instead of ${frames}`);
  }
  const firstOf = new Map<number, number>();
  const firstThumbs = new Map<number, Buffer>();
  let frame = 0;
  for (const segment of segments) {
    const { first, last } = ends.get(segment)!;
    const [from, to] = [frame, frame + segment.frames];
    const wrong = compareThumbs(seen[from]!, first!, []) ?? compareThumbs(seen[to - 1]!, last!, []);
    if (wrong) throw checkFailed(`clip ${segment.index + 1}: ${wrong}`);
    firstOf.set(segment.index, from);
    firstThumbs.set(segment.index, seen[from]!);
    frame = to;
  }
  return { made, firstOf, firstThumbs };
}

async function makeSound(
  plan: ReelPlan,
  films: PacketFilms,
  folder: string,
  work: WorkFolder,
  options: ReelOptions,
): Promise<SoundTrack | null> {
  if (!plan.hasSound) return null;
  const copied = options.encodeAll ? null : await copySound(plan, films);
  if (copied) return copied;
  const path = join(folder, 'sound.mp4');
  await encodeSound(plan, path, work.beside, options, () => {});
  const sound = await openSound(path);
  if (!sound) throw checkFailed("the encoded sound can't be read back");
  const seconds = plan.startsMicros[plan.frames]! / 1e6;
  const packets = Array.from(sound.at, (at, packet) => ({
    path,
    at,
    bytes: sound.bytes[packet]!,
    before: null,
  }));
  // the encoder's first packet only primes the decoder; the last one may reach past the picture by less than its length
  const wanted = Math.ceil((seconds * sound.sampleRate) / 1024) + 1;
  if (packets.length < wanted) throw checkFailed('its sound is shorter than its picture');
  return { entry: sound.entry, sampleRate: sound.sampleRate, packets: packets.slice(0, wanted), priming: 1 };
}

/** For tests: lets a reel be spoilt before it is looked at. */
export interface MakeHooks {
  readonly beforeCheck?: (path: string, runs: readonly Run[], attempt: number) => Promise<void>;
}

/**
 * Makes the reel in the work folder: copies what can be copied, encodes the rest, puts it together, and looks at what came
 * out. A segment at which the look finds a fault is encoded whole and the reel made again; if that does not help, all are.
 */
export async function makeReel(
  plan: ReelPlan,
  work: WorkFolder,
  options: ReelOptions,
  hooks: MakeHooks = {},
): Promise<ReelMade> {
  const { tools, signal } = options;
  const films = new PacketFilms();
  const distrusted = new Map<number, string>();
  const byCount = new Set<string>();
  const must = (segment: PlannedSegment) => distrusted.get(segment.index) ?? mustEncode(segment, options);
  const frames = plan.frames;
  let sound: SoundTrack | null | undefined;
  for (let attempt = 0; ; attempt++) {
    const cuts = await planCuts(plan, films, must);
    const wanted = cuts.flatMap(({ pieces }) => pieces.filter(({ kind }) => kind === 'edge'));
    const edgeFrames = wanted.reduce((sum, { from, to }) => sum + to - from, 0);
    const pictureFrames = plan.segments
      .filter(({ index }) => cuts[index]!.pieces.length === 0)
      .reduce((sum, segment) => sum + segment.outFrame - segment.inFrame, 0);
    const progress = new Progress(
      edgeFrames * COST.edge + pictureFrames * COST.picture + frames * COST.copied * 2,
      options.onProgress,
    );
    const folder = join(work.path, `attempt-${attempt}`);
    await mkdir(folder);
    const edges = await edgesFor(wanted, {
      ...{ tools, films, finer: options.quality === 'fine' ? 3 : 0, keptIn: options.edgeFolder ?? null },
      ...{ workFolder: folder, background: false, signal },
      onEdges: (done) => progress.at('edges', (done / Math.max(1, wanted.length)) * edgeFrames * COST.edge),
    });
    if (edges.failed.size > 0) {
      for (const [index, { pieces }] of cuts.entries()) {
        const failed = pieces.map((piece) => edges.failed.get(piece)).find((why) => why !== undefined);
        if (failed !== undefined) distrusted.set(index, `its edges could not be made: ${failed}`);
      }
      continue;
    }
    sound ??= await makeSound(plan, films, work.path, work, options);
    const pictures = await makePictures(plan, cuts, edges, folder, work, options, byCount, progress);
    const runs = runsOf(plan, cuts, edges, pictures);
    const path = join(folder, 'reel.mp4');
    await writeMp4(path, layPicture(plan, runs, setsOf(runs)), sound, { signal });
    progress.at('copied', frames * COST.copied);
    await hooks.beforeCheck?.(path, runs, attempt);
    const fault = await checkReel(plan, path, runs, sound?.packets.length ?? 0, {
      tools,
      workFolder: folder,
      signal,
    });
    if (signal?.aborted) throw new ReelFailure(CANCELLED);
    if (!fault) return { path, segments: cuts.map(({ how, why }) => ({ how, why })) };
    await rm(folder, { recursive: true, force: true });
    const blamed = plan.segments.filter(
      ({ index }) => cuts[index]!.pieces.length > 0 && (fault.segment === null || fault.segment === index),
    );
    const suspects =
      blamed.length > 0 ? blamed : plan.segments.filter(({ index }) => cuts[index]!.pieces.length > 0);
    if (suspects.length === 0 || attempt > 3) throw checkFailed(fault.what);
    const all = attempt >= 2 ? plan.segments.filter(({ index }) => cuts[index]!.pieces.length > 0) : suspects;
    for (const { index } of all) distrusted.set(index, `copying did not pass the check: ${fault.what}`);
  }
}
