import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Angle, Picture } from './camera.ts';
import { clipOf, leadFrames } from './data.ts';
import { painter, type Scene } from './drawing/frame.ts';
import { encode } from './encode.ts';
import { framingOf } from './framing.ts';
import type { GamePlay } from './game.ts';

export const PICTURE: Picture = { width: 576, height: 324 };
const QUALITY = 38;

/** What one angle's film of a play shows. */
export function sceneOf(play: GamePlay, angle: Angle): Scene {
  const { down, distance } = play.situation;
  return {
    play: play.simulation,
    angle,
    picture: PICTURE,
    markers: down === null || distance === null ? null : { down, distance },
    framingAt: framingOf(play.simulation, angle),
  };
}

/** Draws and encodes one angle of one play into a folder. */
export async function shootFilm(
  play: GamePlay,
  angle: Angle,
  folder: string,
  ffmpeg: string,
): Promise<string> {
  mkdirSync(folder, { recursive: true });
  const clip = clipOf(play, angle);
  const lead = leadFrames(play, angle);
  const paint = painter(sceneOf(play, angle));
  const { width, height } = PICTURE;
  const to = join(folder, clip.file);
  await encode({
    ffmpeg,
    to,
    picture: PICTURE,
    frames: clip.frames,
    quality: QUALITY,
    frame: (index) =>
      new Uint8Array(
        paint(index - lead)
          .getContext('2d')
          .getImageData(0, 0, width, height).data.buffer,
      ),
  });
  return to;
}
