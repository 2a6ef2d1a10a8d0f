import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Library } from '../../../db/library.ts';
import { type ReelEstimate, type ReelSpeeds, USUAL_SPEEDS } from '../../export/reel/estimate.ts';

/** Reels shorter than this tell more of the start of a program than of the machine. */
const TELLING_SECONDS = 5;
/** One reel may move the figures by this much, as the machine may have been busy. */
const FASTEST_CHANGE = 2;

function speedsPath(library: Library): string {
  return join(library.cacheFolder, 'reel-speeds.json');
}

/** How fast this machine made its reels so far; a usual laptop's figures before the first. */
export function reelSpeeds(library: Library): ReelSpeeds {
  try {
    const read = JSON.parse(readFileSync(speedsPath(library), 'utf8')) as Partial<ReelSpeeds>;
    const sound = (one: number | undefined, usual: number) =>
      typeof one === 'number' && one > usual / 1000 && one < usual * 1000 ? one : usual;
    return {
      edgePixels: sound(read.edgePixels, USUAL_SPEEDS.edgePixels),
      picturePixels: sound(read.picturePixels, USUAL_SPEEDS.picturePixels),
      copiedBytes: sound(read.copiedBytes, USUAL_SPEEDS.copiedBytes),
    };
  } catch {
    return USUAL_SPEEDS;
  }
}

/** Learns from a finished reel: how long it took against what was foretold. */
export function rememberSpeed(library: Library, estimate: ReelEstimate, tookSeconds: number): void {
  if (Math.max(tookSeconds, estimate.makingSeconds) < TELLING_SECONDS) return;
  const off = Math.min(FASTEST_CHANGE, Math.max(1 / FASTEST_CHANGE, tookSeconds / estimate.makingSeconds));
  const now = reelSpeeds(library);
  const next: ReelSpeeds = {
    edgePixels: now.edgePixels / off,
    picturePixels: now.picturePixels / off,
    copiedBytes: now.copiedBytes / off,
  };
  const path = speedsPath(library);
  try {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(`${path}.part`, JSON.stringify(next));
    renameSync(`${path}.part`, path);
  } catch {
    // only the next foretelling is less good
  }
}
