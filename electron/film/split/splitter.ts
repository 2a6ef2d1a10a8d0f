import { anglesOf } from './angles.ts';
import { type Candidate, CutFinder } from './cut-finder.ts';
import { chooseCuts } from './cut-model.ts';
import { activityOf, levelShare, motionBetween } from './motion.ts';
import { type ProposedPlay, proposePlays, type Shot } from './propose.ts';
import { type SmallPicture, smallPicture } from './small-picture.ts';

export interface Split {
  /** first frame of each shot but the first: hard cuts, and stops of the recording */
  readonly cuts: number[];
  /** those of `cuts` at which the recording was stopped */
  readonly stops: number[];
  readonly shots: Shot[];
  readonly plays: ProposedPlay[];
}

/** A frame's lines are looked at twice a second. */
const LEVEL_SECONDS = 0.5;
/** A hole in the time stamps and a cut of the picture this near to each other are one. */
const SAME_FRAMES = 2;

/**
 * Finds shots and plays while frames pass by, from whatever decodes them: a decoding of its own (split-film.ts) or one
 * that makes a proxy and gives SMALL_FILTER's frames beside it.
 */
export class Splitter {
  private readonly candidates: Candidate[] = [];
  private readonly finder = new CutFinder((candidate) => this.candidates.push(candidate));
  private readonly activity: number[] = [];
  private readonly levels: { frame: number; level: number }[] = [];
  private before: SmallPicture | null = null;

  constructor(private readonly fps: number) {}

  /** Takes the next frame: SMALL_BYTES grey levels, kept by the splitter for a while. */
  push(full: Uint8Array): void {
    const frame = this.activity.length;
    const picture = smallPicture(full);
    this.finder.push(picture);
    this.activity.push(this.before ? activityOf(motionBetween(this.before.full, full)) : 0);
    if (frame % Math.max(1, Math.round(LEVEL_SECONDS * this.fps)) === 0)
      this.levels.push({ frame, level: levelShare(full) });
    this.before = picture;
  }

  get frames(): number {
    return this.activity.length;
  }

  /** What speaks for and against each possible cut; for fitting the model. */
  get evidence(): readonly Candidate[] {
    return this.candidates;
  }

  /** @param stops frames at which the recording was started again */
  finish(stops: readonly number[] = []): Split {
    this.finder.end();
    const found = chooseCuts(this.candidates).filter(
      (cut) => !stops.some((stop) => Math.abs(stop - cut) <= SAME_FRAMES),
    );
    const cuts = [...found, ...stops].sort((a, b) => a - b);
    const starts = [0, ...cuts];
    const angles = anglesOf(starts.map((start, n) => this.levelOf(start, starts[n + 1] ?? this.frames)));
    const shots = starts.map(
      (startFrame, n): Shot => ({
        startFrame,
        endFrame: starts[n + 1] ?? this.frames,
        startedBy: n === 0 ? 'film' : stops.includes(startFrame) ? 'stop' : 'cut',
        angle: angles[n]!,
      }),
    );
    const plays = proposePlays(shots, Float64Array.from(this.activity), this.fps);
    return { cuts, stops: [...stops], shots, plays };
  }

  private levelOf(from: number, to: number): number {
    const levels = this.levels.filter(({ frame }) => frame >= from && frame < to).map(({ level }) => level);
    return levels.sort((a, b) => a - b)[levels.length >> 1] ?? 0.5;
  }
}
