import { join } from 'node:path';
import type { FilmTools } from '../../film/film-types.ts';
import type { ReelPlan } from '../reel-plan.ts';
import { type Run, unitsOf } from './assemble.ts';
import { readPacket, withLengths, writeAvcC } from './avc.ts';
import { withFile } from './cut-plan.ts';
import { decodeThumbs } from './make-edges.ts';
import { openPacketFilm, type PacketFilm, readPacketOf } from './packet-film.ts';
import { thumbDistance } from './thumbs.ts';
import { type PicturePacket, writeMp4 } from './write-mp4.ts';

/** What a look at the finished file found wrong; `segment` null: nothing that one segment could be blamed for. */
export interface Fault {
  readonly segment: number | null;
  readonly what: string;
}

export interface CheckOptions {
  readonly tools: FilmTools;
  readonly workFolder: string;
  readonly signal?: AbortSignal;
}

/** Equal packets decode to equal pictures; only scaling may differ by a rounding. */
const SAME_PICTURE = 0.5;
/** Runs up to this long are decoded from their first frame to their last, longer ones at their start. */
const WHOLE_RUN = 12;
/** Of the runs that were encoded, one in so many is decoded once more out of the reel. */
const ENCODED_LOOKED_AT = 5;

/** Counts the frames of the file as its own table of contents tells, and looks at their times and key frames. */
function checkFrames(plan: ReelPlan, made: PacketFilm, runs: readonly Run[]): Fault | null {
  if (made.packetOf.length !== plan.frames) {
    return { segment: null, what: `it holds ${made.packetOf.length} frames instead of ${plan.frames}` };
  }
  const { starts } = unitsOf(plan);
  const zero = made.shownAt[made.packetOf[0]!]!;
  for (let frame = 0; frame < plan.frames; frame++) {
    const off = made.shownAt[made.packetOf[frame]!]! - zero - starts[frame]!;
    if (off !== 0) return { segment: null, what: `frame ${frame} is off by ${off} units of its clock` };
  }
  for (const { firstFrame, segment } of runs) {
    if (made.isKey[made.packetOf[firstFrame]!] !== 1) return { segment, what: 'it starts inside a group' };
  }
  return null;
}

/** Looks at every key frame for parameter sets that the reel does not know of: a camera that changed its mind. */
async function checkSets(made: PacketFilm, runs: readonly Run[]): Promise<Fault | null> {
  const known = new Set<string>();
  for (const { film } of runs) {
    for (const set of [...film.setup.sps, ...film.setup.pps]) known.add(Buffer.from(set).toString('hex'));
  }
  return withFile(made.path, async (file) => {
    const head = Buffer.alloc(4096);
    let run = 0;
    for (let packet = 0; packet < made.isKey.length; packet++) {
      if (made.isKey[packet] !== 1) continue;
      while (run + 1 < runs.length && runs[run + 1]!.firstFrame <= made.frameOf[packet]!) run++;
      const { bytesRead } = await file.read(
        head,
        0,
        Math.min(head.length, made.bytes[packet]!),
        made.at[packet]!,
      );
      const { sets } = readPacket(head.subarray(0, bytesRead), 4);
      if (!sets.every((set) => known.has(Buffer.from(set).toString('hex')))) {
        return { segment: runs[run]!.segment, what: 'its parameter sets change on the way' };
      }
    }
    return null;
  });
}

interface Joint {
  readonly run: Run;
  readonly packets: readonly number[];
}

/** Decodes the first pictures behind every join out of the finished file, and the last ones where that is near. */
async function decodeJoints(
  made: PacketFilm,
  joints: readonly Joint[],
  target: string,
  options: CheckOptions,
) {
  const packets: PicturePacket[] = [];
  const firsts: number[] = [];
  for (const joint of joints) {
    firsts.push(packets.length);
    const order = [...joint.packets].sort((one, other) => made.shownAt[one]! - made.shownAt[other]!);
    const first = packets.length;
    for (const packet of joint.packets) {
      const [at, bytes, isKey] = [made.at[packet]!, made.bytes[packet]!, made.isKey[packet] === 1];
      packets.push({ path: made.path, at, bytes, before: null, frame: first + order.indexOf(packet), isKey });
    }
  }
  await writeCheckFilm(made, packets, target);
  const thumbs = await decodeThumbs(target, {
    tools: options.tools,
    background: false,
    signal: options.signal,
  });
  if (typeof thumbs === 'string') return thumbs;
  if (thumbs.length !== packets.length) return `${thumbs.length} of ${packets.length} frames decode`;
  return firsts.map((first) => thumbs[first]!);
}

async function writeCheckFilm(
  film: PacketFilm,
  packets: readonly PicturePacket[],
  target: string,
): Promise<void> {
  const starts = Array.from({ length: packets.length + 1 }, (_, frame) => frame * film.rate.den);
  const avcC = writeAvcC(film.setup.sps, film.setup.pps);
  const { width, height } = film.sps;
  await writeMp4(target, { width, height, avcC, timescale: film.rate.num, starts, packets }, null);
}

/** What the film itself shows where a copy starts and nothing else tells: decoded from the film, not from the reel. */
async function thumbsOfFilms(runs: readonly Run[], options: CheckOptions): Promise<Map<Run, Buffer>> {
  const found = new Map<Run, Buffer>();
  const bySets = new Map<string, Run[]>();
  for (const run of runs) {
    const key = withLengths([...run.film.setup.sps, ...run.film.setup.pps]).toString('hex');
    bySets.set(key, [...(bySets.get(key) ?? []), run]);
  }
  let number = 0;
  for (const alike of bySets.values()) {
    const packets = alike.map(({ film, packets: [packet = 0] }, frame) => ({
      ...{ path: film.path, at: film.at[packet]!, bytes: film.bytes[packet]!, before: null },
      ...{ frame, isKey: true },
    }));
    const target = join(options.workFolder, `films-${number++}.mp4`);
    await writeCheckFilm(alike[0]!.film, packets, target);
    const thumbs = await decodeThumbs(target, {
      tools: options.tools,
      background: false,
      signal: options.signal,
    });
    if (typeof thumbs === 'string' || thumbs.length !== alike.length) continue;
    for (const [at, run] of alike.entries()) found.set(run, thumbs[at]!);
  }
  return found;
}

/** The first packet of every run must have come into the file byte for byte. */
async function checkBytes(made: PacketFilm, runs: readonly Run[]): Promise<Fault | null> {
  return withFile(made.path, async (file) => {
    for (const run of runs) {
      const [from = 0] = run.packets;
      const to = made.packetOf[run.firstFrame]!;
      const wanted = await withFile(run.film.path, (source) => readPacketOf(run.film, source, from));
      const there = await readPacketOf(made, file, to);
      if (there.length < wanted.length || !there.subarray(-wanted.length).equals(wanted)) {
        return { segment: run.segment, what: 'another picture than that of the film stands at a join' };
      }
    }
    return null;
  });
}

async function checkJoints(
  made: PacketFilm,
  runs: readonly Run[],
  options: CheckOptions,
): Promise<Fault | null> {
  // what was encoded was decoded and compared frame for frame when it was made; where a copy starts, nothing was yet
  const looked = runs.filter(({ copied }, at) => copied || at % ENCODED_LOOKED_AT === 0);
  const joints = looked.map((run) => ({
    run,
    packets: Array.from(
      { length: run.packets.length <= WHOLE_RUN ? run.packets.length : 1 },
      (_, at) => made.packetOf[run.firstFrame]! + at,
    ),
  }));
  // films that share all parameter sets decode in the reel as they do by themselves, byte for byte
  const several = new Set(
    runs.map(({ film }) => withLengths([...film.setup.sps, ...film.setup.pps]).toString('hex')),
  );
  const unsure = several.size > 1 ? runs.filter(({ thumb }) => thumb === null) : [];
  const ofFilms = await thumbsOfFilms(unsure, options);
  const look = async (some: readonly Joint[], name: string): Promise<Fault | null> => {
    const thumbs = await decodeJoints(made, some, join(options.workFolder, name), options);
    if (typeof thumbs === 'string') {
      const { segment } = some[0]!.run;
      if (some.every(({ run }) => run.segment === segment)) return { segment, what: thumbs };
      // one join spoils the whole run of the decoder: each half by itself, until it is found
      const half = some.length >> 1;
      return (
        (await look(some.slice(0, half), `${name}-a`)) ??
        (await look(some.slice(half), `${name}-b`)) ?? { segment: null, what: thumbs }
      );
    }
    for (const [at, { run }] of some.entries()) {
      const wanted = run.thumb ?? ofFilms.get(run);
      if (wanted && thumbDistance(thumbs[at]!, wanted) > SAME_PICTURE) {
        return { segment: run.segment, what: 'another picture than that of the film stands at a join' };
      }
    }
    return null;
  };
  return look(joints, 'joins.mp4');
}

/**
 * Looks at a finished reel: reads its table of contents back, counts its frames and compares their times, compares bytes at
 * the joins, and decodes the pictures there out of the file itself, which must be those of the films. Null when all is right.
 */
export async function checkReel(
  plan: ReelPlan,
  path: string,
  runs: readonly Run[],
  soundPackets: number,
  options: CheckOptions,
): Promise<Fault | null> {
  const made = await openPacketFilm(path, null);
  if (!('setup' in made)) {
    return { segment: null, what: `it can't be read back: ${made.why}` };
  }
  if ((made.sound?.at.length ?? 0) !== soundPackets) return { segment: null, what: 'its sound is not whole' };
  return (
    checkFrames(plan, made, runs) ??
    (await checkSets(made, runs)) ??
    (await checkBytes(made, runs)) ??
    (await checkJoints(made, runs, options))
  );
}
