import { readdirSync, statSync, unlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { sampleGame, sampleText } from './data.ts';
import { findFfmpeg } from './encode.ts';
import { shootFilm } from './film.ts';
import { playGame } from './game.ts';
import { SCRIPT } from './script.ts';

/**
 * `npm run sample` makes sample-game.json and all the film anew. `-- --data` writes the JSON alone;
 * `-- --plays 3,17` draws only those plays.
 */
const folder = join(dirname(fileURLToPath(import.meta.url)), '..');
const options = process.argv.slice(2);
const only = options.includes('--plays')
  ? new Set(options[options.indexOf('--plays') + 1]?.split(',').map(Number))
  : null;

const plays = playGame(SCRIPT());
const game = sampleGame(plays);
writeFileSync(join(folder, 'sample-game.json'), sampleText(game));
console.log(`sample-game.json: ${plays.length} plays`);

if (!options.includes('--data')) {
  const ffmpeg = findFfmpeg();
  if (!ffmpeg)
    throw new Error('no ffmpeg to be had: install one, or npm ci so that @ffmpeg-installer/ffmpeg is there');
  const wanted = new Set(game.plays.flatMap((play) => play.clips.map((clip) => clip.file)));
  for (const name of readdirSync(folder))
    if (name.endsWith('.mp4') && !wanted.has(name)) unlinkSync(join(folder, name));
  let bytes = 0;
  for (const play of plays) {
    if (only && !only.has(play.playNumber)) continue;
    for (const angle of ['sideline', 'endzone'] as const) {
      const path = await shootFilm(play, angle, folder, ffmpeg);
      bytes += statSync(path).size;
    }
    console.log(`play ${play.playNumber} of ${plays.length}, ${(bytes / 1e6).toFixed(2)} MB so far`);
  }
}
