import type { FilmFacts } from './film-types.ts';

/*
 * What a Chromium window plays as it stands. The list is narrow on purpose: whether HEVC plays depends on the machine's
 * graphics driver, and a proxy plays everywhere. Measured in this project's Chromium and Electron windows: H.264 of 8 bits
 * and 4:2:0 in MP4, MOV and Matroska, VP8, VP9 and AV1 of profile 0 in WebM, Matroska and MP4.
 */
const CONTAINERS = new Set(['mp4', 'mov', 'mkv', 'webm']);
const CODECS = new Set(['avc', 'vp8', 'vp9', 'av1']);

const CODEC_WORDS: ReadonlyMap<string, string> = new Map([
  ['avc', 'H.264'],
  ['hevc', 'HEVC'],
  ['mpeg2video', 'MPEG-2'],
  ['mpeg1video', 'MPEG-1'],
  ['mpeg4', 'MPEG-4 part 2'],
  ['mjpeg', 'Motion JPEG'],
  ['dvvideo', 'DV'],
  ['prores', 'ProRes'],
  ['vp8', 'VP8'],
  ['vp9', 'VP9'],
  ['av1', 'AV1'],
]);
const CONTAINER_WORDS: ReadonlyMap<string, string> = new Map([
  ['ts', 'a transport stream (MTS, M2TS, TS)'],
  ['mpg', 'an MPEG program stream (MPG)'],
  ['avi', 'an AVI file'],
  ['asf', 'a Windows Media file'],
]);

/** Why the window needs a proxy of a film, in words that end a sentence; null when it plays the film itself. */
export function proxyReason(facts: FilmFacts): string | null {
  const codec = CODEC_WORDS.get(facts.codec) ?? facts.codec;
  if (!CODECS.has(facts.codec)) return `the window does not play ${codec}`;
  if (!CONTAINERS.has(facts.container)) {
    return `the window does not play ${CONTAINER_WORDS.get(facts.container) ?? `a file of the kind ${facts.container}`}`;
  }
  if (facts.interlaced) return 'it is interlaced, and the window does not put its half pictures together';
  if (!facts.plainPixels) return `its ${codec} has more than 8 bits or finer color than 4:2:0`;
  return null;
}
