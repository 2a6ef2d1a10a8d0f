import { type Around, CUT_REACH, cutFeatures, maybeCut, type Step, stepBetween } from './cut-features.ts';
import type { SmallPicture } from './small-picture.ts';

/** A frame that may be the first of a new shot, and what speaks for and against it. */
export interface Candidate {
  readonly frame: number;
  readonly features: Float64Array;
}

const NO_STEP: Step = { evened: 0, detail: 0, histogram: 0 };
const KEPT = 2 * CUT_REACH + 4;

/**
 * Takes the frames of a film one by one and yields the frames that may be cuts, a few frames late because a flash is
 * told from a cut only by what comes after it.
 */
export class CutFinder {
  private readonly pictures: SmallPicture[] = [];
  private readonly steps: Step[] = [];
  private count = 0;
  private looked = 0;

  constructor(private readonly onCandidate: (candidate: Candidate) => void) {}

  push(picture: SmallPicture): Step {
    const before = this.pictures.at(-1);
    const step = before ? stepBetween(before, picture) : NO_STEP;
    this.pictures.push(picture);
    this.steps.push(step);
    this.count += 1;
    if (this.pictures.length > KEPT) {
      this.pictures.shift();
      this.steps.shift();
    }
    if (this.count > CUT_REACH) this.lookAt(this.count - 1 - CUT_REACH);
    return step;
  }

  end(): void {
    while (this.looked < this.count) this.lookAt(this.looked);
  }

  private lookAt(frame: number): void {
    this.looked = frame + 1;
    if (frame === 0) return;
    const first = this.count - this.pictures.length;
    const clamp = (at: number) => Math.min(this.count - 1, Math.max(first, at)) - first;
    const around: Around = {
      picture: (offset) => this.pictures[clamp(frame + offset)]!,
      step: (offset) => {
        const at = frame + offset;
        return at <= 0 || at >= this.count ? NO_STEP : this.steps[clamp(at)]!;
      },
    };
    if (!maybeCut(around)) return;
    const features = cutFeatures(around);
    if (features) this.onCandidate({ frame, features });
  }
}
