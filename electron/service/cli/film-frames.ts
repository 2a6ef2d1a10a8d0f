import { ProblemError } from '../../../football/result.ts';
import { proxyReason } from '../../film/playable.ts';
import { probeFilm } from '../../film/probe.ts';

/** What `film frames` says of a file. Times are whole microseconds on the film's own clock. */
export interface FilmFrames {
  readonly path: string;
  readonly count: number;
  /** frames at which a decoder may start */
  readonly keyFrames: readonly number[];
  /** of these, the ones whose group is open */
  readonly openKeyFrames: readonly number[];
  readonly variable: boolean;
  /** frames per second: the constant rate, or for variable film the mean */
  readonly fps: number;
  readonly rate: { readonly num: number; readonly den: number };
  readonly firstPtsMicros: number;
  readonly endMicros: number;
  readonly ptsMicros: readonly number[];
  readonly width: number;
  readonly height: number;
  readonly rotation: number;
  readonly codec: string;
  readonly container: string;
  readonly interlaced: boolean;
  readonly startTimecode: string | null;
  readonly hasAudio: boolean;
  readonly soundStartMicros: number | null;
  readonly contentId: string;
  readonly proxyReason: string | null;
}

/** @throws ProblemError why the file is refused */
export async function filmFrames(path: string): Promise<FilmFrames> {
  const probe = await probeFilm(path);
  if (!probe.ok) throw new ProblemError(probe.problem);
  const { table, facts, contentId } = probe.value;
  return {
    path,
    count: table.ptsMicros.length,
    keyFrames: Array.from(table.keyFrames),
    openKeyFrames: table.openKeyFrames ?? [],
    variable: table.variable,
    fps: probe.value.fps,
    rate: table.rate,
    firstPtsMicros: probe.value.firstPtsMicros,
    endMicros: table.endMicros,
    ptsMicros: Array.from(table.ptsMicros),
    width: table.width,
    height: table.height,
    rotation: table.rotation,
    codec: table.codec,
    container: table.container,
    interlaced: facts.interlaced,
    startTimecode: facts.startTimecode,
    hasAudio: table.hasAudio,
    soundStartMicros: facts.soundStartMicros ?? null,
    contentId,
    proxyReason: proxyReason(facts),
  };
}

/** The same for reading, without the long lists. */
export function frameLines(frames: FilmFrames): string[] {
  const { keyFrames, openKeyFrames, width, height, rotation, codec, container } = frames;
  const spacing = keyFrames.length > 1 ? frames.count / keyFrames.length : frames.count;
  return [
    `${frames.path}: ${frames.count} frames, ${frames.variable ? 'variable, on average ' : ''}${frames.fps.toFixed(3)} a second`,
    `picture ${width}x${height}${rotation ? `, turned by ${rotation} degrees` : ''}, ${codec} in ${container}${frames.interlaced ? ', interlaced' : ''}`,
    `first frame at ${(frames.firstPtsMicros / 1e6).toFixed(6)} s, end at ${(frames.endMicros / 1e6).toFixed(6)} s${frames.startTimecode ? `, time code ${frames.startTimecode}` : ''}`,
    `${keyFrames.length} key frames, one in ${spacing.toFixed(1)}${openKeyFrames.length > 0 ? `; ${openKeyFrames.length} of them open` : ''}`,
    frames.hasAudio
      ? `sound${frames.soundStartMicros === null ? '' : ` from ${(frames.soundStartMicros / 1e6).toFixed(6)} s`}`
      : 'no sound',
    frames.proxyReason
      ? `needs a proxy for the window: ${frames.proxyReason}`
      : 'plays in the window as it is',
  ];
}
